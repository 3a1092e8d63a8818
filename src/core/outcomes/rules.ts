import { fromFahrenheit } from '../units.ts'
import { z } from '../zod.ts'
import { publishedRules } from './published-rules.ts'

/*
 * Published rules as data: a file of shared/rules holds one rule in the words and units of its authority, here it
 * becomes degrees Celsius and hours. Rules are of four kinds: falls step by step (`staged`), time in bands (`bands`),
 * time in a zone (`zone`), and limits for what has been cooled (`hold`).
 */

const finite = z.number()
const hours = finite.gt(0)

const step = z.strictObject({
  to_C: finite.exactOptional(),
  /** A limit that its authority gives in Fahrenheit; converted exactly. */
  to_F: finite.exactOptional(),
  within_h: hours,
  /** Whether the hours count from the rule's start temperature or from the step before. */
  clock: z.enum(['start', 'step']),
  /** "Less than" instead of "at most". */
  strict: z.boolean().exactOptional(),
})

const common = {
  id: z.string().regex(/^[a-z0-9.-]+$/),
  title: z.string().min(1),
  authority: z.string().min(1),
  /** false: kept for reference, not to be asked for; absent: offered. */
  offered: z.boolean().exactOptional(),
  for: z.string().min(1),
  measured: z.string().min(1),
  note: z.string().min(1),
  source: z.string().min(1),
  certainty: z.enum(['seen in the source', 'partly seen', 'from memory']),
}

const stagedFile = z.strictObject({
  ...common,
  kind: z.literal('staged'),
  start_C: finite.exactOptional(),
  start_F: finite.exactOptional(),
  steps: z.array(step).min(1),
  /** Another reading of the same words. */
  alternative: z.strictObject({ words: z.string().min(1), steps: z.array(step).min(1) }).exactOptional(),
  /** Only for places that never were at or above the start temperature. */
  never_hot: z.boolean().exactOptional(),
})

const bandsFile = z.strictObject({
  ...common,
  kind: z.literal('bands'),
  bands: z
    .array(
      z.strictObject({
        from_C: finite.exactOptional(),
        from_F: finite.exactOptional(),
        to_C: finite.exactOptional(),
        to_F: finite.exactOptional(),
        within_h: hours,
      }),
    )
    .min(1),
})

const zoneFile = z.strictObject({
  ...common,
  kind: z.literal('zone'),
  low_C: finite.exactOptional(),
  low_F: finite.exactOptional(),
  high_C: finite.exactOptional(),
  high_F: finite.exactOptional(),
  /** Since the place was first cooled through, or since it was cooked. */
  counts_from: z.enum(['after-cooling', 'after-cook']),
  within_h: hours.exactOptional(),
  /** Fewer hours where the air is hotter than this while they count. */
  hot_air: z
    .strictObject({ above_C: finite.exactOptional(), above_F: finite.exactOptional(), within_h: hours })
    .exactOptional(),
  /** More hours where counting begins in the cold and no place ever gets warmer than this. */
  cold_start: z.strictObject({ never_above_C: finite, within_h: hours }).exactOptional(),
  /** What is to be done with the food, by hours; each "less than", the last one has no limit and fails. */
  classes: z
    .array(z.strictObject({ below_h: hours.exactOptional(), words: z.string().min(1) }))
    .min(2)
    .exactOptional(),
})

const holdFile = z.strictObject({
  ...common,
  kind: z.literal('hold'),
  cold_C: finite.exactOptional(),
  cold_F: finite.exactOptional(),
  hot_C: finite.exactOptional(),
  hot_F: finite.exactOptional(),
  /** One spell outside that is excused. */
  spell: z.strictObject({ within_h: hours, strict: z.boolean().exactOptional() }).exactOptional(),
})

/** One published rule: a file of shared/rules. */
export const ruleSchema = z.discriminatedUnion('kind', [stagedFile, bandsFile, zoneFile, holdFile])

export type RuleFile = z.infer<typeof ruleSchema>

/** A step of a cooling rule. */
export interface RuleStep {
  readonly to_C: number
  readonly within_h: number
  readonly clock: 'start' | 'step'
  readonly strict: boolean
}

interface Published {
  readonly id: string
  readonly title: string
  readonly source: string
  readonly note: string
  /** Where its authority wants the temperature taken, in words. */
  readonly measured: string
}

/** A published cooling rule of steps, limits in °C and hours. */
export interface StagedRule extends Published {
  readonly kind: 'staged'
  readonly start_C: number
  readonly steps: readonly RuleStep[]
  readonly alternative?: { readonly words: string; readonly steps: readonly RuleStep[] }
  readonly neverHot: boolean
}

/** A published rule of time inside bands of temperature. */
export interface BandRule extends Published {
  readonly kind: 'bands'
  readonly bands: readonly { readonly from_C: number; readonly to_C: number; readonly within_h: number }[]
}

