import { inverse, Matrix } from 'ml-matrix'

/*
 * Levenberg and Marquardt's damped least squares with a prior: every parameter is told where it is expected and how
 * far it may reasonably lie from there, so that what readings don't determine stays where it was. Parameters are
 * counted in standard deviations of their priors, within bounds.
 */

export interface LeastSquares {
  /** Residuals at given parameters, each over its standard deviation. */
  readonly residuals: (parameters: readonly number[]) => Float64Array
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

/** Slopes of the residuals: by one-sided differences from known residuals, or by central ones. Shape: residuals × count */
function slopes({ residuals, count }: LeastSquares, at: readonly number[], known?: Float64Array): Matrix {
  const moved = (index: number, by: number): Float64Array =>
    residuals(at.map((value, i) => (i === index ? value + by : value)))
  const columns = Array.from({ length: count }, (_, index) => {
    const above = moved(index, NUDGE)
    const below = known ?? moved(index, -NUDGE)
    return Array.from(above, (value, i) => (value - below[i]!) / (known === undefined ? 2 * NUDGE : NUDGE))
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
export function findLeastSquares(problem: LeastSquares): Found {
  const { count, reach, residuals, weights } = problem
  let at: readonly number[] = problem.from ?? Array.from({ length: count }, () => 0)
  let now = residuals(at)
  let cost = squared(now, weights) + squared(at)
  let damping = 1e-2
  let J = slopes(problem, at, now)
  for (let pass = 0; pass < MOST_PASSES; pass++) {
    const Jt = weighted(J, weights)
    const pull = Jt.mmul(Matrix.columnVector(Array.from(now))).add(Matrix.columnVector([...at]))
    const damped = Jt.mmul(J).add(Matrix.eye(count))
    for (let i = 0; i < count; i++) damped.set(i, i, damped.get(i, i) * (1 + damping))
    const step = inverse(damped).mmul(pull)
    const tried = at.map((value, i) => Math.min(Math.max(value - step.get(i, 0), -reach), reach))
    const moved = Math.max(...tried.map((value, i) => Math.abs(value - at[i]!)))
    if (moved < SETTLED) break
    const next = residuals(tried)
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
    J = slopes(problem, at, now)
  }
  const last = slopes(problem, at)
  return { parameters: at, residuals: now, information: weighted(last, weights).mmul(last) }
}

/** Covariance after readings of given information, over a prior of the identity. Shape: as information */
export const covarianceAfter = (information: Matrix): Matrix =>
  inverse(information.clone().add(Matrix.eye(information.rows)))
