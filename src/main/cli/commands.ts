import { FIDELITY_OPTION, HELP_OPTION, PROGRESS_OPTION, type Usage, type Words } from './words.ts'

/** Carries out a command; gives the exit code. */
export type Carry = (words: Words) => Promise<number>

export interface Command extends Usage {
  readonly load: () => Promise<Carry>
}

const PLAN_OPERAND = { operands: 'PLAN', least: 1, most: 1 }

const forecast: Command = {
  command: 'forecast',
  ...PLAN_OPERAND,
  says: 'Compute a plan: answers, rules, cautions, quantities.',
  options: {
    json: { type: 'boolean', says: 'print the whole forecast as one JSON object' },
    csv: { type: 'string', value: 'FILE', says: 'write the curves as CSV (- for standard output)' },
    fidelity: { ...FIDELITY_OPTION, says: `${FIDELITY_OPTION.says}; goes before the plan's own` },
    progress: PROGRESS_OPTION,
    help: HELP_OPTION,
  },
  load: async () => (await import('./forecast.ts')).carryForecast,
}

const check: Command = {
  command: 'check',
  ...PLAN_OPERAND,
  says: 'Read a plan and name every fault in it, without computing it.',
  options: { help: HELP_OPTION },
  load: async () => (await import('./check.ts')).carryCheck,
}

const schema: Command = {
  command: 'schema',
  operands: '',
  least: 0,
  most: 0,
  says: 'Print the JSON Schema of a plan file.',
  options: { help: HELP_OPTION },
  load: async () => (await import('./schema.ts')).carrySchema,
}

const verify: Command = {
  command: 'verify',
  operands: 'FILE…',
  least: 1,
  most: 1000,
  says: 'Run cases with known outcomes and compare; exit 1 when any is outside its tolerance.',
  options: {
    fidelity: FIDELITY_OPTION,
    json: { type: 'boolean', says: 'print one JSON object a file' },
    progress: PROGRESS_OPTION,
    help: HELP_OPTION,
  },
  load: async () => (await import('./verify.ts')).carryVerify,
}

/** Commands in the order of the help; one more is one line. */
export const commands: readonly Command[] = [forecast, check, schema, verify]
