import fdaFoodCode2022 from '../../../shared/rules/fda-food-code-2022.json'
import fsanz3227 from '../../../shared/rules/fsanz-3.2.2-7.json'
import { fromFahrenheit } from '../units.ts'
import { z } from '../zod.ts'

const finite = z.number()
const step = z.strictObject({
  to_C: finite.exactOptional(),
  /** A limit that its authority gives in Fahrenheit; converted exactly. */
  to_F: finite.exactOptional(),
  within_h: finite.gt(0),
  /** Whether the hours count from the rule's start temperature or from the step before. */
  clock: z.enum(['start', 'step']),
  /** "Less than" instead of "at most". */
  strict: z.boolean().exactOptional(),
})

/** One published cooling rule of steps: a file of shared/rules. */
export const ruleSchema = z.strictObject({
  id: z.string().regex(/^[a-z0-9.-]+$/),
  title: z.string().min(1),
  authority: z.string().min(1),
  kind: z.literal('staged'),
  start_C: finite.exactOptional(),
  start_F: finite.exactOptional(),
  steps: z.array(step).min(1),
  /** Another reading of the same words. */
  alternative: z.strictObject({ words: z.string().min(1), steps: z.array(step).min(1) }).exactOptional(),
  /** Only for places that never were at or above the start temperature. */
  never_hot: z.boolean().exactOptional(),
  for: z.string().min(1),
  measured: z.string().min(1),
  note: z.string().min(1),
  source: z.string().min(1),
  certainty: z.enum(['seen in the source', 'partly seen', 'from memory']),
})

export type RuleFile = z.infer<typeof ruleSchema>

/** A step of a cooling rule. */
export interface RuleStep {
  readonly to_C: number
  readonly within_h: number
  readonly clock: 'start' | 'step'
  readonly strict: boolean
}

/** A published cooling rule, limits in °C and hours. */
export interface StagedRule {
  readonly id: string
  readonly title: string
  readonly start_C: number
  readonly steps: readonly RuleStep[]
  readonly alternative?: { readonly words: string; readonly steps: readonly RuleStep[] }
  readonly neverHot: boolean
  readonly source: string
  readonly note: string
}

/** The one of two limits that is given, °C. Throws: a plain error when none or both are. */
function limit(given_C: number | undefined, given_F: number | undefined, rule: string): number {
  if (given_C !== undefined && given_F === undefined) return given_C
  if (given_F !== undefined && given_C === undefined) return fromFahrenheit(given_F)
  throw new Error(`rule ${rule}: give each limit either in Celsius or in Fahrenheit`)
}

/** A rule out of a file of shared/rules. */
export function ruleFromFile(file: unknown): StagedRule {
  const data = ruleSchema.parse(file)
  const steps = (given: RuleFile['steps']): RuleStep[] =>
    given.map(({ to_C, to_F, within_h, clock, strict = false }) => ({
      to_C: limit(to_C, to_F, data.id),
      within_h,
      clock,
      strict,
    }))
  const { id, title, source, note, alternative } = data
  return {
    id,
    title,
    start_C: limit(data.start_C, data.start_F, id),
    steps: steps(data.steps),
    ...(alternative === undefined ? {} : { alternative: { ...alternative, steps: steps(alternative.steps) } }),
    neverHot: data.never_hot ?? false,
    source,
    note,
  }
}

/** Files of shared/rules by id; a test compares this list with the folder. */
const files: Readonly<Record<string, unknown>> = {
  'fda-food-code-2022': fdaFoodCode2022,
  'fsanz-3.2.2-7': fsanz3227,
}

/** Ids of all published rules. */
export const ruleIds: readonly string[] = Object.keys(files)

/** A published rule; nothing when there is none of this id. */
export function findRule(id: string): StagedRule | undefined {
  return Object.hasOwn(files, id) ? ruleFromFile(files[id]) : undefined
}
