import { assembleCurves, curveReaders } from './forecast.ts'
import type { LikelyCourse } from './forecast-types.ts'
import { findCore } from './journey/core-place.ts'
import type { Course } from './journey/course.ts'
import { DANGER_C } from './outcomes/danger.ts'
import type { ResolvedPlan } from './plan/resolve.ts'
import { toHours } from './units.ts'

/**
 * What can be shown of a course while the runs of its bands are still to be computed. It has no answers and no verdicts:
 * those are told of moments, and a moment is told with its band.
 */
export function likelyCourse(resolved: ResolvedPlan, course: Course): LikelyCourse {
  const readers = curveReaders(resolved, findCore(course)).map((reader) => ({ ...reader, banded: false }))
  const { times_h, curves } = assembleCurves(course, { nominal: course, moved: [] }, readers)
  return {
    times_h,
    curves,
    stages: course.stages.map(({ name, from, to }) => ({ name, from_h: toHours(from), to_h: toHours(to) })),
    danger: { low_C: DANGER_C.low, high_C: DANGER_C.high },
  }
}
