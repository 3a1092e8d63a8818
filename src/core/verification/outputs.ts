import { missingShape, sizesOf } from './case-body.ts'
import { heatBetween } from './case-material.ts'
import type { CaseRun, Runner, Variant } from './case-run.ts'
import type { Case, CaseOutput, CasePosition } from './case-schema.ts'
import { filmsOf, lettersOf, swingOf } from './case-surroundings.ts'
import { formulaOutput } from './formula-outputs.ts'
import { findFront } from './front.ts'
import { crossings, type Direction, type History, harmonic, maximum, slopeAt, timeWithin, valueAt } from './history.ts'
import { NotApplicable } from './not-applicable.ts'

/** A computed output: a number, or the ends of a range where the case gives a range of inputs. */
export interface Computed {
  readonly value: number | readonly [number, number]
  /** Width of the cell at a front, m, for tolerances in cells. */
  readonly cell?: number
}

interface Question {
  readonly entry: Case
  readonly output: CaseOutput
  readonly run: Runner
  readonly variant: Variant
}

type Answerer = (question: Question) => Computed

const number = (value: number): Computed => ({ value })

function momentOf(output: CaseOutput): number {
  if (output.t_s === undefined) throw new NotApplicable('the output gives no moment')
  return output.t_s
}

function placeOf(run: CaseRun, output: CaseOutput): History {
  if (output.position === undefined) throw new NotApplicable('the output gives no place')
  return { t: run.course.t, value: run.course.follow(run.specimen.place(output.position)) }
}

/** A half-space is made just deep enough for the moment asked. */
const upTo = ({ entry, variant, run }: Question, moment: number): CaseRun =>
  run(entry.geometry.shape === 'semi_infinite' ? { ...variant, deepFor: moment } : variant, 'moments')

function temperature(question: Question): Computed {
  const { output, variant, run } = question
  if (output.t_s === undefined) return steadyTemperature(question)
  const result = question.entry.program === undefined ? upTo(question, output.t_s) : run(variant, 'moments')
  return number(valueAt(placeOf(result, output), output.t_s))
}

function steadyTemperature({ output, variant, run }: Question): Computed {
  const result = run(variant, 'steady')
  return number(valueAt(placeOf(result, output), result.end))
}

function meanTemperature(question: Question): Computed {
  const { course } = question.run(question.variant, 'moments')
  return number(valueAt({ t: course.t, value: course.mean_C }, momentOf(question.output)))
}

/** A place that has moved less than this from where it started has not left it, K. */
const LEFT_K = 1e-3

/**
 * First moment at which a place passes a level. Where the level is the place's own start, the time before it has left
 * it doesn't count: it stands there, and round-off decides which way.
 */
function firstCrossing(history: History, level: number, direction: Direction | undefined): number {
  const left = leavesStart(history, level)
  return crossings(history, level, direction).find((moment) => moment >= left) ?? Number.POSITIVE_INFINITY
}

/** Moment until which a place stands at `level` because it started there, s; 0 where it did not. */
function leavesStart({ t, value }: History, level: number): number {
  if (Math.abs(value[0]! - level) > 1e-9) return 0
  let sample = 0
  while (sample < t.length - 1 && Math.abs(value[sample]! - level) < LEFT_K) sample++
  return t[sample]!
}

function timeToTemperature({ output, variant, run }: Question): Computed {
  const { target_C } = output
  if (target_C === undefined) throw new NotApplicable('the output gives no target_C')
  const history = placeOf(run(variant, 'moments'), output)
  if (expectedNumber(output) < leavesStart(history, target_C))
    throw new NotApplicable(
      'the place starts at the target and has not left it by then: which way it passes is round-off',
    )
  return number(firstCrossing(history, target_C, output.crossing))
}

function bandOf(output: CaseOutput): readonly [number, number] {
  const { from_C, to_C } = output
  if (from_C === undefined || to_C === undefined) throw new NotApplicable('the output gives no from_C or to_C')
  return [from_C, to_C]
}

function timeBetween({ output, variant, run }: Question): Computed {
  const [from, to] = bandOf(output)
  const result = run(variant, 'moments')
  const history = placeOf(result, output)
  const direction = to < from ? 'falling' : 'rising'
  const starts = result.start_C[0] === from ? 0 : firstCrossing(history, from, direction)
  return number(firstCrossing(history, to, direction) - starts)
}

