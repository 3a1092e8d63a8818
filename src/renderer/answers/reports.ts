import type { CarriedReport, CoatReport, Forecast, GrowthReport, KillingReport } from '../../core/forecast-types.ts'
import type { Place } from '../../core/geometry/body.ts'
import type { Message } from '../../core/messages.ts'
import { bandedWords, type TimeBand } from '../../core/words/banded.ts'
import { halfLogs } from '../../core/words/half-logs.ts'
import { dayAndClock } from '../format-time.ts'
import type { Mark } from './questions.ts'

/** What is told of a piece unasked, in the form of an answer. */
export interface Report {
  readonly key: string
  readonly question: string
  readonly word: string
  readonly mark: Mark
  readonly why: Message
  readonly notes: readonly Message[]
  readonly place?: { readonly where: Place; readonly layer: string }
  readonly source?: string
}

const carriedMarks: Readonly<Record<CarriedReport['answer'], Mark>> = {
  carries: 'yes',
  warning: 'not yet',
  'gives way': 'no',
}

const carriedWords: Readonly<Record<CarriedReport['answer'], string>> = {
  carries: 'Carries',
  warning: 'Warning',
  'gives way': 'Gives way',
}

const killingMarks: Readonly<Record<KillingReport['answer'], Mark>> = {
  reached: 'yes',
  'not reached': 'no',
  'not known': 'none',
  'no credit': 'none',
}

const killingWords: Readonly<Record<KillingReport['answer'], string>> = {
  reached: 'Reached',
  'not reached': 'Not reached',
  'not known': 'Not known',
  'no credit': 'No credit',
}

const occasionWords: Readonly<Record<CarriedReport['occasion'], string>> = {
  loaded: 'when something comes on it',
  unmoulded: 'out of its mould',
  end: 'at the end',
}

/** A moment with its band, where it has one. */
const momentWords = (startsAt: string, at_h: number, band: TimeBand): string =>
  bandedWords((h) => dayAndClock(startsAt, h), at_h, band, 'later')

const carried = (
  { answer, title, occasion, at_h, where, layer, why, notes, source, ...band }: CarriedReport,
  startsAt: string,
): Report => ({
  key: `carried ${layer} ${at_h}`,
  question: `Does ${title} carry ${occasionWords[occasion]}, ${momentWords(startsAt, at_h, band)}?`,
  word: carriedWords[answer],
  mark: carriedMarks[answer],
  why,
  notes,
  place: { where, layer },
  source,
})

const coat = ({ title, at_h, why, notes, ...band }: CoatReport, startsAt: string): Report => ({
  key: `coat ${title} ${at_h}`,
  question: `${title} on its face, ${momentWords(startsAt, at_h, band)}`,
  word: 'Warnings only',
  mark: 'none',
  why,
  notes,
})

const killing = ({ target, title, answer, where, layer, why, source }: KillingReport): Report => ({
  key: `killing ${target}`,
  question: title,
  word: killingWords[answer],
  mark: killingMarks[answer],
  why,
  notes: [],
  place: { where, layer },
  source,
})

function powersWords(log10: number): string {
  const halves = halfLogs(log10)
  return `${halves} ${halves === '1' || halves.startsWith('less') ? 'power' : 'powers'} of ten`
}

/** Figures without a verdict: no decision rests on them alone. */
const growth = ({ organism, name, log10, where, layer, why, notes, source }: GrowthReport): Report => ({
  key: `growth ${organism}`,
  question: `Growth of ${name}`,
  word: log10 === undefined ? 'Not computed' : powersWords(log10),
  mark: 'none',
  why,
  notes,
  ...(where === undefined || layer === undefined ? {} : { place: { where, layer } }),
  source,
})

/** Everything that is told unasked, what may give way first. */
export function reportsOf(forecast: Forecast, startsAt: string): readonly Report[] {
  return [
    ...forecast.carried.map((one) => carried(one, startsAt)),
    ...forecast.coats.map((one) => coat(one, startsAt)),
    ...forecast.killing.map(killing),
    ...forecast.growth.map(growth),
  ]
}
