import type { KillingReport } from '../../forecast-types.ts'
import type { Course } from '../../journey/course.ts'
import type { Keeping } from '../../materials/keeping.ts'
import { type Message, message } from '../../messages.ts'
import { finePlaces } from '../fine-history.ts'
import { meetings } from '../meeting.ts'
import { findKilling, isKilled, type KillingTarget, killedLog10, killingMinutes } from './killing-law.ts'

/** Which killing is asked of a mass made with raw egg. */
const asked: Readonly<Record<NonNullable<Keeping['egg']>, string>> = {
  yolk: 'salm-yolk',
  'yolk-sugar': 'salm-yolk-sugar',
  'whole-egg-sugar': 'salm-whole-egg-sugar',
}

/** Drier than this a mass protects what is in it: heating counts for nothing. Source: measurements in chocolate, cocoa, flour. */
const NO_CREDIT_AW = 0.85
/** Drier than this it is not known what heating does. */
const UNKNOWN_AW = 0.92

interface Least {
  readonly minutes: number
  readonly index: number
}

function reportOf(target: KillingTarget, course: Course, { minutes, index }: Least, driest: number): KillingReport {
  const { where, layer } = course.places()[index]!
  const log10 = killedLog10(target, minutes)
  const enough = isKilled(target, minutes)
  const asked_log10 = target.asked_log10 ?? (target.asked_min ?? 0) / target.D_min
  const common = {
    target: target.id,
    title: target.title,
    where,
    layer,
    source: target.source,
    notes: [message('killing-unknown')],
  }
  const tell = (code: 'killing-no-credit' | 'killing-not-known' | 'killing-enough' | 'killing-short'): Message =>
    message(code, { minutes, reference_C: target.reference_C, log10, asked_log10 }, where)
  if (driest < NO_CREDIT_AW) return { ...common, answer: 'no credit', why: tell('killing-no-credit') }
  if (driest < UNKNOWN_AW) return { ...common, answer: 'not known', why: tell('killing-not-known') }
  return {
    ...common,
    answer: enough ? 'reached' : 'not reached',
    minutes,
    log10,
    why: tell(enough ? 'killing-enough' : 'killing-short'),
  }
}

/** For every kind of raw egg in the piece: the place that is heated least, against the killing that is asked. */
export function judgeKilling(course: Course): KillingReport[] {
  const least = new Map<string, Least & { readonly driest: number }>()
  const histories = finePlaces(course)
  for (const [index, { keepings }] of meetings(course).entries()) {
    const own = keepings[0]
    if (own?.egg === undefined) continue
    const id = asked[own.egg]
    const minutes = killingMinutes(findKilling(id)!, histories[index]!)
    const known = least.get(id)
    if (known === undefined || minutes < known.minutes) least.set(id, { minutes, index, driest: own.aw[0] })
  }
  return [...least].map(([id, found]) => reportOf(findKilling(id)!, course, found, found.driest))
}
