import { readdirSync } from 'node:fs'
import { runBundled } from '../support/bundled.mjs'

const asked = process.argv.slice(2)
const files = readdirSync(import.meta.dirname).filter((name) => name.endsWith('.ts'))

for (const file of files) {
  if (asked.length > 0 && !asked.includes(file.replace('.ts', ''))) continue
  await runBundled('bench', file)
}