/** Time within a band; where the place starts on its edge, whether it is inside until it leaves is round-off. */
function timeInBand({ output, variant, run }: Question): Computed {
  const [from, to] = bandOf(output)
  const { t, value } = placeOf(run(variant, 'moments'), output)
  const left = Math.max(leavesStart({ t, value }, from), leavesStart({ t, value }, to))
  const first = Array.from(t).findIndex((moment) => moment >= left)
  const after = { t: Array.from(t).slice(first), value: Array.from(value).slice(first) }
  const time = timeWithin(after, Math.min(from, to), Math.max(from, to))
  return { value: left === 0 ? time : [time, time + left] }
}

const highest = ({ output, variant, run }: Question) => maximum(placeOf(run(variant, 'moments'), output))

function frontPosition(question: Question): Computed {
  const moment = momentOf(question.output)
  const front = findFront(upTo(question, moment))
  return { value: front.wayAt(moment), cell: front.cellAt(moment) }
}

function similarityConstant(question: Question): Computed {
  const { entry } = question
  const moments = entry.outputs.flatMap((output) => (output.t_s === undefined ? [] : [output.t_s]))
  const moment = Math.max(...moments)
  const result = upTo(question, moment)
  const { rho_kg_m3: rho, T_change_C: change_C, below_T_change: below, above_T_change: above } = entry.material
  const wall_C = result.course.air_C[0]!
  const phase = wall_C < (change_C ?? 0) ? below : above
  if (phase === undefined || typeof rho !== 'number') throw new NotApplicable('the case lacks the phase at the wall')
  const diffusivity = phase.k_W_mK / (rho * phase.c_J_kgK)
  return number(findFront(result).wayAt(moment) / (2 * Math.sqrt(diffusivity * moment)))
}

function totalChangeTime({ variant, run }: Question): Computed {
  return number(findFront(run(variant, 'moments')).done ?? Number.POSITIVE_INFINITY)
}

function dimensionlessTotalTime(question: Question): Computed {
  const { material } = question.entry
  const result = question.run(question.variant, 'moments')
  const { T_change_C, latent_J_kg: latent, rho_kg_m3: rho, below_T_change: phase } = material
  if (T_change_C === undefined || latent === undefined || typeof rho !== 'number' || phase === undefined)
    throw new NotApplicable('the case lacks a datum of its change of phase')
  const gap_K = Math.abs(T_change_C - result.course.air_C[0]!)
  const time = totalChangeTime(question).value as number
  return number((phase.k_W_mK * gap_K * time) / (rho * latent * result.specimen.depth ** 2))
}

/** Heat that has left through all faces, J of the whole piece, over time. */
function heatLost({ course }: CaseRun): History {
  const value = new Float64Array(course.t.length)
  for (const through of Object.values(course.heatThrough))
    for (let i = 0; i < value.length; i++) value[i] = value[i]! - through[i]!
  return { t: course.t, value }
}

/** The further off of what crossed the faces and what the mass has lost: both must give it. */
function heatRemoved(result: CaseRun, moment: number, expected: number): number {
  const crossed = valueAt(heatLost(result), moment)
  const stored = -valueAt({ t: result.course.t, value: result.course.heat }, moment)
  return Math.abs(crossed - expected) > Math.abs(stored - expected) ? crossed : stored
}

function expectedNumber(output: CaseOutput): number {
  if (typeof output.value !== 'number') throw new NotApplicable('the expected value is not a number')
  return output.value
}

function wholeHeat(result: CaseRun): number {
  const material = result.materials[0]!
  return result.specimen.volume * heatBetween(material, result.start_C[0]!, result.course.air_C[0]!)
}

function heatFraction({ output, variant, run }: Question): Computed {
  const result = run(variant, 'moments')
  const whole = wholeHeat(result)
  return number(heatRemoved(result, momentOf(output), expectedNumber(output) * whole) / whole)
}

function totalHeat({ output, variant, run }: Question): Computed {
  const result = run(variant, 'steady')
  return number(heatRemoved(result, result.end, expectedNumber(output)))
}

/** The face that a flux is told for: the one at the place, else the last that the case names. */
function fluxFace(run: CaseRun, position: CasePosition | undefined): string {
  const named = Object.keys(run.entry.boundary).filter((name) => Object.hasOwn(run.specimen.faces, name))
  const atStart = position?.x_m === 0 && named.includes('x0')
  const name = atStart ? 'x0' : named[named.length - 1]
  const face = name === undefined ? undefined : run.specimen.faces[name]?.[0]
  if (face === undefined) throw new NotApplicable('the case names no face for the flux')
  return face
}

