import { Matrix, SVD } from 'ml-matrix'

/** How much of a quantity's spread an input drives. */
export interface Driver {
  /** Place in the list of inputs. */
  readonly input: number
  /** Standardised rank regression coefficient, −1 to 1: positive where more of the input means more of the quantity. */
  readonly coefficient: number
}

export interface Drivers {
  /** The strongest first. */
  readonly drivers: readonly Driver[]
  /** Share of the variance of the ranks that the regression explains, 0 to 1; low: what drives it can't be told so. */
  readonly R2: number
}

/** Ranks from 1, ties in the middle. Shape: as values */
export function ranksOf(values: ArrayLike<number>): Float64Array {
  const order = Array.from({ length: values.length }, (_, index) => index).sort((a, b) => {
    const [one, other] = [values[a]!, values[b]!]
    return one === other ? a - b : one < other ? -1 : 1
  })
  const ranks = new Float64Array(values.length)
  for (let first = 0; first < order.length; ) {
    let last = first
    while (last + 1 < order.length && values[order[last + 1]!] === values[order[first]!]) last++
    for (let i = first; i <= last; i++) ranks[order[i]!] = 1 + (first + last) / 2
    first = last + 1
  }
  return ranks
}

/** Moved and stretched to mean 0 and variance 1; undefined where all are the same. */
function standardised(values: Float64Array): Float64Array | undefined {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length
  const variance = values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / values.length
  return variance > 0 ? values.map((value) => (value - mean) / Math.sqrt(variance)) : undefined
}

/** Finds what drives one quantity of the runs; undefined where it doesn't vary, or there are too few runs to tell. */
export type FindDrivers = (values: Float64Array) => Drivers | undefined

/**
 * What drives quantities, by standardised regression of their ranks on those of the inputs. The inputs are taken apart
 * once, for all quantities of the same runs.
 * Source: Iman and Conover, Technometrics 21 (1979) 499–509.
 * @param draws  Shape: runs × inputs
 * @returns takes Infinity where a run never gets there. Shape of what it takes: runs
 */
export function rankRegression(draws: readonly Float64Array[]): FindDrivers {
  const inputs = draws[0]?.length ?? 0
  if (inputs === 0 || draws.length < inputs + 2) return () => undefined
  const columns = Array.from({ length: inputs }, (_, input) => standardised(ranksOf(draws.map((draw) => draw[input]!))))
  const varying = columns.flatMap((column, input) => (column === undefined ? [] : [{ column, input }]))
  const X = new Matrix(draws.map((_, run) => varying.map(({ column }) => column[run]!)))
  const inverse = new SVD(X).inverse()
  return (values) => {
    const y = standardised(ranksOf(values))
    if (y === undefined) return undefined
    const fitted = inverse.mmul(Matrix.columnVector([...y]))
    const predicted = X.mmul(fitted)
    const left = y.reduce((sum, value, run) => sum + (value - predicted.get(run, 0)) ** 2, 0)
    const drivers = varying
      .map(({ input }, index) => ({ input, coefficient: fitted.get(index, 0) }))
      .sort((a, b) => Math.abs(b.coefficient) - Math.abs(a.coefficient))
    return { drivers, R2: Math.max(0, 1 - left / draws.length) }
  }
}
