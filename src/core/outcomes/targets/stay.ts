import type { Answer } from '../../forecast-types.ts'
import type { Course, PlaceHistory } from '../../journey/course.ts'
import { message } from '../../messages.ts'
import { toHours } from '../../units.ts'
import { placeStates } from '../setting-places.ts'
import type { Judge } from '../target.ts'
import { answerWhole, restsOn, spansOfWhole } from '../whole-piece.ts'
import { setQuestion } from './set.ts'

/** The first place that gets too warm after a moment, not later than another. */
function firstLost(
  course: Course,
  after: number,
  until: number,
  material: string | undefined,
): { readonly place: PlaceHistory; readonly at: number } | undefined {
  const places = course.places()
  const layers = course.segments[course.segments.length - 1]?.mesh.layers ?? []
  const materials = new Map(layers.map((layer) => [layer.name, layer.material.id]))
  let found: { readonly place: PlaceHistory; readonly at: number } | undefined
  for (const { index, marks } of placeStates(course)) {
    const place = places[index]!
    if (material !== undefined && materials.get(place.layer) !== material) continue
    const span = (marks.lost ?? []).find(({ from }) => from > after && from <= until)
    if (span !== undefined && (found === undefined || span.from < found.at)) found = { place, at: span.from }
  }
  return found
}

/** Stays set: once the whole piece is set, no place gets too warm again, until the asked moment or the end of the plan. */
export const judgeStay: Judge<'stay'> = (target, course): Answer => {
  const question = setQuestion(target)
  const { by = course.t[course.t.length - 1]! } = target
  const since = spansOfWhole(course, question)?.[0]?.from
  if (since === undefined || since > by) return answerWhole(target, course, question)
  const common = {
    target: target.kind,
    index: target.index,
    ...(target.by === undefined ? {} : { by_h: toHours(by) }),
    ...restsOn(course, question),
  }
  const lost = firstLost(course, since, by, target.material)
  if (lost !== undefined) {
    const { where, layer } = lost.place
    const why = message('stay-lost', { since_h: toHours(since), at_h: toHours(lost.at) }, where)
    return { ...common, answer: 'no', where, layer, why }
  }
  const { where, layer } = answerWhole({ kind: 'set', index: target.index, by }, course, question)
  const why = message('stay-kept', { since_h: toHours(since), until_h: toHours(by) }, where)
  return { ...common, answer: 'yes', at_h: toHours(since), where, layer, why }
}
