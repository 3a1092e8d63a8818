import { inverse, Matrix } from 'ml-matrix'

/*
 * Levenberg and Marquardt's damped least squares with a prior: every parameter is told where it is expected and how
 * far it may reasonably lie from there, so that what readings don't determine stays where it was. Parameters are
 * counted in standard deviations of their priors, within bounds.
 */

export interface LeastSquares {
  readonly count: number
  /** How far from its expected value a parameter may go, standard deviations of its prior. */
  readonly reach: number
  /** How much each residual counts, 0 to 1; all alike if left out. Shape: residuals */
  readonly weights?: Float64Array
  /** Where the search begins; at the expected values if left out. */
  readonly from?: readonly number[]
}

export interface Found {
  /** In standard deviations of the prior, from its middle. */
  readonly parameters: readonly number[]
  readonly residuals: Float64Array
  /** What the readings say of the parameters, JᵀWJ; the prior adds the identity. Shape: count × count */
  readonly information: Matrix
}

const MOST_PASSES = 15
/** Width of the differences that give the slopes, standard deviations of the prior. */
const NUDGE = 0.2
/** A pass that moves every parameter by less is the last. */
const SETTLED = 2e-3
/** As is one that makes the sum of squares less by no more than this share of it, or this much. */
const GAINED = 1e-3
const GAINED_LEAST = 3e-3
const LEAST_DAMPING = 1e-8
const MOST_DAMPING = 1e8

/** Sum of squares, each by its weight. */
export function squared(values: ArrayLike<number>, weights?: ArrayLike<number>): number {
  let sum = 0
  for (let i = 0; i < values.length; i++) sum += (weights?.[i] ?? 1) * values[i]! * values[i]!
  return sum
}

/** A search that asks for residuals at parameters, each over its standard deviation, several where it needs several. */
export type Asking<Result> = Generator<readonly (readonly number[])[], Result, readonly Float64Array[]>

/** Slopes of the residuals: by one-sided differences from known residuals, or by central ones. Shape: residuals × count */
function* slopes(count: number, at: readonly number[], known?: Float64Array): Asking<Matrix> {
  const moved = (by: number): number[][] =>
    Array.from({ length: count }, (_, index) => at.map((value, i) => (i === index ? value + by : value)))
  const found = yield known === undefined ? [...moved(NUDGE), ...moved(-NUDGE)] : moved(NUDGE)
  const width = known === undefined ? 2 * NUDGE : NUDGE
  const columns = Array.from({ length: count }, (_, index) => {
    const below = known ?? found[count + index]!
    return Array.from(found[index]!, (value, i) => (value - below[i]!) / width)
  })
  return new Matrix(columns).transpose()
}

/** Jᵀ with each column of residuals by its weight. */
function weighted(J: Matrix, weights: Float64Array | undefined): Matrix {
  const turned = J.transpose()
  if (weights !== undefined) for (let i = 0; i < weights.length; i++) turned.mulColumn(i, weights[i]!)
  return turned
}

/**
 * The parameters at which the weighted sum of squares of residuals and of departures from the prior is least.
 * Valid: residuals finite within the bounds. Source: Marquardt, J. Soc. Indust. Appl. Math. 11 (1963) 431–441.
 */
export function* leastSquares(problem: LeastSquares): Asking<Found> {
  const { count, reach, weights } = problem
  let at: readonly number[] = problem.from ?? Array.from({ length: count }, () => 0)
  let now = (yield [at])[0]!
  let cost = squared(now, weights) + squared(at)
  let damping = 1e-2
  let J = yield* slopes(count, at, now)
  for (let pass = 0; pass < MOST_PASSES; pass++) {
    const Jt = weighted(J, weights)
    const pull = Jt.mmul(Matrix.columnVector(Array.from(now))).add(Matrix.columnVector([...at]))
    const damped = Jt.mmul(J).add(Matrix.eye(count))
    for (let i = 0; i < count; i++) damped.set(i, i, damped.get(i, i) * (1 + damping))
    const step = inverse(damped).mmul(pull)
    const tried = at.map((value, i) => Math.min(Math.max(value - step.get(i, 0), -reach), reach))
    const moved = Math.max(...tried.map((value, i) => Math.abs(value - at[i]!)))
    if (moved < SETTLED) break
    const next = (yield [tried])[0]!
    const nextCost = squared(next, weights) + squared(tried)
    if (!(nextCost <= cost)) {
      damping *= 8
      if (damping > MOST_DAMPING) break
      continue
    }
    const gained = cost - nextCost
    at = tried
    now = next
    cost = nextCost
    if (gained < Math.max(GAINED * cost, GAINED_LEAST)) break
    damping = Math.max(damping / 5, LEAST_DAMPING)
    J = yield* slopes(count, at, now)
  }
  const last = yield* slopes(count, at)
  return { parameters: at, residuals: now, information: weighted(last, weights).mmul(last) }
}

/** Covariance after readings of given information, over a prior of the identity. Shape: as information */
export const covarianceAfter = (information: Matrix): Matrix =>
  inverse(information.clone().add(Matrix.eye(information.rows)))
