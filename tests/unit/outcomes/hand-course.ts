import type { Place } from '../../../src/core/geometry/body.ts'
import type { Course, PlaceHistory, StageSpan } from '../../../src/core/journey/course.ts'

/** One place of a made-up course: its height in the piece, its layer, its temperature at every sample from `from` on. */
export interface HandPlace {
  readonly y: number
  readonly layer?: string
  readonly T_C: readonly number[]
}

interface Given {
  readonly hours: readonly number[]
  readonly air_C: number | readonly number[]
  readonly places: readonly HandPlace[]
  readonly stages?: readonly (readonly [string, number, number])[]
}

/** Every sample between the ends twice, as where something is done: from there on a new straight line begins. */
function withCorners<T>(samples: readonly T[], begins = true): T[] {
  return samples.flatMap((one, i) => ((i === 0 && begins) || i === samples.length - 1 ? [one] : [one, one]))
}

/** A course written by hand: hours, and a few places upright above each other; straight lines between the hours. */
export function handCourse(written: Given): Course {
  const given: Given = {
    ...written,
    hours: withCorners(written.hours),
    air_C: typeof written.air_C === 'number' ? written.air_C : withCorners(written.air_C),
    places: written.places.map((place) => ({
      ...place,
      T_C: withCorners(place.T_C, place.T_C.length === written.hours.length),
    })),
  }
  const { hours, places } = given
  const t = Float64Array.from(hours, (hour) => hour * 3600)
  const samples = t.length
  const at = (place: HandPlace, i: number): number => {
    const index = i - (samples - place.T_C.length)
    return index < 0 ? Number.NaN : place.T_C[index]!
  }
  const whereOf = ({ y }: HandPlace): Place => ({ x: 0.5, y, z: 0.5 })
  const extreme = (i: number, sign: 1 | -1): HandPlace =>
    places
      .filter((place) => !Number.isNaN(at(place, i)))
      .reduce((best, place) => (sign * at(place, i) > sign * at(best, i) ? place : best))
  const nearest = ({ y }: Place): HandPlace =>
    places.reduce((best, place) => (Math.abs(place.y - y) < Math.abs(best.y - y) ? place : best))
  const column = (read: (i: number) => number): Float64Array => Float64Array.from(t, (_, i) => read(i))
  const span = ([name, from, to]: readonly [string, number, number]): StageSpan => ({
    name,
    from: from * 3600,
    to: to * 3600,
    endedBy: 'after',
    first: hours.lastIndexOf(from),
    last: hours.indexOf(to),
  })
  const air = given.air_C
  return {
    t,
    stages: (given.stages ?? [['all', hours[0]!, hours[samples - 1]!] as const]).map(span),
    segments: [],
    mean_C: column((i) => {
      const there = places.map((place) => at(place, i)).filter((T_C) => !Number.isNaN(T_C))
      return there.reduce((sum, T_C) => sum + T_C, 0) / there.length
    }),
    surface_C: column((i) => at(places[0]!, i)),
    air_C: column((i) => (typeof air === 'number' ? air : air[i]!)),
    hottest_C: column((i) => at(extreme(i, 1), i)),
    coldest_C: column((i) => at(extreme(i, -1), i)),
    hottestAt: (i) => whereOf(extreme(i, 1)),
    coldestAt: (i) => whereOf(extreme(i, -1)),
    follow: (place) => column((i) => at(nearest(place), i)),
    places: () =>
      places.map(
        (place): PlaceHistory => ({
          where: whereOf(place),
          layer: place.layer ?? 'fill[0]',
          volume: 1e-3,
          t: t.slice(samples - place.T_C.length),
          T_C: Float64Array.from(place.T_C),
          states: {},
        }),
      ),
    describe: (place) => ({ layer: nearest(place).layer ?? 'fill[0]', depth: 0.05 }),
    heatThrough: {},
    heat: column(() => 0),
    vapourHeat: column(() => 0),
    waterLost: column(() => 0),
    energyResidual: 0,
    steps: samples - 1,
    cells: places.length,
  }
}
