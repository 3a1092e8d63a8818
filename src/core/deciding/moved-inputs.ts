import type { Job } from '../journey/job.ts'
import type { ResolvedPlan } from '../plan/resolve.ts'
import type { Plan } from '../plan/schema/plan.ts'
import type { Moved } from './band.ts'
import { drawnJob, startDrawing } from './drawn-job.ts'
import { airKeys, type Input, type InputKind, inputsOf } from './inputs.ts'
import { uncertainties, varyJob } from './variation.ts'

/*
 * What a spread samples one by one is moved here by kinds, all of a kind together, so that a forecast needs few runs:
 * both ways where the answer bends, one way where it hardly does.
 */

interface Group {
  readonly kinds: readonly InputKind[]
  readonly ways: readonly number[]
}

const groups: readonly Group[] = [
  { kinds: ['film', 'face film'], ways: [1, -1] },
  { kinds: ['conductivity'], ways: [1, -1] },
  { kinds: ['heat'], ways: [1, -1] },
  { kinds: ['power'], ways: [1, -1] },
  { kinds: ['start temperature'], ways: [1] },
  { kinds: ['thickness'], ways: [1] },
  { kinds: ['air temperature'], ways: [1] },
]

/** How far each of a group goes: faces on top of their air, so that both together are one deviation of their sum. */
function farOf(inputs: readonly Input[]): Float64Array {
  const faces = Math.max(0, ...inputs.filter(({ kind }) => kind === 'face film').map(({ sigma }) => sigma))
  return Float64Array.from(inputs, ({ kind, sigma }) => {
    if (kind === 'face film') return inputs.some((one) => one.kind === 'film') ? 0 : 1
    return kind === 'film' ? Math.hypot(sigma, faces) / sigma : 1
  })
}

/** The tables of its materials as they are where no temperature moves. */
function withTablesOf(job: Job, { tables_C: _, ...moved }: Job): Job {
  return job.tables_C === undefined ? moved : { ...moved, tables_C: job.tables_C }
}

/** Every uncertain input of a plan moved by one standard deviation, all of one kind together. */
export function movedInputs(plan: Plan, resolved: ResolvedPlan): Moved[] {
  const { job } = resolved
  const inputs = inputsOf(plan, resolved)
  const airs = airKeys(plan, job)
  const ofGroup = ({ kinds, ways }: Group): Moved[] => {
    const own = inputs.filter(({ kind }) => kinds.includes(kind))
    if (own.length === 0) return []
    const drawing = startDrawing(job, own, airs)
    const far = farOf(own)
    return ways.map((way) => {
      const moved = drawnJob(
        drawing,
        far.map((by) => way * by),
      )
      return {
        job: own.some(({ unit }) => unit === 'K') ? moved : withTablesOf(job, moved),
        ...(ways.length === 1 ? { mirrored: true as const } : {}),
      }
    })
  }
  return [...groups.flatMap(ofGroup), ...stilled(job)]
}

/** Currents in what pours: none at all, and as thin as its class may be. */
export function stilled(job: Job): Moved[] {
  const flow = uncertainties.find(({ name }) => name === 'flow')!
  if (flow.matters?.(job) !== true) return []
  return (flow.bounds ?? []).map((by) => ({
    bound: true as const,
    job: varyJob(job, { film: 1, k: 1, heat: 1, power: 1, flow: by }),
  }))
}
