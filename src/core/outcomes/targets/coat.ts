import type { Course } from '../../journey/course.ts'
import { type Message, message } from '../../messages.ts'
import { dewPoint, SWEATS_K } from '../contact.ts'
import { along } from '../crossing.ts'
import { fineHistory } from '../fine-history.ts'
import { both, type Span } from '../kinetics/spans.ts'
import type { Judge, TargetOf } from '../target.ts'
import { answerWhole, type Question } from '../whole-piece.ts'

type CoatTarget = TargetOf<'coat'>

/** When a curve is not below zero; straight lines between samples. */
function notBelowZero(t: ArrayLike<number>, value: ArrayLike<number>): Span[] {
  const found: Span[] = []
  let from: number | undefined
  for (let i = 0; i < t.length; i++) {
    const holds = value[i]! >= 0
    if (holds === (from !== undefined)) continue
    const at = i > 0 && t[i]! > t[i - 1]! ? along(t[i - 1]!, t[i]!, value[i - 1]!, value[i]!, 0) : t[i]!
    if (holds) from = at
    else {
      found.push({ from: from!, to: at })
      from = undefined
    }
  }
  if (from !== undefined) found.push({ from, to: Number.POSITIVE_INFINITY })
  return found
}

/** Coldest outer face at every sample, °C; the mean over the faces where the course has no fields. */
function coldestFace(course: Course): Float64Array {
  const coldest = Float64Array.from(course.surface_C)
  for (const { first, last, surface_C } of course.segments)
    for (let i = first; i <= last; i++) {
      const faces = surface_C[i - first]!
      if (faces.length > 0) coldest[i] = faces.reduce((least, T_C) => Math.min(least, T_C), Number.POSITIVE_INFINITY)
    }
  return coldest
}

/** When the piece is as cold as asked and no face of it sweats in air of the asked humidity. */
function coldAndDry({ core_C, humidity_pct }: CoatTarget, course: Course): readonly Span[] | undefined {
  const found: Span[][] = []
  if (core_C !== undefined) {
    const { t, T_C } = fineHistory({ t: course.t, T_C: course.hottest_C })
    found.push(
      notBelowZero(
        t,
        Float64Array.from(T_C, (T) => core_C - T + 1e-6),
      ),
    )
  }
  if (humidity_pct !== undefined) {
    const spare = coldestFace(course).map((T, i) => T - SWEATS_K - dewPoint(course.air_C[i]!, humidity_pct))
    found.push(notBelowZero(course.t, spare))
  }
  return found.length === 0 ? undefined : found.reduce((a, b) => both(a, b))
}

function notesOf({ humidity_pct }: CoatTarget, course: Course): Message[] {
  if (humidity_pct === undefined) return [message('coat-sweat-unknown')]
  const air_C = course.air_C[course.air_C.length - 1]!
  return [message('coat-dew', { air_C, humidity_pct, dew_C: dewPoint(air_C, humidity_pct) })]
}

/** The question behind the target. */
export function coatQuestion(target: CoatTarget, course: Course): Question {
  const also = coldAndDry(target, course)
  return { mark: 'firm', what: 'firm, cold and dry enough to coat', ...(also === undefined ? {} : { also }) }
}

/** Ready to coat: firm at every place, the heart as cold as asked, the surface dry. */
export const judgeCoat: Judge<'coat'> = (target, course) => {
  const answer = answerWhole(target, course, coatQuestion(target, course))
  return { ...answer, notes: [...notesOf(target, course), ...(answer.notes ?? [])] }
}