/** A published rule of time inside a zone of temperature. */
export interface ZoneRule extends Published {
  readonly kind: 'zone'
  readonly low_C: number
  readonly high_C: number
  readonly countsFrom: 'after-cooling' | 'after-cook'
  /** Absent where `classes` say it. */
  readonly within_h?: number
  readonly hotAir?: { readonly above_C: number; readonly within_h: number }
  readonly coldStart?: { readonly neverAbove_C: number; readonly within_h: number }
  readonly classes?: readonly { readonly below_h?: number; readonly words: string }[]
}

/** Published limits for what has been cooled or is kept hot. */
export interface HoldRule extends Published {
  readonly kind: 'hold'
  readonly cold_C: number
  readonly hot_C: number
  readonly spell?: { readonly within_h: number; readonly strict: boolean }
}

export type Rule = StagedRule | BandRule | ZoneRule | HoldRule

/** The one of two limits that is given, °C. Throws: a plain error when none or both are. */
function limit(given_C: number | undefined, given_F: number | undefined, rule: string): number {
  if (given_C !== undefined && given_F === undefined) return given_C
  if (given_F !== undefined && given_C === undefined) return fromFahrenheit(given_F)
  throw new Error(`rule ${rule}: give each limit either in Celsius or in Fahrenheit`)
}

/** A rule out of a file of shared/rules. */
export function ruleFromFile(file: unknown): Rule {
  const data = ruleSchema.parse(file)
  const { id, title, source, note, measured } = data
  const published = { id, title, source, note, measured }
  switch (data.kind) {
    case 'staged':
      return { ...published, ...stagedFrom(data) }
    case 'bands': {
      const bands = data.bands.map(({ from_C, from_F, to_C, to_F, within_h }) => ({
        from_C: limit(from_C, from_F, id),
        to_C: limit(to_C, to_F, id),
        within_h,
      }))
      return { ...published, kind: 'bands', bands }
    }
    case 'zone':
      return { ...published, ...zoneFrom(data) }
    case 'hold': {
      const { spell } = data
      return {
        ...published,
        kind: 'hold',
        cold_C: limit(data.cold_C, data.cold_F, id),
        hot_C: limit(data.hot_C, data.hot_F, id),
        ...(spell === undefined ? {} : { spell: { strict: false, ...spell } }),
      }
    }
  }
}

function stagedFrom(data: z.infer<typeof stagedFile>): Omit<StagedRule, keyof Published> {
  const { id, alternative } = data
  const steps = (given: (typeof data)['steps']): RuleStep[] =>
    given.map(({ to_C, to_F, within_h, clock, strict = false }) => ({
      to_C: limit(to_C, to_F, id),
      within_h,
      clock,
      strict,
    }))
  return {
    kind: 'staged',
    start_C: limit(data.start_C, data.start_F, id),
    steps: steps(data.steps),
    ...(alternative === undefined ? {} : { alternative: { ...alternative, steps: steps(alternative.steps) } }),
    neverHot: data.never_hot ?? false,
  }
}

function zoneFrom(data: z.infer<typeof zoneFile>): Omit<ZoneRule, keyof Published> {
  const { id, within_h, hot_air, cold_start, classes } = data
  if ((within_h === undefined) === (classes === undefined))
    throw new Error(`rule ${id}: give either within_h or classes`)
  return {
    kind: 'zone',
    low_C: limit(data.low_C, data.low_F, id),
    high_C: limit(data.high_C, data.high_F, id),
    countsFrom: data.counts_from,
    ...(within_h === undefined ? {} : { within_h }),
    ...(classes === undefined ? {} : { classes }),
    ...(hot_air === undefined
      ? {}
      : { hotAir: { above_C: limit(hot_air.above_C, hot_air.above_F, id), within_h: hot_air.within_h } }),
    ...(cold_start === undefined
      ? {}
      : { coldStart: { neverAbove_C: cold_start.never_above_C, within_h: cold_start.within_h } }),
  }
}

/** What is read of a file before a plan asks for its rule. */
interface Listed {
  readonly id: string
  readonly offered?: boolean
}

const files: ReadonlyMap<string, Listed> = new Map(publishedRules.map((file) => [file.id, file]))
const rules = new Map<string, Rule>()

/** Ids of the published rules that a plan may ask for. */
export const ruleIds: readonly string[] = [...files.values()].flatMap(({ id, offered = true }) => (offered ? [id] : []))

/** A published rule, offered or not, made out of its file when first asked for; nothing when there is none of this id. */
export function findRule(id: string): Rule | undefined {
  const file = files.get(id)
  if (file === undefined) return undefined
  const made = rules.get(id) ?? ruleFromFile(file)
  rules.set(id, made)
  return made
}
