import type { Control } from '../control.ts'
import type { Course } from '../journey/course.ts'
import type { Fidelity, Job } from '../journey/job.ts'
import { computeJourney } from '../journey/journey.ts'
import type { Material } from '../materials/material.ts'
import { buildSpecimen, missingShape } from './case-body.ts'
import { buildCaseMaterial } from './case-material.ts'
import type { Case, CaseOutput } from './case-schema.ts'
import { buildStages, profileOf, swingOf } from './case-surroundings.ts'
import { type History, harmonicOver, lastPeriod } from './history.ts'
import { NotApplicable } from './not-applicable.ts'
import type { Specimen } from './specimen.ts'

/** Which of a case's open ends a run takes. */
export interface Variant {
  readonly size: number
  readonly film: number
  readonly letter?: string
  /** Moment for which a half-space is made deep enough, s; the latest of the case when left out. */
  readonly deepFor?: number
}

/** What a run is to reach: the case's own moments, a state that no longer changes, or one that repeats. */
export type Reach = 'moments' | 'steady' | 'periodic'

/** A case carried out. */
export interface CaseRun {
  readonly entry: Case
  readonly specimen: Specimen
  readonly materials: readonly Material[]
  readonly start_C: readonly number[]
  readonly course: Course
  /** The same on the coarse grid, for what is read from single cells. */
  readonly coarse: Course
  readonly end: number
}

/** Runs wanted more than once are kept. */
export type Runner = (variant: Variant, reach: Reach) => CaseRun

/** Time outputs may come this much later than the case says before they count as never. */
const PATIENCE = 1.6
/** Doublings of the time given to a steady or periodic state. */
const DOUBLINGS = 9
/** A state counts as steady when its means over the last two quarters of the run differ by less than this, K. */
const STEADY_K = 1e-3
/** A state counts as periodic when every asked place repeats within this share of its swing. */
const REPEATS = 1e-3
const FIRST_PERIODS = 6

const isTime = (output: CaseOutput): boolean => output.unit === 's' && typeof output.value === 'number'

/** How long a case must run for its own outputs, s. */
export function durationOf(entry: Case, latest?: number): number {
  if (entry.program !== undefined) return entry.program.reduce((sum, stage) => sum + stage.duration_s, 0)
  const moments = entry.outputs.flatMap((output) => {
    if (output.t_s !== undefined) return [output.t_s]
    return isTime(output) ? [PATIENCE * Number(output.value)] : []
  })
  const longest = latest ?? Math.max(0, ...moments)
  if (longest === 0) throw new NotApplicable('the case gives no moment to compute for')
  return longest
}

function startOf(entry: Case): number[] {
  const { T_C, type } = entry.initial
  if (typeof T_C === 'object') return T_C
  if (T_C !== undefined) return [T_C]
  const around = Object.values(entry.boundary).flatMap((face) => {
    if (typeof face !== 'object' || !('T_C' in face)) return []
    const value = face.T_C as number | string | undefined
    if (value === undefined) return []
    if (typeof value === 'number') return [value]
    const swing = swingOf(entry)
    const [low, high] = profileOf(value, 0, swing === undefined ? 1 : (2 * Math.PI) / swing).range
    return [(low + high) / 2]
  })
  if (around.length === 0) throw new NotApplicable(`the state at the start is given in words: ${type ?? 'not at all'}`)
  return [around.reduce((sum, T) => sum + T, 0) / around.length]
}

function materialsOf(entry: Case, steadyDiffusivity: number | undefined): Material[] {
  const { material } = entry
  if (material.layers !== undefined)
    return material.layers.map((layer, index) => buildCaseMaterial(layer, `layer ${index + 1}`, steadyDiffusivity))
  return [buildCaseMaterial(material, entry.id, steadyDiffusivity)]
}

/** Largest size that a case names, m. */
function sizeOf(entry: Case): number {
  const { geometry } = entry
  const named = [
    geometry.half_thickness_m,
    geometry.thickness_m,
    geometry.radius_m,
    geometry.radii_m,
    geometry.size_m,
    geometry.layers_outer_m,
    geometry.sufficient_depth_m,
  ].flat()
  return Math.max(...named.filter((value) => value !== undefined), 1e-3)
}

/** Diffusion lengths √(α t) beyond which a far end is not felt: erfc(3.4) is 1.5e-6. */
const FAR = 3.4

/**
 * Depth that stands for infinity up to `moment`: so deep that the mirror image of the surface in the far end is not
 * felt at any asked place, but never more than the case calls sufficient.
 */
function depthFor(entry: Case, materials: readonly Material[], moment: number | undefined): number | undefined {
  const { sufficient_depth_m: sufficient } = entry.geometry
  if (sufficient === undefined || moment === undefined) return undefined
  const { below_T_change: below, above_T_change: above } = entry.material
  const { k, rho, c } = materials[0]!.at(startOf(entry)[0]!)
  const phases = [below, above].flatMap((phase) => (phase === undefined ? [] : [phase.k_W_mK / (rho * phase.c_J_kgK)]))
  const diffusivity = Math.max(...(phases.length > 0 ? phases : [k / (rho * c)]))
  const deepest = Math.max(0, ...entry.outputs.map((output) => output.position?.x_m ?? 0))
  return Math.min(sufficient, FAR * Math.sqrt(diffusivity * moment) + deepest / 2)
}

