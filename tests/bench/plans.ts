import { spawnSync } from 'node:child_process'
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { availableParallelism, tmpdir } from 'node:os'
import { join } from 'node:path'
import { readPlan } from '../../src/core/plan/read.ts'
import { figures, type Table } from './parts/table.ts'
import { median } from './parts/timing.ts'

/*
 * A hundred plans in one call of the built command line, with one job and with as many as the machine has room for:
 * the examples in turn, each time started at another temperature. The calls take turns, so that whatever else the machine
 * does falls on both alike. Beside the times stands what the processor did for all threads of a call: it tells what the
 * jobs cost, however busy the machine is.
 */

const PLANS = 100
const ROUNDS = 3
const EXAMPLES = 'shared/examples'
const program = join(import.meta.dirname, '../main/cli.js')
const folder = mkdtempSync(join(tmpdir(), 'thickset-plans-'))

const examples = readdirSync(EXAMPLES).map((name) => readPlan(readFileSync(`${EXAMPLES}/${name}`, 'utf8')))
const files = Array.from({ length: PLANS }, (_, index) => {
  const plan = examples[index % examples.length]!
  const warmer = Math.floor(index / examples.length) / 4
  const fill = plan.piece.fill.map((layer) => ({ ...layer, start_C: layer.start_C + warmer }))
  const file = join(folder, `${index}.thickset`)
  writeFileSync(file, JSON.stringify({ ...plan, fidelity: 'quick', piece: { ...plan.piece, fill } }))
  return file
})

/** Tells at the end of a call what its processor did for all its threads, s. */
const TELL = `import { isMainThread } from 'node:worker_threads'
if (isMainThread) process.on('exit', () => {
  const { user, system } = process.cpuUsage()
  process.stderr.write('processor ' + (user + system) / 1e6)
})`

/** Seconds of one call and of its processor, and the lines that it printed. */
function call(jobs: number): { readonly seconds: number; readonly processor: number; readonly lines: number } {
  const began = performance.now()
  const tell = ['--import', `data:text/javascript,${encodeURIComponent(TELL)}`]
  const words = [...tell, program, 'forecast', ...files, '--json', '--jobs', String(jobs)]
  const { stdout, status, stderr } = spawnSync(process.execPath, words, { encoding: 'utf8', maxBuffer: 1e9 })
  if (status !== 0) throw new Error(`bench: the call ended with ${status}\n${stderr}`)
  const seconds = (performance.now() - began) / 1000
  return { seconds, processor: Number(stderr.split('processor ').at(-1)), lines: stdout.trim().split('\n').length }
}

const all = availableParallelism()
const ways = all > 2 ? [1, 2, all] : [1, 2]
const taken = new Map(ways.map((jobs) => [jobs, [] as number[]]))
const worked = new Map(ways.map((jobs) => [jobs, [] as number[]]))
for (let round = 0; round < ROUNDS; round++)
  for (const jobs of ways) {
    const { seconds, processor, lines } = call(jobs)
    if (lines !== PLANS) throw new Error(`bench: ${lines} lines of ${PLANS} plans`)
    taken.get(jobs)!.push(seconds)
    worked.get(jobs)!.push(processor)
  }
rmSync(folder, { recursive: true })

const least = (jobs: number): number => Math.min(...taken.get(jobs)!)
const leastWork = (jobs: number): number => Math.min(...worked.get(jobs)!)
export const tables: readonly Table[] = [
  {
    title: `${PLANS} plans in one call`,
    about: 'From the start of the process to its end, quick fidelity, one JSON object a line.',
    columns: [
      'jobs',
      'median',
      'least',
      'runs',
      'times as fast as with one (least)',
      'processor of all threads (least)',
      'times as fast on idle cores at most, by the processor',
    ],
    rows: ways.map((jobs) => [
      String(jobs),
      `${figures(median(taken.get(jobs)!))} s`,
      `${figures(least(jobs))} s`,
      String(ROUNDS),
      (least(1) / least(jobs)).toFixed(2),
      `${figures(leastWork(jobs))} s`,
      ((jobs * leastWork(1)) / leastWork(jobs)).toFixed(2),
    ]),
  },
]
