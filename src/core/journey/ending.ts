import { locate, type Mesh } from '../geometry/mesh.ts'
import type { Films } from '../solver/film.ts'
import type { StageSpan } from './course.ts'
import { findExtreme } from './extremes.ts'
import type { Sample } from './field-reader.ts'
import type { Ending } from './job.ts'
import { meanTemperature, surfaceTemperature, type Take } from './record.ts'

/** What a stage waits for: how far it is from its end, K; met at 0 and below. */
export interface Watch {
  /** Excess of the temperature nearest to its end, and whose it is. */
  excess(sample: Sample): { readonly excess: number; readonly by: StageSpan['endedBy'] }
}

/** Seconds from `time` to the stage's clock end; a time of day that has passed comes again the next day. */
export function untilClock({ clock, clockEvery, clockAll }: Ending, time: number): number {
  if (clockAll !== undefined) return (clockAll.find((moment) => moment > time) ?? Number.POSITIVE_INFINITY) - time
  if (clock === undefined) return Number.POSITIVE_INFINITY
  if (clock > time || clockEvery === undefined) return Math.max(0, clock - time)
  return clock + (Math.floor((time - clock) / clockEvery) + 1) * clockEvery - time
}

/** Temperature towards which the faces pull, °C: the mean of what is outside, weighted by conductance. */
function pullOf(films: Films): number {
  let sum = 0
  let total = 0
  for (let index = 0; index < films.G.length; index++) {
    sum += films.G[index]! * films.airStart_C[index]!
    total += films.G[index]!
  }
  return total === 0 ? Number.NaN : sum / total
}

interface Wait {
  readonly by: StageSpan['endedBy']
  readonly target: number
  readonly falling: boolean
  read(sample: Sample): number
}

/**
 * The temperatures that end a stage; undefined where none does.
 * @param start  the state from which the stage begins: it tells the direction
 */
export function watchOf(until: Ending, take: Take, mesh: Mesh, start: Sample, films: Films): Watch | undefined {
  const waits: Wait[] = []
  const passing = (by: StageSpan['endedBy'], target: number, read: (sample: Sample) => number): void => {
    const first = read(start)
    if (!Number.isNaN(first)) waits.push({ by, target, falling: first > target, read })
  }
  const extreme = (sample: Sample, sign: 1 | -1): number => findExtreme(mesh, sample, sign).T_C
  const { core_C, surface_C, mean_C, place } = until
  if (core_C !== undefined) {
    // Where parts lie on both sides of the target, the surroundings say which way the piece has to go.
    const above = extreme(start, -1) >= core_C
    const falling = above || (extreme(start, 1) > core_C && !(pullOf(films) > core_C))
    waits.push({ by: 'core', target: core_C, falling, read: (sample) => extreme(sample, falling ? 1 : -1) })
  }
  if (surface_C !== undefined) passing('surface', surface_C, (sample) => surfaceTemperature(mesh, sample))
  if (mean_C !== undefined) passing('mean', mean_C, (sample) => meanTemperature(mesh, sample))
  if (place !== undefined) passing('place', place.T_C, take.reader.place(locate(mesh, place.place)))
  if (waits.length === 0) return undefined
  return {
    excess(sample) {
      let excess = Number.POSITIVE_INFINITY
      let by: StageSpan['endedBy'] = 'core'
      for (const wait of waits) {
        const beyond = wait.falling ? wait.read(sample) - wait.target : wait.target - wait.read(sample)
        if (beyond < excess) {
          excess = beyond
          by = wait.by
        }
      }
      return { excess, by }
    },
  }
}
