import type { Course } from '../journey/course.ts'

/** Coldest and hottest that every place of a course ever is, °C. Shape of both: as course.places() */
export interface PlaceRanges {
  readonly coldest_C: Float64Array
  readonly hottest_C: Float64Array
}

const known = new WeakMap<Course, PlaceRanges>()

function rangesOf(course: Course): PlaceRanges {
  const places = course.places()
  const coldest_C = new Float64Array(places.length)
  const hottest_C = new Float64Array(places.length)
  for (const [index, { T_C }] of places.entries()) {
    let coldest = Number.POSITIVE_INFINITY
    let hottest = Number.NEGATIVE_INFINITY
    for (let i = 0; i < T_C.length; i++) {
      const T = T_C[i]!
      if (T < coldest) coldest = T
      if (T > hottest) hottest = T
    }
    coldest_C[index] = coldest
    hottest_C[index] = hottest
  }
  return { coldest_C, hottest_C }
}

/** Between which temperatures every place moves, made once: what can't happen there need not be looked for. */
export function placeRanges(course: Course): PlaceRanges {
  const made = known.get(course) ?? rangesOf(course)
  known.set(course, made)
  return made
}
