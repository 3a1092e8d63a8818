/**
 * Seeks the air that its own consequences bring about: the next guess by the secant through the last two, kept between
 * what was found too cold and what was found too warm.
 */
export function createSeeker() {
  let guess = Number.NaN
  let miss = Number.NaN
  let low = Number.NEGATIVE_INFINITY
  let high = Number.POSITIVE_INFINITY
  /** @param to_C  what the air would come to if it were at `from_C` */
  return (from_C: number, to_C: number): number => {
    const [lastGuess, lastMiss] = [guess, miss]
    guess = from_C
    miss = to_C - from_C
    if (miss > 0) low = Math.max(low, from_C)
    else high = Math.min(high, from_C)
    const fall = miss - lastMiss
    const secant = guess - (miss * (guess - lastGuess)) / fall
    // No further than what it leads to: beyond that nothing is known yet.
    const within = Math.abs(secant - guess) <= 2 * Math.abs(miss)
    const next = Math.abs(fall) > 1e-9 && within ? secant : to_C
    if (next > low && next < high) return next
    return Number.isFinite(low) && Number.isFinite(high) ? (low + high) / 2 : Math.min(Math.max(to_C, low), high)
  }
}
