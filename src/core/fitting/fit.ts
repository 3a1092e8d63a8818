import { Matrix } from 'ml-matrix'
import type { Control } from '../control.ts'
import { type Drawing, drawnJob, startDrawing } from '../deciding/drawn-job.ts'
import { airKeys, type Input } from '../deciding/inputs.ts'
import { gridOf } from '../deciding/spread-samples.ts'
import { PlanError } from '../errors.ts'
import { findCore } from '../journey/core-place.ts'
import type { Course } from '../journey/course.ts'
import { runOnGrid } from '../journey/grid-journey.ts'
import { computeJourney } from '../journey/journey.ts'
import { type Message, message } from '../messages.ts'
import { type ResolvedPlan, resolvePlan } from '../plan/resolve.ts'
import type { Plan } from '../plan/schema.ts'
import { fromHours, toHours } from '../units.ts'
import { derivedFactors, estimateOf } from './estimates.ts'
import { type FitFactor, fittedInputs, measuringFactors } from './factors.ts'
import type { Fit, FitAsk, FittedReading } from './fit-types.ts'
import { covarianceAfter, type Found, findLeastSquares, squared } from './least-squares.ts'
import { exact, gatherReadings, type Measuring, placesOf, type Reading, readCourse, type Taken } from './readings.ts'
import { findJump, improbable, serialShare } from './residuals.ts'

/*
 * Readings against the plan: its uncertain inputs, and how it was measured, are moved until the computed course passes
 * by the readings, each no further than its prior allows. What the readings say beyond the prior is the information of
 * the fit; where they scatter more than thermometers do, or hang together, they say less.
 */

/** A fit with what forecasts need of it. */
export interface FittedPlan {
  readonly fit: Fit
  readonly resolved: ResolvedPlan
  readonly drawing: Drawing
  readonly inputs: readonly Input[]
  /** Middle of the inputs after the readings, in standard deviations of their priors. Shape: inputs */
  readonly middle: Float64Array
  /** Shape: inputs × inputs */
  readonly covariance: Matrix
}

/** One reading of a good thermometer in a hurry, standard deviation in K: estimate. */
const NOISE_K = 0.5
/** What the model itself is off by, K: estimate. */
const MODEL_K = 0.15
/** Moments are told to the minute; half of one either way where it changes fast, s. */
const MOMENT = 30
/** A median of many scatters so much more than their mean. Source: √(π/2), from memory. */
const MEDIAN = 1.2533
/** How far a factor may be moved, standard deviations. */
const REACH = 3
const AT_BOUND = 2.5
/** Residuals beyond this count less and less (Huber, Ann. Math. Stat. 35 (1964) 73–101), in standard deviations. */
const HUBER = 2
/** Beyond this a reading is an outlier, left out where few are. */
const OUTLIER = 4
const MOST_OUT = 0.2
const REWEIGHTINGS = 4

/** Everything that stays the same while factors move. */
interface Model {
  readonly taken: readonly Taken[]
  /** Standard deviation of each, K. Shape: taken */
  readonly sigma_K: Float64Array
  readonly factors: readonly FitFactor[]
  /** What the probes would read, °C. Shape: taken */
  readonly predict: (parameters: readonly number[]) => Float64Array
}

function measuringOf(factors: readonly FitFactor[], parameters: readonly number[], from: number): Measuring {
  const moved = new Map(factors.map(({ kind, of, sigma }, index) => [`${kind} ${of}`, sigma * parameters[index]!]))
  const look = (kind: string, of = ''): number => moved.get(`${kind} ${of}`) ?? 0
  return {
    higher: (probe) => look('probe depth', probe) / 1000,
    more_K: (probe) => look('probe reading', probe),
    later: (t) => 60 * (look('clock') + (look('clock rate') * (t - from)) / 86_400),
  }
}

function fault(problem: string, remedy: string): PlanError {
  return new PlanError([{ path: 'readings', problem, remedy }])
}

/** Weights by Huber, from residuals in standard deviations. */
const huber = (residuals: Float64Array): Float64Array =>
  residuals.map((value) => Math.min(1, HUBER / Math.max(Math.abs(value), 1e-12)))

/** The least squares, readings that stray counting less each time; those that stray far are left out if they are few. */
function findRobust(residuals: (at: readonly number[]) => Float64Array, count: number, known: Float64Array) {
  let weights = known
  let found: Found | undefined
  for (let turn = 0; turn < REWEIGHTINGS; turn++) {
    const from = found?.parameters
    found = findLeastSquares({ residuals, count, reach: REACH, weights, ...(from === undefined ? {} : { from }) })
    const next = huber(found.residuals).map((weight, i) => (known[i] === 0 ? 0 : weight))
    const moved = Math.max(...next.map((weight, i) => Math.abs(weight - weights[i]!)))
    const straying = found.residuals.reduce((sum, value) => sum + (Math.abs(value) > OUTLIER ? 1 : 0), 0)
    // Where many stray it isn't the readings that are wrong.
    if (turn > 0 && straying > MOST_OUT * known.length) break
    weights = next
    if (moved < 0.02) break
  }
  const far = found!.residuals.map((value) => (Math.abs(value) > OUTLIER ? 1 : 0))
  const out = far.reduce((sum, one) => sum + one, 0)
  const left = far.length - out
  if (out === 0 || left < 3 || out > MOST_OUT * far.length) return { found: found!, weights }
  weights = weights.map((weight, i) => (far[i] === 1 ? 0 : weight))
  return { found: findLeastSquares({ residuals, count, reach: REACH, weights, from: found!.parameters }), weights }
}

