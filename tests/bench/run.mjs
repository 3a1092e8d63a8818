import { fork } from 'node:child_process'
import { readdirSync, writeFileSync } from 'node:fs'
import { availableParallelism, loadavg } from 'node:os'
import { join } from 'node:path'
import process from 'node:process'
import { buildIfNeeded } from '../../src/main/build.mjs'
import { bundled } from '../support/bundled.mjs'

/*
 * Bundles each bench as the program itself is bundled and runs it in plain Node, in a process of its own: under a test
 * runner every call between modules would cost more than the work that is measured. All benches together leave their
 * tables in results/, named by the day and the kind of machine.
 */

const root = join(import.meta.dirname, '..', '..')
const asked = process.argv.slice(2)
const benches = readdirSync(import.meta.dirname)
  .filter((name) => name.endsWith('.ts'))
  .map((name) => name.replace('.ts', ''))

/** Runs a built bench; gives its tables and the most memory that its process had, MB. */
function run(/** @type {string} */ program) {
  return new Promise((done, failed) => {
    const child = fork(join(import.meta.dirname, 'one.mjs'), [program], { cwd: root })
    /** @type {unknown} */
    let found
    child.on('message', (message) => (found = message))
    child.on('close', (code) => (code === 0 ? done(found) : failed(new Error(`${program} ended with ${code}`))))
  })
}

const line = (/** @type {readonly string[]} */ cells) => `| ${cells.join(' | ')} |`

/** A table in Markdown, with the memory that its bench took. */
const written = (/** @type {any} */ { title, about, columns, rows }, /** @type {number} */ peak_MB) =>
  [
    `## ${title}`,
    '',
    `${about} Peak memory of the process: ${Math.round(peak_MB)} MB.`,
    '',
    line(columns),
    line(columns.map(() => '---')),
    ...rows.map(line),
    '',
  ].join('\n')

await buildIfNeeded()
const machine = `${availableParallelism()}-core-${process.arch}`
const day = new Date().toISOString().slice(0, 10)
const load = () => loadavg()[0]?.toFixed(1)
const sections = [`# ${day}, ${machine}, Node ${process.version}\n`]
for (const name of benches) {
  if (asked.length > 0 && !asked.includes(name)) continue
  const program = await bundled('bench', `${name}.ts`)
  const before = load()
  const { tables, peak_MB } = /** @type {any} */ (await run(program))
  for (const table of tables) {
    const section = `${written(table, peak_MB)}\nLoad of the machine: ${before} before, ${load()} after.\n`
    process.stdout.write(`${section}\n`)
    sections.push(section)
  }
}
if (asked.length === 0) writeFileSync(join(import.meta.dirname, 'results', `${day}-${machine}.md`), sections.join('\n'))
