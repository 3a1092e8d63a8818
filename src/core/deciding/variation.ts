import type { FaceCondition } from '../boundary/face.ts'
import type { Layer } from '../geometry/layer.ts'
import type { Job } from '../journey/job.ts'
import type { Material } from '../materials/material.ts'
import { scaled } from '../materials/scaled.ts'

/** Factors by which uncertain inputs of a job differ from what was given. */
export interface Factors {
  /** On every film coefficient. */
  readonly film: number
  /** On every conductivity. */
  readonly k: number
  /** On all stored heat. */
  readonly heat: number
}

/** What one standard deviation of each input is, as a factor. */
export interface Uncertainty {
  readonly name: keyof Factors
  readonly factor: number
  readonly source: string
}

/**
 * Standard deviations of the inputs that nobody knows exactly.
 * Film: fits of industrial coolers reach ±30 %, sampled log-normally with σ = 0.25. Conductivity of mixtures by simple
 * models: about ±10 % as a 5–95 % span. Stored heat: ±5 % as such a span (from memory).
 */
export const uncertainties: readonly Uncertainty[] = [
  { name: 'film', factor: Math.exp(0.25), source: 'film-uncertainty' },
  { name: 'k', factor: Math.exp(0.1 / 1.645), source: 'carson-2006' },
  { name: 'heat', factor: Math.exp(0.05 / 1.645), source: 'from memory' },
]

function varyFace(condition: FaceCondition, film: number): FaceCondition {
  if (condition.kind === 'convective') return { ...condition, h: condition.h * film }
  if (condition.kind !== 'law') return condition
  const law = condition.film
  return { ...condition, film: (surface, air) => film * law(surface, air), key: `${condition.key} × ${film}` }
}

/** The job with its uncertain inputs multiplied. */
export function varyJob(job: Job, factors: Factors): Job {
  const known = new Map<Material, Material>()
  const vary = (layer: Layer): Layer => {
    const made = known.get(layer.material) ?? scaled(layer.material, factors)
    known.set(layer.material, made)
    return { ...layer, material: made }
  }
  const faces = new Map<FaceCondition, FaceCondition>()
  const varied = (condition: FaceCondition): FaceCondition => {
    const made = faces.get(condition) ?? varyFace(condition, factors.film)
    faces.set(condition, made)
    return made
  }
  return {
    ...job,
    lining: job.lining.map(vary),
    fill: job.fill.map(vary),
    stages: job.stages.map((stage) => ({
      ...stage,
      start: stage.start.map((action) =>
        action.do === 'pour' || action.do === 'coat' ? { ...action, layer: vary(action.layer) } : action,
      ),
      faces: Object.fromEntries(Object.entries(stage.faces).map(([name, condition]) => [name, varied(condition)])),
    })),
  }
}
