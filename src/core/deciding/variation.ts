import { filmTimes, powerTimes } from '../boundary/corrected.ts'
import type { FaceCondition } from '../boundary/face.ts'
import type { Layer } from '../geometry/layer.ts'
import { type Job, layersOfJob, type Stage } from '../journey/job.ts'
import type { Material } from '../materials/material.ts'
import { THINNEST } from '../materials/pouring.ts'
import { scaled } from '../materials/scaled.ts'

/** Factors by which uncertain inputs of a job differ from what was given. */
export interface Factors {
  /** On every film coefficient. */
  readonly film: number
  /** On every conductivity. */
  readonly k: number
  /** On all stored heat. */
  readonly heat: number
  /** On the power of appliances. */
  readonly power: number
  /** How much thinner a mass that pours is than its class; 0 stills it. */
  readonly flow: number
}

/** What one standard deviation of each input is, as a factor. */
export interface Uncertainty {
  readonly name: keyof Factors
  readonly factor: number
  /** Both ends themselves, where they are bounds and no deviations from a middle. */
  readonly bounds?: readonly [number, number]
  readonly source: string
  /** Whether it matters for a job; always, when left out. */
  readonly matters?: (job: Job) => boolean
}

/**
 * Standard deviations of the inputs that nobody knows exactly.
 * Film: fits of industrial coolers reach ±30 %, sampled log-normally with σ = 0.25. Conductivity of mixtures by simple
 * models: about ±10 % as a 5–95 % span. Stored heat: ±5 % as such a span (from memory). Power of an appliance: low and
 * high of shared/surroundings lie 1.6 times below and above, taken as such a span; told by the plan, a third of that.
 */
export const uncertainties: readonly Uncertainty[] = [
  { name: 'film', factor: Math.exp(0.25), source: 'film-uncertainty' },
  { name: 'k', factor: Math.exp(0.1 / 1.645), source: 'carson-2006' },
  { name: 'heat', factor: Math.exp(0.05 / 1.645), source: 'from memory' },
  {
    name: 'power',
    factor: Math.exp(0.3),
    source: 'estimate',
    matters: ({ stages }) =>
      stages.some(({ appliance }) => appliance !== undefined && 'rated' in appliance.appliance.machine),
  },
  {
    name: 'flow',
    factor: 1,
    // No currents at all, and the thin end of the class.
    bounds: [0, THINNEST],
    source: 'from memory',
    matters: (job) => layersOfJob(job).some(({ material }) => material.pours !== undefined),
  },
]

/** What of the doubt about its power is left where the plan tells it. */
const TOLD_SHARE = 1 / 3

/** Power of a stage's appliance for a factor of doubt: less of it where the plan tells the power. */
export const powerOf = ({ applianceFigures }: Pick<Stage, 'applianceFigures'>, power: number): number =>
  applianceFigures?.powerTold === true ? power ** TOLD_SHARE : power

/** The appliance of a stage with another power. */
export function varyAppliance(stage: Stage, power: number): Pick<Stage, 'appliance'> {
  const { appliance } = stage
  return appliance === undefined ? {} : { appliance: powerTimes(appliance, powerOf(stage, power)) }
}

/** The job with its uncertain inputs multiplied. */
export function varyJob(job: Job, factors: Factors): Job {
  const known = new Map<Material, Material>()
  const vary = (layer: Layer): Layer => {
    // The same material keeps what has been worked out for it.
    if (factors.k === 1 && factors.heat === 1 && factors.flow === 1) return layer
    const made = known.get(layer.material) ?? scaled(layer.material, factors)
    known.set(layer.material, made)
    return { ...layer, material: made }
  }
  const faces = new Map<FaceCondition, FaceCondition>()
  const varied = (condition: FaceCondition): FaceCondition => {
    if (factors.film === 1) return condition
    const made = faces.get(condition) ?? filmTimes(condition, factors.film)
    faces.set(condition, made)
    return made
  }
  return {
    ...job,
    shapedLike: job.shapedLike ?? job,
    lining: job.lining.map(vary),
    fill: job.fill.map(vary),
    ...(job.inserts === undefined
      ? {}
      : { inserts: job.inserts.map((insert) => ({ ...insert, layer: vary(insert.layer) })) }),
    stages: job.stages.map((stage) => ({
      ...stage,
      start: stage.start.map((action) =>
        action.do === 'pour' || action.do === 'coat' ? { ...action, layer: vary(action.layer) } : action,
      ),
      ...varyAppliance(stage, factors.power),
      faces: Object.fromEntries(Object.entries(stage.faces).map(([name, condition]) => [name, varied(condition)])),
    })),
  }
}
