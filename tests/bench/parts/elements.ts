import { spawnSync } from 'node:child_process'
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'

/** What heat.edp is asked: the piece, m and m² K/W, and how finely it is to be computed. */
export interface Asked {
  readonly isBar: boolean
  readonly width: number
  readonly height: number
  readonly Rabove: number
  readonly Rside: number
  /** Sides of triangles at the surface, m, and how much longer for each metre under it. */
  readonly finest: number
  readonly coarser: number
  /** Change of the last turn of a step, K. */
  readonly within: number
  /** Steps in half an hour, of the first stage and of the second. */
  readonly steps1: number
  readonly steps2: number
  readonly runs: number
}

export interface ByElements {
  /** The three outputs of each half hour. */
  readonly values: readonly number[]
  readonly corners: number
  /** Of the processor, a number each run. */
  readonly seconds: readonly number[]
}

const SCRIPT = join(import.meta.dirname, '../../tests/bench/parts/heat.edp')
const PROGRAM = 'FreeFem++-nw'

/** The same piece by finite elements in FreeFEM; nothing where it is not installed. */
export function byElements(asked: Asked): ByElements | undefined {
  const folder = mkdtempSync(join(tmpdir(), 'thickset-bench-'))
  try {
    const head = Object.entries(asked).map(([name, value]) => {
      const kind = typeof value === 'boolean' ? 'bool' : /^(steps|runs)/.test(name) ? 'int' : 'real'
      return `${kind} ${name} = ${value};\n`
    })
    const path = join(folder, 'asked.edp')
    writeFileSync(path, head.join('') + readFileSync(SCRIPT, 'utf8'))
    const { error, status, stdout } = spawnSync(PROGRAM, ['-v', '0', '-ns', path], { encoding: 'utf8', maxBuffer: 1e9 })
    if ((error as NodeJS.ErrnoException | undefined)?.code === 'ENOENT') return undefined
    if (status !== 0) throw new Error(`bench: FreeFEM stopped\n${stdout}`)
    const told = (word: string): number[] =>
      stdout.split('\n').flatMap((line) => (line.startsWith(`${word} `) ? line.split(' ').slice(1).map(Number) : []))
    return { values: told('at'), corners: told('corners')[0]!, seconds: told('seconds') }
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
}