/**
 * What readings say about a plan, with what a new forecast needs.
 * Throws: `PlanError` where there is nothing to fit, `ComputeError`, `Cancelled`.
 */
export function fitPlan(plan: Plan, readings: readonly Reading[], ask: FitAsk = {}, control: Control = {}): FittedPlan {
  const resolved = resolvePlan(plan)
  const grid = gridOf(resolved)
  const inputs = fittedInputs(plan, resolved)
  const drawing = startDrawing(resolved.job, inputs, airKeys(plan, resolved.job))
  const stopped: Control = control.stopped === undefined ? {} : { stopped: control.stopped }
  const { course, coarse } = computeJourney(resolved.job, resolved.fidelity, stopped)
  control.report?.(0.1, 'fit')
  const places = placesOf(resolved, findCore(coarse))
  const unknown = readings.find(({ probe }) => !places.has(probe))
  if (unknown !== undefined)
    throw fault(`no probe is called "${unknown.probe}"`, `name one of ${[...places.keys()].join(', ')}`)
  const end_h = toHours(course.t.at(-1)!)
  const gathered = gatherReadings(readings).filter(({ at_h }) => at_h <= end_h)
  const atFirst = readCourse(course, gathered, places, exact)
  const there = gathered.map((_, i) => !Number.isNaN(atFirst[i]!))
  const taken = gathered.filter((_, i) => there[i])
  if (taken.length === 0)
    throw fault('none falls within the course of the plan', 'give readings between its start and its end')
  const nominal = atFirst.filter((_, i) => there[i])

  const probes = [...new Set(taken.map(({ probe }) => probe))]
  const placed = probes.filter((probe) => resolved.job.probes.some(({ name }) => name === probe))
  const logged = ask.logged ?? false
  const wanted = ({ kind }: FitFactor): boolean => ask.factors?.includes(kind) ?? true
  const moving = inputs.map((input, at) => ({ input, at })).filter(({ input }) => wanted(input as FitFactor))
  const measuring = measuringFactors(probes, placed, logged).filter(wanted)
  const factors = [...moving.map(({ input }) => input as FitFactor), ...measuring]
  if (factors.length === 0) throw fault('nothing may be fitted', 'name factors that the plan has')

  const drawOf = (parameters: readonly number[]): Float64Array => {
    const draw = new Float64Array(inputs.length)
    for (const [index, { at }] of moving.entries()) draw[at] = parameters[index]!
    return draw
  }
  // While only the measuring moves the course stays.
  const base: { readonly key: string; readonly course: Course } = {
    key: new Float64Array(inputs.length).join(),
    course: runOnGrid({ ...resolved.job, tables_C: drawing.tables_C }, grid, stopped),
  }
  let last = base
  // The grid of the many runs is coarse; what the plan as it is differs by on the better one is added to all.
  const onGrid = readCourse(base.course, taken, places, exact)
  const finer = nominal.map((value, i) => value - onGrid[i]!)
  /** How much each would change within a minute. */
  const shifted = (later: number): Float64Array =>
    readCourse(base.course, taken, places, { ...exact, later: () => later })
  const before = shifted(-MOMENT)
  const soon = shifted(MOMENT).map((value, i) => value - before[i]!)
  let runs = 0
  const courseAt = (parameters: readonly number[]): Course => {
    const draw = drawOf(parameters)
    const key = draw.join()
    if (key === base.key) return base.course
    if (key !== last.key) {
      last = { key, course: runOnGrid(drawnJob(drawing, draw), grid, stopped) }
      runs++
      control.report?.(1 - 0.9 / (1 + runs / (8 * factors.length)), 'fit')
    }
    return last.course
  }
  const model: Model = {
    taken,
    sigma_K: Float64Array.from(taken, ({ count }, i) =>
      Math.hypot(((ask.noise_K ?? NOISE_K) * (count > 1 ? MEDIAN : 1)) / Math.sqrt(count), MODEL_K, soon[i]! / 2),
    ),
    factors,
    predict: (parameters) => {
      const how = measuringOf(measuring, parameters.slice(moving.length), fromHours(taken[0]!.at_h))
      return readCourse(courseAt(parameters), taken, places, how).map((value, i) => value + finer[i]!)
    },
  }
  const { found, weights, jump } = fitModel(model)
  return {
    ...conclude(
      model,
      found,
      weights,
      jump,
      nominal,
      inputs,
      moving.map(({ at }) => at),
    ),
    resolved,
    drawing,
    inputs,
  }
}

