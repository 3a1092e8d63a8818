import { parseArgs } from 'node:util'
import { type Fault, PlanError, sayFault } from '../../core/errors.ts'

/** How one option of a command is written and what it is for. */
export interface Option {
  readonly type: 'string' | 'boolean'
  /** What stands for its value in the help: `FILE`. */
  readonly value?: string
  readonly says: string
}

/** A command as the help shows it. */
export interface Usage {
  readonly command: string
  /** Its operands as written in the help: `PLAN`, `FILE…`, or nothing. */
  readonly operands: string
  readonly least: number
  readonly most: number
  readonly says: string
  readonly options: Readonly<Record<string, Option>>
}

/** The words of one call, sorted. */
export interface Words {
  readonly operands: readonly string[]
  text(option: string): string | undefined
  has(option: string): boolean
}

/** A fault in the words after `thickset`. */
export function wordFault(problem: string, remedy: string): PlanError {
  return new PlanError([{ path: 'command line', problem, remedy }])
}

/** Faults one a line, as they are told to a person. */
export const faultLines = (faults: readonly Fault[]): string => faults.map((fault) => `${sayFault(fault)}\n`).join('')

/** Changes of one letter that lead from one word to another. */
function steps(from: string, to: string): number {
  let row = Array.from({ length: to.length + 1 }, (_, index) => index)
  for (const [i, letter] of [...from].entries()) {
    const next = [i + 1]
    for (const [j, other] of [...to].entries())
      next.push(Math.min((row[j] ?? 0) + (letter === other ? 0 : 1), (row[j + 1] ?? 0) + 1, (next[j] ?? 0) + 1))
    row = next
  }
  return row[to.length] ?? 0
}

/** The known word that a mistyped one was probably meant for. */
export function meant(word: string, known: readonly string[]): string | undefined {
  const close = known
    .map((name) => ({ name, far: steps(word.toLowerCase(), name) }))
    .sort((a, b) => a.far - b.far)
    .find(({ name, far }) => far <= Math.max(1, Math.floor(name.length / 3)))
  return close?.name
}

/** What to write for an operand, with its number: `one PLAN`. */
function wanted({ operands, least, most }: Usage): string {
  if (most === 0) return 'nothing beside options'
  return least === most ? `one ${operands}` : `at least one ${operands.replace('…', '')}`
}

/** Sorts the words after a command. Throws `PlanError` naming every word that has no meaning, and what would. */
export function sortWords(usage: Usage, words: readonly string[]): Words {
  const known = Object.keys(usage.options)
  const parsed = parseArgs({
    args: [...words],
    options: Object.fromEntries(known.map((name) => [name, { type: usage.options[name]?.type ?? 'boolean' }])),
    allowPositionals: true,
    strict: false,
    tokens: true,
  })
  const faults: Fault[] = []
  const fault = (problem: string, remedy: string): void => {
    faults.push({ path: 'command line', problem, remedy })
  }
  for (const token of parsed.tokens) {
    if (token.kind !== 'option') continue
    const option = usage.options[token.name]
    if (option === undefined) {
      const near = meant(token.name, known)
      const all = known.map((name) => `--${name}`).join(' ')
      fault(
        `${token.rawName} is no option of ${usage.command}`,
        near === undefined ? `write one of ${all}, or nothing` : `write --${near}`,
      )
    } else if (option.type === 'string' && (token.value === undefined || token.value === ''))
      fault(`${token.rawName} has no value`, `write --${token.name} ${option.value ?? 'VALUE'}`)
    else if (option.type === 'boolean' && token.value !== undefined)
      fault(`${token.rawName} takes no value`, `write --${token.name} alone`)
  }
  const operands = parsed.positionals
  if (operands.length < usage.least || operands.length > usage.most)
    fault(
      operands.length === 0 ? `${usage.command} needs ${wanted(usage)}` : `${operands.length} given`,
      `write thickset ${usage.command}${usage.operands === '' ? '' : ` ${usage.operands}`} with ${wanted(usage)}`,
    )
  if (faults.length > 0) throw new PlanError(faults)
  const { values } = parsed
  return {
    operands,
    text: (option) => (typeof values[option] === 'string' ? values[option] : undefined),
    has: (option) => values[option] === true,
  }
}

const FIDELITIES = ['quick', 'standard', 'fine'] as const

/** The fidelity asked for; undefined when none was. Throws `PlanError`. */
export function fidelityOf(words: Words): (typeof FIDELITIES)[number] | undefined {
  const asked = words.text('fidelity')
  if (asked === undefined) return undefined
  const known = FIDELITIES.find((fidelity) => fidelity === asked)
  if (known === undefined) throw wordFault(`--fidelity ${asked} is unknown`, `write ${FIDELITIES.join(', ')}`)
  return known
}

/** Reads several words; throws one `PlanError` with the faults of all that can't be read. */
export function collectFaults<Read extends Readonly<Record<string, () => unknown>>>(
  read: Read,
): { readonly [Key in keyof Read]: ReturnType<Read[Key]> } {
  const faults: Fault[] = []
  const values = Object.entries(read).map(([key, one]) => {
    try {
      return [key, one()] as const
    } catch (error) {
      if (!(error instanceof PlanError)) throw error
      faults.push(...error.faults)
      return [key, undefined] as const
    }
  })
  if (faults.length > 0) throw new PlanError(faults)
  return Object.fromEntries(values) as { readonly [Key in keyof Read]: ReturnType<Read[Key]> }
}

export const FIDELITY_OPTION: Option = { type: 'string', value: 'F', says: 'quick, standard (default) or fine' }
export const JOBS_OPTION: Option = {
  type: 'string',
  value: 'N',
  says: 'so many computations at a time; as many as the machine has room for if left out',
}
export const PROGRESS_OPTION: Option = { type: 'boolean', says: 'show progress even where no one watches' }
export const HELP_OPTION: Option = { type: 'boolean', says: 'show this help' }