/** How far a front can have got at most: all heat through the changed part spent on the change (Stefan), m. */
function frontReach({ material, boundary }: Case, moment: number): number | undefined {
  const { T_change_C: change_C, latent_J_kg: latent, below_T_change: below, above_T_change: above } = material
  const face = boundary.x0 ?? boundary.surface
  const wall_C = typeof face === 'object' ? face.T_C : undefined
  const rho = material.rho_kg_m3
  if (change_C === undefined || latent === undefined || typeof wall_C !== 'number' || typeof rho !== 'number')
    return undefined
  const k = (wall_C < change_C ? below : above)?.k_W_mK ?? 0
  return Math.sqrt((2 * k * Math.abs(wall_C - change_C) * moment) / (rho * latent))
}

/** Makes the job of a case. Throws `NotApplicable` and `FormulaError`. */
export function buildCaseJob(
  entry: Case,
  variant: Variant,
  reach: Reach,
  duration: number,
): {
  readonly job: Job
  readonly specimen: Specimen
  readonly materials: readonly Material[]
  readonly start_C: number[]
} {
  const missing = missingShape(entry.geometry.shape)
  if (missing !== undefined) throw new NotApplicable(missing)
  // The whole body then levels out within about the hour.
  const materials = materialsOf(entry, reach === 'steady' ? sizeOf(entry) ** 2 / 3600 : undefined)
  const start_C = startOf(entry)
  const depth = depthFor(entry, materials, variant.deepFor)
  const near = variant.deepFor === undefined ? undefined : frontReach(entry, variant.deepFor)
  const specimen = buildSpecimen(entry, materials, (layer) => start_C[Math.min(layer, start_C.length - 1)]!, {
    size: variant.size,
    ...(depth === undefined ? {} : { depth }),
    ...(near === undefined ? {} : { near }),
  })
  const stages = buildStages(entry, specimen, variant, duration)
  const job: Job = {
    body: specimen.body,
    lining: specimen.lining,
    fill: specimen.fill,
    stages,
    probes: [],
  }
  return { job, specimen, materials, start_C }
}

/** Mean over a stretch of time, by the trapezoidal rule. */
function meanOver({ t, value }: History, from: number, to: number): number {
  let sum = 0
  let length = 0
  for (let i = 1; i < t.length; i++) {
    if (t[i - 1]! < from || t[i]! > to) continue
    sum += ((value[i - 1]! + value[i]!) / 2) * (t[i]! - t[i - 1]!)
    length += t[i]! - t[i - 1]!
  }
  return length === 0 ? Number.NaN : sum / length
}

const levelled = ({ course, end }: CaseRun): boolean =>
  [course.hottest_C, course.coldest_C, course.mean_C].every((value) => {
    const history = { t: course.t, value }
    return Math.abs(meanOver(history, 0.75 * end, end) - meanOver(history, 0.5 * end, 0.75 * end)) < STEADY_K
  })

/**
 * Whether the last two periods agree at every asked place. Means and first harmonics are compared, not single moments:
 * steps and samples fall differently in every period, which tells more at a moment than what has yet to fade.
 */
const repeats = (run: CaseRun, period: number): boolean => {
  const places = new Map(run.entry.outputs.map(({ position }) => [JSON.stringify(position), position]))
  return [...places.values()].every((position) => {
    if (position === undefined) return true
    const history = { t: run.course.t, value: run.course.follow(run.specimen.place(position)) }
    const from = lastPeriod(history, period)
    const now = harmonicOver(history, period, from)
    const before = harmonicOver(history, period, from - period)
    const allowed = REPEATS * 2 * Math.hypot(now.cosine, now.sine)
    return (
      Math.abs(now.mean - before.mean) < allowed &&
      Math.hypot(now.cosine - before.cosine, now.sine - before.sine) < allowed
    )
  })
}

/** Runs a case; runs of the same kind are computed once. Throws `NotApplicable`, `FormulaError`, `ComputeError`. */
export function createRunner(entry: Case, fidelity: Fidelity, control: Control): Runner {
  const kept = new Map<string, CaseRun>()
  const run = (variant: Variant, reach: Reach, duration: number): CaseRun => {
    const { job, ...parts } = buildCaseJob(entry, variant, reach, duration)
    const { course, coarse } = computeJourney(job, fidelity, control)
    return { entry, ...parts, course, coarse, end: duration }
  }
  const reachState = (variant: Variant, reach: Reach): CaseRun => {
    if (reach === 'moments') return run(variant, reach, durationOf(entry, variant.deepFor))
    const turn = swingOf(entry)
    const period = turn === undefined ? 0 : (2 * Math.PI) / turn
    if (reach === 'periodic' && period === 0) throw new NotApplicable('no period is seen in the surroundings')
    let duration = reach === 'periodic' ? FIRST_PERIODS * period : firstGuess(entry)
    for (let doubling = 0; doubling < DOUBLINGS; doubling++) {
      const result = run(variant, reach, duration)
      if (reach === 'periodic' ? repeats(result, period) : levelled(result)) return result
      duration *= 2
    }
    throw new NotApplicable(`no ${reach} state within ${Math.round(duration / 3600)} h`)
  }
  return (variant, reach) => {
    const key = `${JSON.stringify(variant)} ${reach}`
    const known = kept.get(key)
    if (known !== undefined) return known
    const result = reachState(variant, reach)
    kept.set(key, result)
    return result
  }
}

/** First guess of the time to a steady state: a few diffusion times of the largest size, s. */
function firstGuess(entry: Case): number {
  const size = sizeOf(entry)
  const materials = materialsOf(entry, size ** 2 / 3600)
  const slowest = Math.max(
    ...materials.map((material) => {
      const { k, rho, c } = material.at(startOf(entry)[0] ?? 20)
      return (size ** 2 * rho * c) / k
    }),
  )
  return 2 * slowest
}
