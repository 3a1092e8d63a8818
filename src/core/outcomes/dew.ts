import { vapourOf } from '../boundary/ambient.ts'
import { dewPoint } from '../boundary/psychrometrics.ts'
import type { Course } from '../journey/course.ts'
import type { Job } from '../journey/job.ts'
import { saturationPressure } from '../materials/vapour.ts'
import { type Message, message } from '../messages.ts'
import { toHours } from '../units.ts'

/** Dew for less than this does no harm that anybody sees, h (choice). */
const SHORT_H = 0.1

/** Dew points by vapour pressure, the last one kept: still air asks for the same again and again. */
function rememberingDewPoint(): (vapour: number) => number {
  let last = { vapour: Number.NaN, dew_C: Number.NaN }
  return (vapour) => {
    if (vapour !== last.vapour) last = { vapour, dew_C: dewPoint(vapour) }
    return last.dew_C
  }
}

/**
 * Dew on chocolate: each stage in which its surface is colder than the dew point of the air that it meets. What melts in
 * the dew comes out as grey sugar when it dries.
 */
export function dewOnChocolate(job: Job, course: Course): Message[] {
  const dewOf = rememberingDewPoint()
  return course.stages.flatMap(({ name, first, last }, index): Message[] => {
    const stage = job.stages[index]!
    let worst = { below: 0, surface_C: 0, dew_C: 0 }
    let lasted = 0
    for (const segment of course.segments) {
      const links = segment.mesh.boundary
      for (let i = Math.max(first, segment.first); i <= Math.min(last, segment.last); i++) {
        let below = 0
        for (const [at, link] of links.entries()) {
          const layer = segment.mesh.layers[segment.mesh.layerOf[link.cell]!]
          const condition = stage.faces[link.face]
          if (layer?.material.look !== 'chocolate' || condition?.kind !== 'law' || !condition.open) continue
          const humidity = condition.ambient === undefined ? stage.appliance?.humidity : condition.ambient.humidity
          const air_C = condition.ambient?.air_C.at(course.t[i]! - course.t[first]!) ?? course.air_C[i]!
          const surface_C = segment.surface_C[i - segment.first]![at]!
          // Air holds no more than what would settle at its own temperature.
          if (surface_C >= air_C) continue
          const vapour = vapourOf(humidity, air_C)
          if (Number.isNaN(vapour) || saturationPressure(surface_C) >= vapour) continue
          const dew_C = dewOf(vapour)
          below = Math.max(below, dew_C - surface_C)
          if (dew_C - surface_C > worst.below) worst = { below: dew_C - surface_C, surface_C, dew_C }
        }
        if (below > 0 && i > first) lasted += course.t[i]! - course.t[i - 1]!
      }
    }
    if (worst.below <= 0 || toHours(lasted) < SHORT_H) return []
    const { surface_C, dew_C } = worst
    return [message('dew-on-chocolate', { stage: name, surface_C, dew_C, within_h: toHours(lasted) })]
  })
}
