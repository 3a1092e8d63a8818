import { existsSync } from 'node:fs'
import { join } from 'node:path'
import react from '@vitejs/plugin-react'
import { defineConfig } from 'electron-vite'

const source = (path: string): string => join(import.meta.dirname, 'src', path)

/** The programs made of src/main: Electron's entry, the loopback host, the launcher, the command line and its workers. */
const programs = Object.fromEntries(
  ['index', 'host', 'launch', 'cli', 'pool-worker']
    .map((name) => ({ name, file: source(`main/${name}.ts`) }))
    .filter(({ file }) => existsSync(file))
    .map(({ name, file }) => [name, file]),
)

export default defineConfig({
  main: {
    build: {
      // The same files run in plain Node, so the oldest Node is the target, not Electron's.
      target: 'node20.19',
      // Everything is bundled: the packed program carries no node_modules.
      externalizeDeps: false,
      minify: false,
      rolldownOptions: {
        input: programs,
        output: { format: 'es', entryFileNames: '[name].js', chunkFileNames: 'chunks/[name]-[hash].js' },
      },
    },
  },
  preload: {
    build: {
      externalizeDeps: false,
      // A sandboxed preload must be CommonJS, which in a "type": "module" package means the ending .cjs.
      rolldownOptions: {
        input: { preload: source('main/preload.ts') },
        output: { format: 'cjs', entryFileNames: '[name].cjs' },
      },
    },
  },
  renderer: {
    root: source('renderer'),
    base: './',
    plugins: [react()],
    worker: { format: 'es' },
    build: {
      minify: true,
      chunkSizeWarningLimit: 2000,
      rolldownOptions: { input: source('renderer/index.html') },
    },
  },
})
