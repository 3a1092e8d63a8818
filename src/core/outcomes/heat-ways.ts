import type { FaceCondition } from '../boundary/face.ts'
import type { StageReport } from '../forecast-types.ts'
import type { FaceName } from '../geometry/body.ts'
import type { Way } from '../journey/around.ts'
import type { Course, StageSpan } from '../journey/course.ts'
import type { Job } from '../journey/job.ts'

/* What a stage's surroundings did to the piece: films and heat of every face, by the way that the heat took. */

/** What was booked between two samples; nothing where it never was. */
function between(values: Float64Array | undefined, { first, last }: StageSpan): number {
  const [from = 0, to = 0] = [values?.[first], values?.[last]]
  return (Number.isNaN(to) ? 0 : to) - (Number.isNaN(from) ? 0 : from)
}

/** Least, most and last of a stretch, without what isn't told. */
function stretch(values: Float64Array | undefined, { first, last }: StageSpan) {
  const told = Array.from((values ?? new Float64Array()).subarray(first, last + 1)).filter((one) => !Number.isNaN(one))
  if (told.length === 0) return undefined
  // The first sample of a film stands for the moment before anything is known.
  const [start = Number.NaN] = told
  return { start, end: told[told.length - 1]!, low: Math.min(...told), high: Math.max(...told) }
}

/** One report for every stage, its faces in the order of the plan's body. */
export function reportSurroundings(job: Job, course: Course): StageReport[] {
  return course.stages.map((span, index): StageReport => {
    const conditions = job.stages[index]!.faces
    const heat = { convection: 0, radiation: 0, evaporation: 0, contact: 0, walls: 0 }
    const faces = Object.entries(conditions).flatMap(([face, condition]) => {
      const through = between(course.heatThrough[face], span)
      const way = (of: Way): number => between(course.around?.ways[of][face], span)
      const radiated = way('radiated')
      const latent = -way('latent') - way('melting')
      const stored = way('stored')
      const touching = condition.kind === 'fixed' || (condition.kind === 'law' && condition.contact === true)
      heat.radiation += radiated
      heat.evaporation += latent
      heat[touching ? 'contact' : 'convection'] += through + stored - radiated - latent
      heat.walls -= stored
      return [{ face, ...filmOf(course, conditions, face, span), heat_J: through }]
    })
    const air = stretch(course.air_C, span)
    return {
      stage: span.name,
      index,
      faces,
      heat_J: heat,
      ...(air === undefined ? {} : { air_C: air }),
    }
  })
}

/** Film of a face over a stage; that of the plan where it is given. */
function filmOf(
  course: Course,
  conditions: Readonly<Record<FaceName, FaceCondition>>,
  face: FaceName,
  span: StageSpan,
): Pick<StageReport['faces'][number], 'film'> {
  const own = conditions[face]
  const given = own?.kind === 'convective' ? own.h : undefined
  // Of two faces alike only one is modelled.
  const alike = Object.keys(conditions).filter((other) => {
    const condition = conditions[other]
    return own?.kind === 'law' && condition?.kind === 'law' && condition.key === own.key
  })
  const film = [face, ...alike]
    .map((one) => stretch(course.around?.films[one], span))
    .find((found) => found !== undefined)
  if (film !== undefined) return { film }
  return given === undefined ? {} : { film: { start: given, end: given, low: given, high: given } }
}
