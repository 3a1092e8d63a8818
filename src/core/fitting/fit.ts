import { Matrix } from 'ml-matrix'
import type { Control } from '../control.ts'
import { type Drawing, drawnJob, startDrawing } from '../deciding/drawn-job.ts'
import { airKeys, type Input } from '../deciding/inputs.ts'
import { gridOf } from '../deciding/spread-samples.ts'
import { Cancelled, PlanError } from '../errors.ts'
import type { Place } from '../geometry/body.ts'
import { doneHere, type InParts } from '../in-parts.ts'
import { findCore } from '../journey/core-place.ts'
import type { Course } from '../journey/course.ts'
import { runOnGrid } from '../journey/grid-journey.ts'
import { computeJourney } from '../journey/journey.ts'
import { type Message, message } from '../messages.ts'
import { type ResolvedPlan, resolvePlan } from '../plan/resolve.ts'
import type { Plan } from '../plan/schema/plan.ts'
import { fromHours, toHours } from '../units.ts'
import { derivedFactors, estimateOf } from './estimates.ts'
import { type FitFactor, fittedInputs, measuringFactors } from './factors.ts'
import type { Fit, FitAsk, FittedReading } from './fit-types.ts'
import { type Asking, covarianceAfter, type Found, leastSquares, squared } from './least-squares.ts'
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
  /** What the finer grid of the plan as it is adds to what the probes would read on that of the many runs, K. Shape: taken */
  readonly finer: Float64Array
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
function* findRobust(count: number, known: Float64Array): Asking<{ found: Found; weights: Float64Array }> {
  let weights = known
  let found: Found | undefined
  for (let turn = 0; turn < REWEIGHTINGS; turn++) {
    const from = found?.parameters
    found = yield* leastSquares({ count, reach: REACH, weights, ...(from === undefined ? {} : { from }) })
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
  return { found: yield* leastSquares({ count, reach: REACH, weights, from: found!.parameters }), weights }
}

/** What may move of a plan, and what its probes would read then. */
interface Moving {
  readonly resolved: ResolvedPlan
  readonly inputs: readonly Input[]
  readonly drawing: Drawing
  /** Places among the inputs of those that may move. */
  readonly moving: readonly number[]
  readonly factors: readonly FitFactor[]
  /** The course as it is, on the grid of the many runs. */
  readonly base: () => Course
  /** What the probes would read on that grid, °C. Shape: taken */
  readonly read: (parameters: readonly number[]) => Float64Array
}

/** Readings with all that is needed to predict them: plain data. */
export interface FitStart {
  readonly plan: Plan
  readonly ask: FitAsk
  readonly taken: readonly Taken[]
  readonly places: ReadonlyMap<string, Place | 'surface'>
}

function movingOf({ plan, ask, taken, places }: FitStart, resolved: ResolvedPlan, control: Control): Moving {
  const grid = gridOf(resolved)
  const inputs = fittedInputs(plan, resolved)
  const drawing = startDrawing(resolved.job, inputs, airKeys(plan, resolved.job))
  const probes = [...new Set(taken.map(({ probe }) => probe))]
  const placed = probes.filter((probe) => resolved.job.probes.some(({ name }) => name === probe))
  const wanted = ({ kind }: FitFactor): boolean => ask.factors?.includes(kind) ?? true
  const moving = inputs.flatMap((input, at) => (wanted(input as FitFactor) ? [at] : []))
  const measuring = measuringFactors(probes, placed, ask.logged ?? false).filter(wanted)
  const untouched = new Float64Array(inputs.length)
  let base: Course | undefined
  const baseCourse = (): Course => {
    base ??= runOnGrid({ ...resolved.job, tables_C: drawing.tables_C }, grid, control)
    return base
  }
  let last: { readonly key: string; readonly course: Course } | undefined
  // While only the measuring moves the course stays.
  const courseAt = (parameters: readonly number[]): Course => {
    const draw = untouched.slice()
    for (const [index, at] of moving.entries()) draw[at] = parameters[index]!
    const key = draw.join()
    if (key === untouched.join()) return baseCourse()
    if (key !== last?.key) last = { key, course: runOnGrid(drawnJob(drawing, draw), grid, control) }
    return last.course
  }
  const from = fromHours(taken[0]!.at_h)
  return {
    resolved,
    inputs,
    drawing,
    moving,
    factors: [...moving.map((at) => inputs[at] as FitFactor), ...measuring],
    base: baseCourse,
    read: (parameters) =>
      readCourse(courseAt(parameters), taken, places, measuringOf(measuring, parameters.slice(moving.length), from)),
  }
}

/** What does the parts of a fit elsewhere: what the probes would read, on the grid of the many runs. Throws `ComputeError`. */
export function fitReader(start: FitStart): (parameters: readonly number[]) => Float64Array {
  return movingOf(start, resolvePlan(start.plan), {}).read
}

/** A fit made ready. */
export interface FitTask {
  readonly start: FitStart
  readonly move: Moving
  /** What the plan as it is predicts on its own grid, °C. Shape: taken */
  readonly nominal: Float64Array
}

/** Throws: `PlanError` where there is nothing to fit, `ComputeError`, `Cancelled`. */
export function prepareFit(plan: Plan, readings: readonly Reading[], ask: FitAsk = {}, control: Control = {}): FitTask {
  const resolved = resolvePlan(plan)
  const stopped: Control = control.stopped === undefined ? {} : { stopped: control.stopped }
  const { course, coarse } = computeJourney(resolved.job, resolved.fidelity, stopped)
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
  const start: FitStart = { plan, ask, taken, places }
  const move = movingOf(start, resolved, stopped)
  if (move.factors.length === 0) throw fault('nothing may be fitted', 'name factors that the plan has')
  return { start, move, nominal: atFirst.filter((_, i) => there[i]) }
}

/** How well the readings are known, and what they are compared with. */
function modelOf({ start: { ask, taken, places }, move, nominal }: FitTask): Model {
  const onBase = (measuring: Measuring): Float64Array => readCourse(move.base(), taken, places, measuring)
  const onGrid = onBase(exact)
  /** How much each would change within a minute. */
  const before = onBase({ ...exact, later: () => -MOMENT })
  const soon = onBase({ ...exact, later: () => MOMENT }).map((value, i) => value - before[i]!)
  return {
    taken,
    sigma_K: Float64Array.from(taken, ({ count }, i) =>
      Math.hypot(((ask.noise_K ?? NOISE_K) * (count > 1 ? MEDIAN : 1)) / Math.sqrt(count), MODEL_K, soon[i]! / 2),
    ),
    factors: move.factors,
    finer: nominal.map((value, i) => value - onGrid[i]!),
  }
}

/**
 * What readings say about a plan, with what a new forecast needs.
 * Throws: `PlanError` where there is nothing to fit, `ComputeError`, `Cancelled`.
 */
export function fitPlan(plan: Plan, readings: readonly Reading[], ask: FitAsk = {}, control: Control = {}): FittedPlan {
  const task = prepareFit(plan, readings, ask, control)
  return doneHere(fitInParts(task), task.move.read, control)
}

/**
 * The same in parts: parameters, and what the probes would read with them. Left undone it is `Cancelled`, as half a fit
 * says nothing.
 */
export function* fitInParts(task: FitTask): InParts<readonly number[], Float64Array, FittedPlan> {
  const model = modelOf(task)
  const { resolved, drawing, inputs, moving, factors } = task.move
  let runs = 0
  /** How much is done can't be known before; each turn is a step nearer. */
  const share = (): number => 1 - 0.9 / (1 + runs / (8 * factors.length))
  const predicted = function* (
    parts: readonly (readonly number[])[],
  ): InParts<readonly number[], Float64Array, Float64Array[]> {
    const from = share()
    runs += parts.length
    const read = yield { parts, doing: 'fit', from, to: share() }
    return read.map((one) => {
      if (one === undefined) throw new Cancelled()
      return one.map((value, i) => value + model.finer[i]!)
    })
  }
  const fitting = fitModel(model)
  let next = fitting.next()
  while (next.done !== true) {
    const values = yield* predicted(next.value)
    next = fitting.next(values.map((one) => one.map((value, i) => (model.taken[i]!.C - value) / model.sigma_K[i]!)))
  }
  const { found, weights, jump } = next.value
  const [after] = yield* predicted([found.parameters])
  return {
    ...conclude(model, found, weights, jump, { before: task.nominal, after: after! }, inputs, moving),
    resolved,
    drawing,
    inputs,
  }
}

/** The fit; where a probe was moved on the way, that of the longer part. */
function* fitModel({ taken, sigma_K, factors }: Model) {
  const all = new Float64Array(taken.length).fill(1)
  const first = yield* findRobust(factors.length, all)
  const jump = findJump(taken, first.found.residuals, sigma_K)
  if (jump === undefined) return { ...first, jump }
  const part = all.map((_, i) => (jump.left.includes(i) ? 0 : 1))
  return { ...(yield* findRobust(factors.length, part)), jump }
}

/** What comes out of a fit. */
function conclude(
  { taken, factors }: Model,
  { parameters, residuals, information }: Found,
  weights: Float64Array,
  jump: ReturnType<typeof findJump>,
  { before, after }: { readonly before: Float64Array; readonly after: Float64Array },
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
  const told_K = (values: Float64Array): number =>
    Math.sqrt(values.reduce((sum, value, i) => sum + (taken[i]!.C - value) ** 2, 0) / taken.length)
  const fitted = taken.map(
    (reading, i): FittedReading => ({
      ...reading,
      before_C: before[i]!,
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
    before_K: told_K(before),
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
