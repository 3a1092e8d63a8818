import type { Place } from '../geometry/body.ts'
import type { Course, PlaceHistory, StageSpan } from './course.ts'
import { smooth } from './series.ts'

/** Two courses of one job, the second on half as many cells per axis, joined to one of higher order. */
export interface Refined {
  readonly course: Course
  /** A third of the difference of both: root mean square and largest over core, mean and surface, K. */
  error(curves: readonly ((course: Course) => Float64Array)[]): { readonly mean: number; readonly largest: number }
}

/** Second-order error cancels: (4 fine − coarse)/3. */
const extrapolate = (fine: number, coarse: number): number => (4 * fine - coarse) / 3

/**
 * Richardson's extrapolation of everything that is read from a course. Stages that end at a core temperature take a
 * little longer on one grid than on the other, so both are read at equal shares of each stage.
 */
export function refine(fine: Course, coarse: Course, limits_C: readonly [number, number]): Refined {
  const stages: StageSpan[] = []
  let clock = 0
  for (const [index, span] of fine.stages.entries()) {
    const partner = coarse.stages[index]!
    const length = Math.max(0, extrapolate(span.to - span.from, partner.to - partner.from))
    stages.push({ ...span, from: clock, to: clock + length })
    clock += length
  }
  const t = new Float64Array(fine.t.length)
  /** Moment of the coarse course that corresponds to each sample of the fine one. */
  const partnerMoment = new Float64Array(fine.t.length)
  for (const [index, span] of stages.entries()) {
    const own = fine.stages[index]!
    const partner = coarse.stages[index]!
    const duration = own.to - own.from
    for (let i = own.first; i <= own.last; i++) {
      const share = duration === 0 ? 0 : (fine.t[i]! - own.from) / duration
      t[i] = span.from + share * (span.to - span.from)
      partnerMoment[i] = partner.from + share * (partner.to - partner.from)
    }
  }

  const onFine = (values: Float64Array): Float64Array => {
    const result = new Float64Array(fine.t.length)
    for (const [index, partner] of coarse.stages.entries()) {
      const own = fine.stages[index]!
      const curve = smooth(coarse.t, values, partner.first, partner.last)
      for (let i = own.first; i <= own.last; i++) result[i] = curve(partnerMoment[i]!)
      // The ends of a stage correspond exactly, whatever round-off says.
      result[own.first] = values[partner.first]!
      result[own.last] = values[partner.last]!
    }
    return result
  }
  const join = (read: (course: Course) => Float64Array, clamp: boolean): Float64Array => {
    const fineValues = read(fine)
    const coarseValues = onFine(read(coarse))
    return fineValues.map((value, i) => {
      const joined = extrapolate(value, coarseValues[i]!)
      return clamp ? Math.min(Math.max(joined, limits_C[0]), limits_C[1]) : joined
    })
  }
  const cache = new Map<string, Float64Array>()
  const column = (name: string, read: (course: Course) => Float64Array, clamp = true): Float64Array => {
    const known = cache.get(name)
    if (known !== undefined) return known
    const made = join(read, clamp)
    cache.set(name, made)
    return made
  }

  const ends = new Map<number, Float64Array>()
  /** The last so many moments; places that begin together share them. */
  const since = (length: number): Float64Array => {
    const made = ends.get(length) ?? t.subarray(t.length - length)
    ends.set(length, made)
    return made
  }
  let places: readonly PlaceHistory[] | undefined
  const course: Course = {
    t,
    stages,
    get segments() {
      return fine.segments
    },
    get mean_C() {
      return column('mean', (one) => one.mean_C)
    },
    get surface_C() {
      return column('surface', (one) => one.surface_C)
    },
    air_C: fine.air_C,
    get hottest_C() {
      return column('hottest', (one) => one.hottest_C)
    },
    get coldest_C() {
      return column('coldest', (one) => one.coldest_C)
    },
    hottestAt: fine.hottestAt,
    coldestAt: fine.coldestAt,
    follow: (place: Place) => join((one) => one.follow(place), true),
    // Single cells have no partner on the other grid; their moments follow the joined clock.
    places: () => {
      places ??= fine.places().map((place) => ({
        get where() {
          return place.where
        },
        layer: place.layer,
        volume: place.volume,
        t: since(place.t.length),
        T_C: place.T_C,
        get states() {
          return place.states
        },
      }))
      return places
    },
    describe: fine.describe,
    get heatThrough() {
      return Object.fromEntries(
        Object.keys(fine.heatThrough).map((face) => [
          face,
          column(`through ${face}`, (one) => one.heatThrough[face]!, false),
        ]),
      )
    },
    get heat() {
      return column('heat', (one) => one.heat, false)
    },
    get vapourHeat() {
      return column('vapour heat', (one) => one.vapourHeat, false)
    },
    get waterLost() {
      const lost = column('water lost', (one) => one.waterLost, false)
      // Without dew nothing is ever gained.
      return fine.around === undefined ? lost.map((value) => Math.max(0, value)) : lost
    },
    ...(fine.height === undefined ? {} : { height: column('height', (one) => one.height!, false) }),
    ...(fine.around === undefined ? {} : { around: fine.around }),
    energyResidual: Math.max(fine.energyResidual, coarse.energyResidual),
    steps: fine.steps + coarse.steps,
    cells: fine.cells,
  }
  return {
    course,
    error: (curves) => {
      let sum = 0
      let count = 0
      let largest = 0
      for (const read of curves) {
        const fineValues = read(fine)
        const coarseValues = onFine(read(coarse))
        for (let i = 0; i < fineValues.length; i++) {
          const gap = Math.abs(fineValues[i]! - coarseValues[i]!) / 3
          if (Number.isNaN(gap)) continue
          sum += gap * gap
          count++
          largest = Math.max(largest, gap)
        }
      }
      return { mean: Math.sqrt(sum / Math.max(count, 1)), largest }
    },
  }
}
