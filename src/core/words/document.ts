import type { Answer, Forecast, RuleVerdict } from '../forecast-types.ts'
import type { Place } from '../geometry/body.ts'
import type { Message } from '../messages.ts'
import { say } from './sentences.ts'
import { metric } from './show.ts'

/*
 * The forecast as an open document: plain numbers in hours and °C, sentences in metric words. What other programs
 * read, so keys stay; drawing data is left out.
 */

/** Digits kept after the point: a tenth of a millikelvin, and some milliseconds of an hour. */
const CURVE_DIGITS = 4
const HOUR_DIGITS = 6

const rounded = (values: readonly (number | null)[], digits: number): (number | null)[] =>
  values.map((value) => (value === null ? null : Number(value.toFixed(digits))))

const sentence = (message: Message): string => say(message, metric)

/** Sentences without repeats, in order. */
const sentencesOf = (messages: readonly Message[]): string[] => [...new Set(messages.map(sentence))]

const placeOf = ({ x, y, z }: Place, layer: string) => ({ x, y, z, layer })

function firstOf({ where, layer, ...moment }: NonNullable<Answer['first']>) {
  return { ...placeOf(where, layer), ...moment }
}

function answerOf(given: Answer) {
  const { target, answer, at_h, early_h, late_h, margin_h, by_h, where, layer, why, first, notes, sources } = given
  return {
    target,
    answer,
    ...(at_h === undefined ? {} : { at_h }),
    ...(early_h === undefined ? {} : { early_h }),
    ...(late_h === undefined ? {} : { late_h }),
    ...(by_h === undefined ? {} : { by_h }),
    ...(margin_h === undefined ? {} : { margin_h }),
    where: placeOf(where, layer),
    ...(first === undefined ? {} : { first: firstOf(first) }),
    why: sentence(why),
    ...(notes === undefined ? {} : { notes: sentencesOf(notes) }),
    ...(sources === undefined ? {} : { sources }),
  }
}

function lastOf<Last extends { readonly where: Place; readonly layer: string }>({ where, layer, ...rest }: Last) {
  return { where: placeOf(where, layer), ...rest }
}

function verdictOf({ rule, title, answer, steps, worst, slowest, coat, core, why, notes, source }: RuleVerdict) {
  const { where, layer, ...margin } = worst
  return {
    rule,
    title,
    answer,
    steps,
    worst: { where: placeOf(where, layer), ...margin },
    ...(slowest === undefined ? {} : { slowest: lastOf(slowest) }),
    ...(coat === undefined ? {} : { coat: lastOf(coat) }),
    core: core.answer,
    why: sentence(why),
    notes: sentencesOf(notes),
    source,
  }
}

function dangerOf({ where, layer, ...hours }: Forecast['danger']) {
  return { ...hours, where: placeOf(where, layer) }
}

/** The document that `forecast --json` prints. */
export function forecastDocument(forecast: Forecast) {
  const { model, danger, core } = forecast
  return {
    format: 'thickset-forecast',
    version: 1,
    title: forecast.title,
    model: { ...model, notes: sentencesOf(model.notes) },
    times_h: rounded(forecast.times_h, HOUR_DIGITS),
    curves: Object.fromEntries(
      Object.entries(forecast.curves).map(([name, values]) => [name, rounded(values, CURVE_DIGITS)]),
    ),
    bands: Object.fromEntries(
      Object.entries(forecast.bands).map(([name, { low, high }]) => [
        name,
        { low: rounded(low, CURVE_DIGITS), high: rounded(high, CURVE_DIGITS) },
      ]),
    ),
    stages: forecast.stages,
    answers: forecast.answers.map(answerOf),
    safety: forecast.safety.map(verdictOf),
    growth: forecast.growth.map(({ where, layer, why, notes, ...growth }) => ({
      ...growth,
      ...(where === undefined || layer === undefined ? {} : { where: placeOf(where, layer) }),
      why: sentence(why),
      notes: sentencesOf(notes),
    })),
    killing: forecast.killing.map(({ where, layer, why, ...killing }) => ({
      ...killing,
      where: placeOf(where, layer),
      why: sentence(why),
    })),
    carried: forecast.carried.map(({ where, layer, why, notes, ...report }) => ({
      ...report,
      where: placeOf(where, layer),
      why: sentence(why),
      notes: sentencesOf(notes),
    })),
    coats: forecast.coats.map(({ why, notes, ...report }) => ({
      ...report,
      why: sentence(why),
      notes: sentencesOf(notes),
    })),
    appliances: forecast.appliances.map(({ why, notes, ...report }) => ({
      ...report,
      why: sentence(why),
      notes: sentencesOf(notes),
    })),
    surroundings: forecast.surroundings,
    danger: dangerOf(danger),
    core: { where: placeOf(core.where, core.layer), depth_m: core.depth_m },
    cautions: sentencesOf(forecast.cautions),
    quantities: forecast.quantities,
  }
}

export type ForecastDocument = ReturnType<typeof forecastDocument>
