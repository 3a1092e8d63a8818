import type { StageAppliance } from '../boundary/appliance.ts'
import { filmTimes, powerTimes, warmerBy } from '../boundary/corrected.ts'
import type { FaceCondition } from '../boundary/face.ts'
import type { Profile } from '../boundary/profile.ts'
import { type Body, elementaryFaces, type FaceName } from '../geometry/body.ts'
import { facesNamed } from './face-names.ts'
import type { PlanSurroundings } from './schema/plan.ts'

/* What readings made of surroundings, put on top of what the plan takes them for. */

type MeasuredSurroundings = NonNullable<PlanSurroundings['measured']>

/** What `measured` says of single faces; names that the body doesn't have are of another shape, and say nothing. */
function timesOfFaces({ faces = {} }: MeasuredSurroundings, body: Body): ReadonlyMap<FaceName, number> {
  const times = new Map<FaceName, number>()
  const elementary = elementaryFaces(body)
  for (const [name, said] of Object.entries(faces))
    for (const face of elementary.includes(name) ? [name] : facesNamed(body, [name])) times.set(face, said.times)
  return times
}

/**
 * How surroundings are once measured; as they are where nothing was.
 * @param body  as it lies
 */
export function asMeasured(given: MeasuredSurroundings | undefined, body: Body) {
  const measured = given ?? {}
  const { film_times = 1, air_plus_K = 0, power_times = 1 } = measured
  const warmer = warmerBy(air_plus_K)
  const single = timesOfFaces(measured, body)
  return {
    faces: (faces: Record<FaceName, FaceCondition>): Record<FaceName, FaceCondition> =>
      given === undefined
        ? faces
        : Object.fromEntries(
            Object.entries(faces).map(([face, condition]) => [
              face,
              warmer.face(filmTimes(condition, film_times * (single.get(face) ?? 1))),
            ]),
          ),
    air: (course: Profile): Profile => warmer.profile(course),
    appliance: (inside: StageAppliance): StageAppliance =>
      given === undefined ? inside : powerTimes(warmer.appliance(inside), power_times),
  }
}
