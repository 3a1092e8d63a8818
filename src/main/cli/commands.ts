import { FIDELITY_OPTION, HELP_OPTION, JOBS_OPTION, PROGRESS_OPTION, type Usage, type Words } from './words.ts'

/** Carries out a command; gives the exit code. */
export type Carry = (words: Words) => Promise<number>

export interface Command extends Usage {
  readonly load: () => Promise<Carry>
}

const PLAN_OPERAND = { operands: 'PLAN', least: 1, most: 1 }

const MEASURED = {
  type: 'string',
  value: 'FILE',
  says: 'with what earlier fits have kept of these surroundings and materials',
} as const

const forecast: Command = {
  command: 'forecast',
  operands: 'PLAN…',
  least: 1,
  most: 10_000,
  says: 'Compute a plan: answers, rules, cautions, quantities. Of many plans on all cores: in short, in their order.',
  options: {
    json: { type: 'boolean', says: 'print the whole forecast as one JSON object, of many plans one a line' },
    csv: { type: 'string', value: 'FILE', says: 'write the curves of one plan as CSV (- for standard output)' },
    air: { type: 'string', value: 'STAGE=FILE', says: "a logger's CSV as the air of a stage, by its name or number" },
    jobs: JOBS_OPTION,
    measured: MEASURED,
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

const material: Command = {
  command: 'material',
  operands: 'ID',
  least: 1,
  most: 1,
  says: 'Show a material: properties over temperature, composition, sources, weak points.',
  options: {
    plan: { type: 'string', value: 'PLAN', says: "look among this plan's own materials first (- for standard input)" },
    at: { type: 'string', value: 'T,T,…', says: 'at these temperatures, °C: --at -18,20,60' },
    json: { type: 'boolean', says: 'print everything as one JSON object, with whole curves unless --at is given' },
    help: HELP_OPTION,
  },
  load: async () => (await import('./material.ts')).carryMaterial,
}

const batch: Command = {
  command: 'batch',
  ...PLAN_OPERAND,
  says: 'Weigh a piece out: each ingredient by layer; or how thick a batch makes a layer.',
  options: {
    layer: { type: 'string', value: 'NAME', says: 'the layer that a batch goes into: fill[0], or its material' },
    kg: { type: 'string', value: 'N', says: "kg put together; as much as the layer's recipe makes if left out" },
    json: { type: 'boolean', says: 'print one JSON object' },
    help: HELP_OPTION,
  },
  load: async () => (await import('./batch.ts')).carryBatch,
}

const sheet: Command = {
  command: 'sheet',
  ...PLAN_OPERAND,
  says: 'What hangs in the workshop: stages by the clock, check times with what to expect, quantities, cautions.',
  options: {
    pdf: { type: 'string', value: 'FILE', says: 'write it as PDF, with blanks for what is measured' },
    paper: { type: 'string', value: 'SIZE', says: 'A4 or Letter; A4 if left out' },
    calendar: { type: 'string', value: 'FILE', says: 'write stage changes and check times as an iCalendar file' },
    json: { type: 'boolean', says: 'print the page as one JSON object' },
    fidelity: { ...FIDELITY_OPTION, says: `${FIDELITY_OPTION.says}; goes before the plan's own` },
    progress: PROGRESS_OPTION,
    help: HELP_OPTION,
  },
  load: async () => (await import('./sheet.ts')).carrySheet,
}

const spread: Command = {
  command: 'spread',
  ...PLAN_OPERAND,
  says: 'How sure the answers are: all uncertain inputs sampled; 5, 50 and 95 %, and what drives them.',
  options: {
    runs: { type: 'string', value: 'N', says: 'how many runs, 20 to 20000; 200 if left out' },
    seed: { type: 'string', value: 'S', says: 'another sample; the same seed gives the same numbers; 1 if left out' },
    jobs: JOBS_OPTION,
    json: { type: 'boolean', says: 'print one JSON object, with the curves' },
    measured: MEASURED,
    fidelity: { ...FIDELITY_OPTION, says: `${FIDELITY_OPTION.says}; goes before the plan's own` },
    progress: PROGRESS_OPTION,
    help: HELP_OPTION,
  },
  load: async () => (await import('./spread.ts')).carrySpread,
}

const QUESTION = {
  target: { type: 'string', value: 'KIND', says: "which of the plan's targets is asked; its first if left out" },
  rule: { type: 'string', value: 'ID', says: "which of the plan's rules is asked, in place of a target" },
} as const

const decide: Command = {
  command: 'decide',
  ...PLAN_OPERAND,
  says: 'What would help: real changes, each computed anew, ranked by what they buy, with what they cost elsewhere.',
  options: {
    ...QUESTION,
    json: { type: 'boolean', says: 'print one JSON object, with the changed plans' },
    jobs: JOBS_OPTION,
    measured: MEASURED,
    fidelity: { ...FIDELITY_OPTION, says: `${FIDELITY_OPTION.says}; goes before the plan's own` },
    progress: PROGRESS_OPTION,
    help: HELP_OPTION,
  },
  load: async () => (await import('./decide.ts')).carryDecide,
}

const thickest: Command = {
  command: 'thickest',
  ...PLAN_OPERAND,
  says: 'How thick at most, how warm, how late: the furthest value of one number that still meets what is asked.',
  options: {
    layer: { type: 'string', value: 'NAME', says: 'whose thickness: fill[0]; that of the thickest layer if left out' },
    number: {
      type: 'string',
      value: 'PATH',
      says: 'any number: fill[0].start_C, stages[0].in.air_C, startsAt (h later)',
    },
    least: { type: 'boolean', says: 'the least value in place of the greatest' },
    from: { type: 'string', value: 'A', says: 'look from here' },
    to: { type: 'string', value: 'B', says: 'to here' },
    ...QUESTION,
    json: { type: 'boolean', says: 'print one JSON object, with every value that was tried' },
    jobs: JOBS_OPTION,
    measured: MEASURED,
    fidelity: { ...FIDELITY_OPTION, says: `${FIDELITY_OPTION.says}; goes before the plan's own` },
    progress: PROGRESS_OPTION,
    help: HELP_OPTION,
  },
  load: async () => (await import('./thickest.ts')).carryThickest,
}

const fit: Command = {
  command: 'fit',
  ...PLAN_OPERAND,
  says: 'Readings against a plan: what they say of films, materials and starts, and how it goes on from here.',
  options: {
    readings: { type: 'string', value: 'LOG.csv', says: "a logger's file; the plan's own readings if left out" },
    probe: { type: 'string', value: 'NAME', says: 'which probe a log of one column is of, or core, or surface' },
    zone: { type: 'string', value: 'H', says: "hours after Greenwich of the plan's clock, for logs that name a zone" },
    fast: { type: 'string', value: 'MIN', says: "minutes that the logger's clock is fast" },
    noise: { type: 'string', value: 'K', says: 'standard deviation of one reading; 0.5 if left out' },
    factors: { type: 'string', value: 'A,B', says: 'only these may move: film, conductivity, start-temperature, …' },
    jobs: JOBS_OPTION,
    measured: MEASURED,
    keep: { type: 'string', value: 'FILE', says: 'keep what was found, for later plans; added to what the file holds' },
    'apply-to': { type: 'string', value: 'PLAN', says: 'forecast another plan, of another size, with what was found' },
    write: { type: 'string', value: 'FILE', says: 'write that plan; without it this plan with its readings' },
    json: { type: 'boolean', says: 'print one JSON object' },
    fidelity: { ...FIDELITY_OPTION, says: `${FIDELITY_OPTION.says}; goes before the plan's own` },
    progress: PROGRESS_OPTION,
    help: HELP_OPTION,
  },
  load: async () => (await import('./fit.ts')).carryFit,
}

/** Commands in the order of the help; one more is one line. */
export const commands: readonly Command[] = [
  forecast,
  spread,
  decide,
  thickest,
  fit,
  check,
  material,
  batch,
  sheet,
  schema,
  verify,
]