function fluxInto(run: CaseRun, face: string, moment: number): number {
  const through = run.course.heatThrough[face]
  const area = run.specimen.area[face]
  if (through === undefined || area === undefined) throw new NotApplicable(`no heat is booked for the face "${face}"`)
  return slopeAt({ t: run.course.t, value: through }, moment) / area
}

function flux(question: Question): Computed {
  const { output, variant, run } = question
  const result = output.t_s === undefined ? run(variant, 'steady') : upTo(question, output.t_s)
  return number(-fluxInto(result, fluxFace(result, output.position), output.t_s ?? result.end))
}

function surfaceFluxIntoBody(question: Question): Computed {
  const moment = momentOf(question.output)
  const result = upTo(question, moment)
  return number(fluxInto(result, fluxFace(result, question.output.position), moment))
}

function heatTakenFromBody(question: Question): Computed {
  const moment = momentOf(question.output)
  const result = upTo(question, moment)
  const face = fluxFace(result, question.output.position)
  const through = result.course.heatThrough[face]!
  return number(-valueAt({ t: result.course.t, value: through }, moment) / result.specimen.area[face]!)
}

function swing({ entry, output, variant, run }: Question) {
  const turn = swingOf(entry)
  if (turn === undefined) throw new NotApplicable('no period is seen in the surroundings')
  const result = run(variant, 'periodic')
  const period = (2 * Math.PI) / turn
  const history = placeOf(result, output)
  const from = (Math.floor(result.end / period + 1e-9) - 1) * period
  return { history, period, from }
}

function periodicTemperature(question: Question): Computed {
  const { history, from } = swing(question)
  return number(valueAt(history, from + momentOf(question.output)))
}

function periodicAmplitude(question: Question): Computed {
  const { history, period } = swing(question)
  return number(harmonic(history, period).amplitude)
}

function periodicLag(question: Question): Computed {
  const { history, period } = swing(question)
  const { lag } = harmonic(history, period)
  // Lags are told modulo one period: take the turn nearest to the one expected.
  const expected = expectedNumber(question.output)
  return number(lag + period * Math.round((expected - lag) / period))
}

function finalTemperature({ output, variant, run }: Question): Computed {
  const { course } = run(variant, 'steady')
  const last = course.t.length - 1
  const ends = [course.hottest_C[last]!, course.coldest_C[last]!]
  const expected = expectedNumber(output)
  return number(Math.abs(ends[0]! - expected) > Math.abs(ends[1]! - expected) ? ends[0]! : ends[1]!)
}

/** Heat gained or lost by an insulated body, as a share of what its layers exchange among themselves. */
function energyDrift({ variant, run }: Question): Computed {
  const result = run(variant, 'steady')
  const { course, specimen } = result
  const last = course.t.length - 1
  const end_C = course.mean_C[last]!
  const exchanged = specimen.fill.reduce(
    (sum, layer) => sum + (layer.thickness ?? 0) * Math.abs(heatBetween(layer.material, layer.start_C, end_C)),
    0,
  )
  const drift = Math.max(...Array.from(course.heat, Math.abs))
  return number(drift / exchanged)
}

/** Ratios of the times to reach half of the step, each size against the one before; the one furthest off. */
function timeRatio({ entry, output, run, variant }: Question): Computed {
  const sizes = sizesOf(entry)
  if (sizes < 2) throw new NotApplicable('the sizes compared are not given')
  const expected = expectedNumber(output)
  let worst = expected
  for (const letter of lettersOf(entry)) {
    const times = Array.from({ length: sizes }, (_, size) => {
      const result = run({ ...variant, letter, size, film: size }, 'steady')
      const centre = { t: result.course.t, value: result.course.follow({ x: 0.5, y: 0.5, z: 0.5 }) }
      const half_C = (result.start_C[0]! + result.course.air_C[0]!) / 2
      return firstCrossing(centre, half_C, undefined)
    })
    for (let size = 1; size < sizes; size++) {
      const ratio = times[size]! / times[size - 1]!
      if (!(Math.abs(ratio - expected) <= Math.abs(worst - expected))) worst = ratio
    }
  }
  return number(worst)
}

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
