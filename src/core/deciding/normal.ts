/*
 * Rational approximations of the quantile of the normal distribution, middle and tails, by P. J. Acklam (relative error
 * below 1.2e-9; coefficients from memory, checked against printed tables).
 */
const middleTop = [
  -3.969683028665376e1, 2.209460984245205e2, -2.759285104469687e2, 1.38357751867269e2, -3.066479806614716e1,
  2.506628277459239,
]
const middleBottom = [
  -5.447609879822406e1, 1.615858368580409e2, -1.556989798598866e2, 6.680131188771972e1, -1.328068155288572e1, 1,
]
const tailTop = [
  -7.784894002430293e-3, -3.223964580411365e-1, -2.400758277161838, -2.549732539343734, 4.374664141464968,
  2.938163982698783,
]
const tailBottom = [7.784695709041462e-3, 3.224671290700398e-1, 2.445134137142996, 3.754408661907416, 1]

const TAIL = 0.02425

const polynomial = (coefficients: readonly number[], x: number): number =>
  coefficients.reduce((sum, coefficient) => sum * x + coefficient, 0)

/** The value that a standard normal number stays below with a probability above 0 and below 1. */
export function normalQuantile(probability: number): number {
  if (probability > 0.5) return -normalQuantile(1 - probability)
  if (probability < TAIL) {
    const q = Math.sqrt(-2 * Math.log(probability))
    return polynomial(tailTop, q) / polynomial(tailBottom, q)
  }
  const q = probability - 0.5
  return (q * polynomial(middleTop, q * q)) / polynomial(middleBottom, q * q)
}