/** The fit; where a probe was moved on the way, that of the longer part. */
function fitModel({ taken, sigma_K, factors, predict }: Model) {
  const residuals = (at: readonly number[]): Float64Array =>
    predict(at).map((value, i) => (taken[i]!.C - value) / sigma_K[i]!)
  const all = new Float64Array(taken.length).fill(1)
  const first = findRobust(residuals, factors.length, all)
  const jump = findJump(taken, first.found.residuals, sigma_K)
  if (jump === undefined) return { ...first, jump }
  const part = all.map((_, i) => (jump.left.includes(i) ? 0 : 1))
  return { ...findRobust(residuals, factors.length, part), jump }
}

/** What comes out of a fit. */
function conclude(
  { taken, factors, predict }: Model,
  { parameters, residuals, information }: Found,
  weights: Float64Array,
  jump: ReturnType<typeof findJump>,
  nominal: Float64Array,
  inputs: readonly Input[],
  moving: readonly number[],
) {
  const counted = weights.reduce((sum, weight) => sum + (weight > 0 ? 1 : 0), 0)
  const misfit = squared(residuals, weights)
  const plain = covarianceAfter(information)
  const told = factors.length - plain.trace()
  // More scatter than thermometers have, or scatter that hangs together, makes readings worth less.
  const spare = counted - told
  const scatter = spare >= 4 ? Math.max(1, misfit / spare) : 1
  const serial = serialShare(taken, residuals, weights)
  const worth = (1 / scatter) * ((1 - serial) / (1 + serial))
  const covariance = covarianceAfter(information.clone().mul(worth))
  const deviations = covariance.diagonal().map(Math.sqrt)
  const outliers = Array.from(residuals, (value) => Math.abs(value) > OUTLIER)
  const strayed = outliers.filter((one, i) => one && weights[i] !== 0).length
  const explained =
    !improbable(misfit + squared(parameters), counted) &&
    strayed <= MOST_OUT * counted &&
    parameters.every((value) => Math.abs(value) < REACH)
  const estimates = factors.map((factor, index) => ({
    kind: factor.kind,
    of: factor.of,
    source: factor.source,
    ...estimateOf(factor, parameters[index]!, deviations[index]!),
    atBound: Math.abs(parameters[index]!) > AT_BOUND,
  }))
  const after = predict(parameters)
  const told_K = (values: Float64Array): number =>
    Math.sqrt(values.reduce((sum, value, i) => sum + (taken[i]!.C - value) ** 2, 0) / taken.length)
  const fitted = taken.map(
    (reading, i): FittedReading => ({
      ...reading,
      before_C: nominal[i]!,
      expected_C: after[i]!,
      residual_K: reading.C - after[i]!,
      usual: residuals[i]!,
      weight: weights[i]!,
      outlier: outliers[i]!,
    }),
  )
  const fit: Fit = {
    factors: estimates,
    derived: derivedFactors(factors, parameters, covariance),
    correlation: covariance
      .to2DArray()
      .map((row, i) => row.map((value, j) => value / (deviations[i]! * deviations[j]!))),
    readings: fitted,
    before_K: told_K(nominal),
    after_K: told_K(after),
    explained,
    notes: notesOf(fitted, estimates, explained, jump, serial),
  }
  const middle = new Float64Array(inputs.length)
  const whole = Matrix.eye(inputs.length)
  for (const [i, at] of moving.entries()) {
    middle[at] = explained ? parameters[i]! : 0
    if (explained) for (const [j, other] of moving.entries()) whole.set(at, other, covariance.get(i, j))
  }
  return { fit, middle, covariance: whole }
}

/** Readings that hang together more than this say so. */
const TOLD_SERIAL = 0.5

function notesOf(
  readings: readonly FittedReading[],
  factors: Fit['factors'],
  explained: boolean,
  jump: ReturnType<typeof findJump>,
  serial: number,
): Message[] {
  const outliers = readings.filter(({ outlier }) => outlier)
  const determined = factors.some(({ determined: how }) => how !== 'not')
  return [
    ...(explained ? [] : [message('fit-unexplained')]),
    ...(jump === undefined
      ? []
      : [message('fit-probe-moved', { probe: jump.probe, at_h: jump.at_h, shift_K: jump.shift_K })]),
    ...factors.filter(({ atBound }) => atBound).map(({ title }) => message('fit-at-bound', { title })),
    ...(outliers.length === 0
      ? []
      : [message('fit-outliers', { count: outliers.length, of: readings.length, at_h: outliers[0]!.at_h })]),
    ...(serial > TOLD_SERIAL ? [message('fit-serial')] : []),
    ...(determined ? [] : [message('fit-undetermined')]),
  ]
}

/** What readings say about a plan; those of the plan itself if none are given. */
export function fitReadings(
  plan: Plan,
  readings: readonly Reading[] = plan.readings ?? [],
  control: Control = {},
  ask: FitAsk = {},
): Fit {
  return fitPlan(plan, readings, ask, control).fit
}
