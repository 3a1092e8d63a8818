import { join } from 'node:path'
import { pathToFileURL } from 'node:url'
import { build } from 'vite'

/*
 * Bundles a program of the tests as Thickset itself is bundled and runs it in plain Node: under a test runner every
 * call between modules would cost more than the work that is done.
 */

const root = join(import.meta.dirname, '..', '..')

/** The built program. @param {string} folder of tests, @param {string} name of the program in it */
export async function bundled(folder, name) {
  // Beside the built program, so that both find its files by the same way.
  const outDir = join(root, 'out', `${folder}-built`)
  await build({
    root,
    configFile: false,
    logLevel: 'warn',
    build: { ssr: join(root, 'tests', folder, name), outDir, emptyOutDir: false, minify: false },
  })
  return join(outDir, name.replace(/\.tsx?$/, '.js'))
}

/** Runs it in this process. @param {string} folder of tests, @param {string} name of the program in it */
export async function runBundled(folder, name) {
  await import(pathToFileURL(await bundled(folder, name)).href)
}
