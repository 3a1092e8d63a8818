import type { Rule } from '../outcomes/rules.ts'
import { fromFahrenheit } from '../units.ts'
import { z } from '../zod.ts'

/** Form of a file of safety vectors: rules, tables, and histories with the outcomes that follow from them. */

export const SAFETY_FORMAT = 'thickset-safety-reference'

const finite = z.number()
const step = z.looseObject({
  to_C: finite,
  within_h: finite,
  clock: z.enum(['start', 'step']),
  strict: z.boolean().exactOptional(),
})
const staged = z.looseObject({
  id: z.string(),
  kind: z.literal('staged'),
  start_C: finite,
  start_F: finite.exactOptional(),
  steps: z.array(step).min(1),
  alternative: z.looseObject({ steps: z.array(step).min(1) }).exactOptional(),
  /** In words: only for places that never were hot. */
  appliesWhen: z.string().exactOptional(),
})
const bands = z.looseObject({
  id: z.string(),
  kind: z.literal('bands'),
  bands: z.array(
    z.looseObject({
      hi_C: finite,
      lo_C: finite,
      hi_F: finite.exactOptional(),
      lo_F: finite.exactOptional(),
      within_h: finite,
    }),
  ),
})
const zone = z.looseObject({
  id: z.string(),
  kind: z.literal('zone'),
  lo_C: finite,
  hi_C: finite,
  lo_F: finite.exactOptional(),
  hi_F: finite.exactOptional(),
  within_h: finite.exactOptional(),
  within_h_hotAir: finite.exactOptional(),
  hotAir_F: finite.exactOptional(),
  countFrom: z.enum(['after-cooling', 'after-cook']),
  classes: z.array(z.looseObject({ name: z.string(), below_h: finite.exactOptional() })).exactOptional(),
  variant: z.looseObject({ within_h: finite, neverAbove_C: finite }).exactOptional(),
})
const holding = z.looseObject({
  id: z.string(),
  cold_max_C: finite.nullable(),
  hot_min_C: finite.nullable(),
  cold_max_F: finite.exactOptional(),
  hot_min_F: finite.exactOptional(),
})

const point = z.looseObject({ name: z.string(), history: z.array(z.tuple([finite, finite])).min(1) })
/** One outcome to be found; which keys it has goes by its kind. */
const check = z.looseObject({ kind: z.string() })
const vector = z.looseObject({
  id: z.string(),
  unit: z.enum(['C', 'F']),
  points: z.array(point).min(1),
  checks: z.array(check),
  source: z.string().exactOptional(),
})

const byOrganism = z.record(z.string(), z.array(finite))
export const safetyFile = z.looseObject({
  tolerances: z.looseObject({ time_h: finite, log10: finite, A_rel: finite, P_rel: finite }),
  rules: z.array(z.discriminatedUnion('kind', [staged, bands, zone])).exactOptional(),
  holding: z.array(holding).exactOptional(),
  organisms: z
    .array(
      z.looseObject({
        id: z.string(),
        mu_opt_per_h: finite,
        h0: finite,
        h0_low: finite,
        h0_high: finite,
        T: z.looseObject({ min_C: finite, opt_C: finite, max_C: finite }),
        aw: z.looseObject({ min: finite, opt: finite }),
        pH: z.looseObject({ min: finite, opt: finite, max: finite }),
      }),
    )
    .exactOptional(),
  lethalityTargets: z
    .array(z.looseObject({ id: z.string(), Tref_C: finite, z_C: finite, D_ref_min: finite, floor_C: finite }))
    .exactOptional(),
  rateTable: z.looseObject({ T_C: z.array(finite), mu_per_h: byOrganism }).exactOptional(),
  gammaAwTable: z.looseObject({ aw: z.array(finite), gamma: byOrganism }).exactOptional(),
  suboptimalSlope: z.looseObject({ b: z.record(z.string(), finite) }).exactOptional(),
  growthFormulaChecks: z
    .array(z.looseObject({ A: finite, h0: finite, room_log10: finite.nullable(), log10: finite }))
    .exactOptional(),
  equivalents_70C_2min_z7p5: z.array(z.looseObject({ T_C: finite, min: finite })).exactOptional(),
  publishedCoolings: z
    .array(
      z.looseObject({
        id: z.string(),
        organism: z.string(),
        published: z.string(),
        history: z.array(z.tuple([finite, finite])).exactOptional(),
        acceptLog10: z.tuple([finite, finite]).nullable(),
        A: finite,
        log10: z.looseObject({ h0: finite, h0_low: finite, h0_high: finite }),
      }),
    )
    .exactOptional(),
  thicknessOrientation: z
    .looseObject({
      rows: z.array(z.looseObject({ rule: z.string(), air_C: finite, h_W_m2K: finite.nullable(), half_mm: finite })),
    })
    .exactOptional(),
  vectors: z.array(vector).exactOptional(),
})

export type SafetyFile = z.infer<typeof safetyFile>
export type SafetyVector = z.infer<typeof vector>
export type SafetyCheck = z.infer<typeof check>
type RuleOfFile = NonNullable<SafetyFile['rules']>[number]

const exact = (given_C: number, given_F: number | undefined): number =>
  given_F === undefined ? given_C : fromFahrenheit(given_F)

/** A rule of the file as the core evaluates it. */
export function ruleOf(file: RuleOfFile): Rule {
  const published = { id: file.id, title: file.id, source: 'the file', note: '', measured: 'the file' }
  if (file.kind === 'staged') {
    const steps = (given: typeof file.steps) => given.map((one) => ({ ...one, strict: one.strict ?? false }))
    return {
      ...published,
      kind: 'staged',
      start_C: exact(file.start_C, file.start_F),
      steps: steps(file.steps),
      neverHot: file.appliesWhen !== undefined,
      ...(file.alternative === undefined
        ? {}
        : { alternative: { words: 'the other reading', steps: steps(file.alternative.steps) } }),
    }
  }
  if (file.kind === 'bands')
    return {
      ...published,
      kind: 'bands',
      bands: file.bands.map(({ hi_C, lo_C, hi_F, lo_F, within_h }) => ({
        from_C: exact(hi_C, hi_F),
        to_C: exact(lo_C, lo_F),
        within_h,
      })),
    }
  const { within_h, within_h_hotAir, hotAir_F, classes, variant } = file
  return {
    ...published,
    kind: 'zone',
    low_C: exact(file.lo_C, file.lo_F),
    high_C: exact(file.hi_C, file.hi_F),
    countsFrom: file.countFrom,
    ...(within_h === undefined ? {} : { within_h }),
    ...(within_h_hotAir === undefined || hotAir_F === undefined
      ? {}
      : { hotAir: { above_C: fromFahrenheit(hotAir_F), within_h: within_h_hotAir } }),
    ...(variant === undefined ? {} : { coldStart: { neverAbove_C: variant.neverAbove_C, within_h: variant.within_h } }),
    ...(classes === undefined
      ? {}
      : {
          classes: classes.map(({ name, below_h }) => ({ words: name, ...(below_h === undefined ? {} : { below_h }) })),
        }),
  }
}

/** Limits of a holding rule of the file, °C; null where it gives none. */
export const holdingOf = ({ cold_max_C, hot_min_C, cold_max_F, hot_min_F }: z.infer<typeof holding>) => ({
  cold_C: cold_max_C === null ? null : exact(cold_max_C, cold_max_F),
  hot_C: hot_min_C === null ? null : exact(hot_min_C, hot_min_F),
})
