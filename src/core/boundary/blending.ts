/**
 * Natural and forced convection together, W/(m² K): h³ = h_n³ + h_f³.
 * Valid: assisting flow and flow across. For opposing flow the difference that handbooks give nearly vanishes at the
 * cross-over, which no cabinet shows; the sum is kept. Source: `incropera-6`, chapter 9 (from memory).
 */
export function blendedFilm(natural: number, forced: number): number {
  return Math.cbrt(natural ** 3 + forced ** 3)
}
