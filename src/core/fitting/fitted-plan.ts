import { pathOf, replaced } from '../choosing/one-number.ts'
import { NINETY } from '../deciding/inputs.ts'
import { powerOf } from '../deciding/variation.ts'
import { surroundingsOf } from '../plan/exchange.ts'
import { type Path, valueAt } from '../plan/path.ts'
import type { Plan, PlanMaterial, PlanStage, PlanSurroundings } from '../plan/schema/plan.ts'
import { unrolled } from '../plan/unrolled.ts'
import type { FittedPlan } from './fit.ts'

/*
 * A plan with what its readings say written into it: its materials and surroundings as measured, its layers as they
 * began. It computes the same course as the fit; what is still open is written beside each number, each by itself.
 */

type MeasuredSurroundings = NonNullable<PlanSurroundings['measured']>
type MeasuredMaterial = NonNullable<PlanMaterial['measured']>

interface Looked {
  /** Logarithm of a factor, or a shift in K, with its standard deviation. */
  readonly value: number
  readonly deviation: number
}

/** What a fit says of one input; nothing where the plan has none such. */
function lookInto({ inputs, middle, covariance }: FittedPlan) {
  const place = new Map(inputs.map(({ kind, of }, index) => [`${kind} ${of}`, index]))
  const at = (kind: string, of: string): number | undefined => place.get(`${kind} ${of}`)
  return {
    one(kind: string, of: string): Looked | undefined {
      const index = at(kind, of)
      if (index === undefined) return undefined
      const { sigma } = inputs[index]!
      return { value: sigma * middle[index]!, deviation: sigma * Math.sqrt(covariance.get(index, index)) }
    },
    /** Standard deviation of the sum of two. */
    both(a: readonly [string, string], b: readonly [string, string]): number {
      const [i, j] = [at(...a), at(...b)]
      if (i === undefined || j === undefined) return this.one(...(i === undefined ? b : a))?.deviation ?? 0
      const [s, t] = [inputs[i]!.sigma, inputs[j]!.sigma]
      const variance = s * s * covariance.get(i, i) + t * t * covariance.get(j, j) + 2 * s * t * covariance.get(i, j)
      return Math.sqrt(Math.max(0, variance))
    },
  }
}

type Look = ReturnType<typeof lookInto>

/** ± per cent, 5 to 95 %. */
const within_pct = (deviation: number): number => Math.min(100, 100 * Math.expm1(NINETY * deviation))

function measuredMaterial(
  given: PlanMaterial | undefined,
  id: string,
  look: Look,
  on: string,
): PlanMaterial | undefined {
  const [k, heat] = [look.one('conductivity', id), look.one('heat', id)]
  if (k === undefined && heat === undefined) return undefined
  const before = given?.measured ?? {}
  const measured: MeasuredMaterial = {
    ...before,
    ...(k === undefined
      ? {}
      : { k_times: (before.k_times ?? 1) * Math.exp(k.value), k_within_pct: within_pct(k.deviation) }),
    ...(heat === undefined
      ? {}
      : { heat_times: (before.heat_times ?? 1) * Math.exp(heat.value), heat_within_pct: within_pct(heat.deviation) }),
    on,
  }
  return { ...(given ?? { like: id }), measured }
}

/** Surroundings as measured; on faces that differ, what they differ by. */
function measuredSurroundings(
  given: PlanSurroundings,
  key: string,
  classes: ReadonlyMap<string, string>,
  power: (looked: Looked) => number,
  look: Look,
  on: string,
): PlanSurroundings {
  const before = given.measured ?? {}
  const film = look.one('film', key)
  const air = look.one('air temperature', key)
  const rated = look.one('power', key)
  const names = film === undefined ? [] : [...classes]
  const open = names.map(([face, name]) => ({ face, all: look.both(['film', key], ['face film', name]) }))
  const common = open.length === 0 ? (film?.deviation ?? 0) : Math.min(...open.map(({ all }) => all))
  const faces = Object.fromEntries(
    names.map(([face, name], index) => [
      face,
      {
        times: (before.faces?.[face]?.times ?? 1) * Math.exp(look.one('face film', name)?.value ?? 0),
        within_pct: within_pct(Math.sqrt(Math.max(0, open[index]!.all ** 2 - common ** 2))),
      },
    ]),
  )
  const measured: MeasuredSurroundings = {
    ...before,
    ...(film === undefined
      ? {}
      : {
          film_times: (before.film_times ?? 1) * Math.exp(film.value),
          film_within_pct: within_pct(common),
          faces,
        }),
    ...(air === undefined
      ? {}
      : { air_plus_K: (before.air_plus_K ?? 0) + air.value, air_within_K: NINETY * air.deviation }),
    ...(rated === undefined
      ? {}
      : { power_times: (before.power_times ?? 1) * power(rated), power_within_pct: within_pct(rated.deviation) }),
    on,
  }
  return { ...given, measured }
}

/** Where the plan writes the layer of a name such as `fill[0]` or `stages[1].start[0]`. */
function pathOfLayer(name: string): Path {
  const path = pathOf(name)
  return path[0] === 'inserts' ? ['piece', ...path] : path
}

/** Layers as they began, and as thick as they turned out. */
function withLayers(plan: Plan, { inputs }: FittedPlan, look: Look): Plan {
  return inputs.reduce((edited, { kind, of }) => {
    if (kind !== 'start temperature' && kind !== 'thickness') return edited
    const { value } = look.one(kind, of)!
    const path: Path = [...pathOfLayer(of), kind === 'thickness' ? 'thickness_mm' : 'start_C']
    const now = valueAt(edited, path)
    if (typeof now !== 'number' || value === 0) return edited
    return replaced(edited, path, kind === 'thickness' ? now * Math.exp(value) : now + value)
  }, plan)
}

/**
 * The plan with what its readings say written into it.
 * @param on  what it was measured on, for whoever uses it later
 */
export function planAsFitted(plan: Plan, fitted: FittedPlan, on = plan.title): Plan {
  const look = lookInto(fitted)
  const { drawing, resolved } = fitted
  const rounds = unrolled(plan.stages)
  const stages = plan.stages.map((stage, index): PlanStage => {
    const round = rounds.findIndex((one) => one.index === index)
    const key = drawing.airs[round]!
    const power = ({ value }: Looked): number => powerOf(resolved.job.stages[round]!, Math.exp(value))
    return { ...stage, in: measuredSurroundings(surroundingsOf(stage), key, drawing.classes, power, look, on) }
  })
  const materials = Object.fromEntries(
    resolved.materials.flatMap(({ id }) => {
      const material = measuredMaterial(plan.materials?.[id], id, look, on)
      return material === undefined ? [] : [[id, material]]
    }),
  )
  return withLayers({ ...plan, materials: { ...plan.materials, ...materials }, stages }, fitted, look)
}
