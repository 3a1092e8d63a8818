import type { Place } from '../geometry/body.ts'
import { cellsThere, placeOf } from '../geometry/mesh.ts'
import type { Course } from './course.ts'
import { findLargest } from './extremes.ts'

/**
 * The place that lags most behind the surroundings over the whole course: the largest time integral of
 * |T − air|. For a piece that starts uniform it is the last place to follow, wherever that is; it stays the same in all
 * stages, so that its curve has no jumps.
 */
export function findCore(course: Course): Place {
  const { mesh } = course.segments[course.segments.length - 1]!
  const places = course.places()
  const lags = places.map((place) => {
    const offset = course.t.length - place.t.length
    let sum = 0
    for (let i = 1; i < place.t.length; i++) {
      const before = Math.abs(place.T_C[i - 1]! - course.air_C[offset + i - 1]!)
      const after = Math.abs(place.T_C[i]! - course.air_C[offset + i]!)
      sum += ((before + after) / 2) * (place.t[i]! - place.t[i - 1]!)
    }
    return sum
  })
  const lag = new Float64Array(mesh.cells).fill(Number.NaN)
  for (const [index, cell] of cellsThere(mesh).entries()) lag[cell] = lags[index]!
  return placeOf(mesh, findLargest(mesh, lag, new Set()))
}
