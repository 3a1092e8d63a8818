import type { Course } from '../journey/course.ts'
import type { CaseRun } from './case-run.ts'
import { NotApplicable } from './not-applicable.ts'

/*
 * Where a change of phase at one temperature has got to. A cell stays at the changing temperature until all of it
 * has changed, so the moment it leaves that temperature is the moment at which the front stands at its far border.
 * Between two such moments the square of the way grows straight with time, which is exact for a half-space.
 */

/** A moment of the front, s, and its way from the exposed face, m. */
interface Stand {
  readonly t: number
  readonly way: number
}

export interface Front {
  /** Moment at which the innermost cell has changed, s; undefined when it has not. */
  readonly done?: number
  /** Width of the cell that the front stands in at a moment, m. */
  cellAt(t: number): number
  /** Way from the exposed face, m. */
  wayAt(t: number): number
}

/** Closer than this to the changing temperature counts as changing, K. */
const AT_CHANGE_K = 1e-6

function changeTemperature({ entry }: CaseRun): number {
  const { T_change_C } = entry.material
  if (T_change_C === undefined) throw new NotApplicable('the case has no change of phase at one temperature')
  return T_change_C
}

/** First moment at which a cell has left the changing temperature towards the wall's, drawn back to the change. */
function leaving(t: ArrayLike<number>, T_C: (sample: number) => number, change_C: number, sign: number) {
  const beyond = (sample: number): number => sign * (T_C(sample) - change_C)
  for (let sample = 0; sample < t.length; sample++) {
    if (beyond(sample) <= AT_CHANGE_K) continue
    if (sample === 0) return t[0]!
    const before = t[sample - 1]!
    const here = t[sample]!
    const started = beyond(sample - 1)
    // It was still on the other side: the straight line between both samples.
    if (started < -AT_CHANGE_K) return before + ((here - before) * started) / (started - beyond(sample))
    const next = Math.min(sample + 1, t.length - 1)
    const rate = next === sample ? 0 : (beyond(next) - beyond(sample)) / (t[next]! - here)
    return rate > 0 ? Math.max(before, here - beyond(sample) / rate) : (before + here) / 2
  }
  return undefined
}

/** The front on one grid. */
function frontOn(run: CaseRun, course: Course): Front {
  const change_C = changeTemperature(run)
  const segment = course.segments[0]
  if (segment === undefined || course.segments.length > 1)
    throw new NotApplicable('a front is only looked for in a body that changes along one direction')
  const { axes, n } = segment.mesh
  const along = axes.findIndex((_, index) => (n[index] ?? 1) > 1)
  const axis = axes[along]
  if (axis === undefined || axes.some((_, index) => index !== along && (n[index] ?? 1) > 1))
    throw new NotApplicable('a front is only looked for in a body that changes along one direction')
  const { borders } = axis
  const surface = borders[borders.length - 1]!
  const cells = n[along]!
  // The exposed face lies at the high end; a body that is modelled whole has its mirror plane in the middle.
  const innermost = run.specimen.depth
  const wall = course.air_C[course.air_C.length - 1]!
  const sign = wall < change_C ? -1 : 1
  const stands: Stand[] = [{ t: 0, way: 0 }]
  let done: number | undefined
  const widths: number[] = []
  for (let cell = cells - 1; cell >= 0; cell--) {
    const way = surface - borders[cell]!
    if (way > innermost * (1 + 1e-9)) break
    const at = leaving(course.t, (sample) => segment.T_C[sample - segment.first]![cell]!, change_C, sign)
    if (at === undefined) break
    stands.push({ t: Math.max(at, stands[stands.length - 1]!.t), way })
    widths.push(borders[cell + 1]! - borders[cell]!)
    if (way >= innermost * (1 - 1e-9)) done = at
  }
  const find = (t: number): number => {
    const index = stands.findIndex((stand) => stand.t >= t)
    return index < 0 ? stands.length - 1 : Math.max(1, index)
  }
  return {
    ...(done === undefined ? {} : { done }),
    cellAt: (t) => widths[Math.min(find(t), widths.length) - 1] ?? surface - borders[cells - 1]!,
    wayAt(t) {
      const index = find(t)
      const to = stands[index]
      const from = stands[index - 1]
      if (to === undefined || from === undefined || to.t < t) return Number.NaN
      const share = to.t === from.t ? 1 : (t - from.t) / (to.t - from.t)
      return Math.sqrt(from.way ** 2 + (to.way ** 2 - from.way ** 2) * share)
    },
  }
}

/** (4 fine − coarse)/3: the error of the second order in the cells' width cancels, as in every course. */
const joined = (fine: number, coarse: number): number => (4 * fine - coarse) / 3

/** The front of a one-dimensional run with one exposed face, or two alike. */
export function findFront(run: CaseRun): Front {
  const fine = frontOn(run, run.course)
  if (run.coarse === run.course) return fine
  const coarse = frontOn(run, run.coarse)
  const done = fine.done === undefined || coarse.done === undefined ? undefined : joined(fine.done, coarse.done)
  return {
    ...(done === undefined ? {} : { done }),
    cellAt: fine.cellAt,
    wayAt: (t) => joined(fine.wayAt(t), coarse.wayAt(t)),
  }
}
