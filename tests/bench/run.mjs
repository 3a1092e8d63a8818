import { readdirSync } from 'node:fs'
import { join } from 'node:path'
import { pathToFileURL } from 'node:url'
import { build } from 'vite'

/*
 * Bundles each bench as the program itself is bundled and runs it in plain Node: under a test runner every call
 * between modules would cost more than the work that is measured.
 */

const root = join(import.meta.dirname, '..', '..')
const asked = process.argv.slice(2)
const files = readdirSync(import.meta.dirname).filter((name) => name.endsWith('.ts'))
const outDir = join(root, 'out', 'bench')

for (const file of files) {
  const name = file.replace('.ts', '')
  if (asked.length > 0 && !asked.includes(name)) continue
  await build({
    root,
    configFile: false,
    logLevel: 'warn',
    build: { ssr: join(import.meta.dirname, file), outDir, emptyOutDir: false, minify: false },
  })
  await import(pathToFileURL(join(outDir, `${name}.js`)).href)
}
