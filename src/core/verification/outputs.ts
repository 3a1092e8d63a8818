import { missingShape, sizesOf } from './case-body.ts'
import type { Runner } from './case-run.ts'
import type { Case, CaseOutput } from './case-schema.ts'
import { filmsOf } from './case-surroundings.ts'
import {
  finalTemperature,
  highest,
  meanTemperature,
  slowestDepth,
  steadyTemperature,
  temperature,
  timeBetween,
  timeInBand,
  timeRatio,
  timeToTemperature,
} from './course-outputs.ts'
import { formulaOutput } from './formula-outputs.ts'
import { dimensionlessTotalTime, frontPosition, similarityConstant, totalChangeTime } from './front-outputs.ts'
import {
  energyDrift,
  flux,
  heatFraction,
  heatRatePerLength,
  heatRemoved,
  heatTakenFromBody,
  surfaceFluxIntoBody,
  totalHeat,
} from './heat-outputs.ts'
import { NotApplicable } from './not-applicable.ts'
import { type Answerer, type Computed, expectedNumber, momentOf, number, type Question } from './question.ts'
import { periodicAmplitude, periodicLag, periodicTemperature } from './swing-outputs.ts'

const refuse =
  (reason: string): Answerer =>
  () => {
    throw new NotApplicable(reason)
  }

const ANSWERS: Readonly<Record<string, Answerer>> = {
  temperature,
  mean_temperature: meanTemperature,
  time_to_temperature: timeToTemperature,
  time_between: timeBetween,
  time_in_band: timeInBand,
  maximum_of_centre: (question) => number(highest(question).value),
  time_of_maximum_of_centre: (question) => number(highest(question).at),
  front_position: frontPosition,
  front_position_from_surface: frontPosition,
  similarity_constant_lambda: similarityConstant,
  total_change_time: totalChangeTime,
  dimensionless_total_time: dimensionlessTotalTime,
  slowest_point_depth: slowestDepth,
  heat_rate_per_length: heatRatePerLength,
  steady_temperature: steadyTemperature,
  final_temperature: finalTemperature,
  relative_energy_drift: energyDrift,
  flux,
  surface_flux_into_body: surfaceFluxIntoBody,
  heat_taken_from_body: heatTakenFromBody,
  heat_removed: ({ output, variant, run }) =>
    number(heatRemoved(run(variant, 'moments'), momentOf(output), expectedNumber(output))),
  heat_fraction: heatFraction,
  total_heat: totalHeat,
  periodic_temperature: periodicTemperature,
  periodic_amplitude: periodicAmplitude,
  periodic_lag: periodicLag,
  time_ratio: timeRatio,
  plausible_band: refuse('a band of trade practice without size, material or surroundings'),
  bake_time_band: refuse('baking to an end point judged by eye, with a range of materials'),
  time_lower_bound: refuse('a bound for joints whose size is not given'),
  verdict: refuse('a description, not a number'),
  table: refuse('a table of series coefficients: the core solves the whole field and has none'),
}

function answer(question: Question): Computed {
  const { entry, output } = question
  const byFormula = formulaOutput(entry, output)
  if (byFormula !== undefined) return number(byFormula)
  const missing = missingShape(entry.geometry.shape)
  if (missing !== undefined) throw new NotApplicable(missing)
  if (!Object.hasOwn(ANSWERS, output.quantity))
    throw new NotApplicable(`the quantity "${output.quantity}" is not known`)
  return ANSWERS[output.quantity]!(question)
}

/**
 * Computes one output of a case. Where the case gives a range of film coefficients, both ends are run.
 * Throws `NotApplicable`, `FormulaError`, `ComputeError`.
 */
export function computeOutput(entry: Case, output: CaseOutput, run: Runner): Computed {
  const letter = output.position?.case
  const base = { size: 0, ...(letter === undefined ? {} : { letter }) }
  const films = sizesOf(entry) === 1 ? filmsOf(entry) : 1
  if (films === 1) return answer({ entry, output, run, variant: { ...base, film: 0 } })
  const ends = Array.from({ length: films }, (_, film) =>
    answer({ entry, output, run, variant: { ...base, film } }),
  ).map(({ value }) => value as number)
  return { value: [Math.min(...ends), Math.max(...ends)] }
}
