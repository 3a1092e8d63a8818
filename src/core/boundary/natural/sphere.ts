/**
 * Mean Nusselt number of a ball in still fluid, on its diameter.
 * Nu = 2 + 0.589 Ra^(1/4) / (1 + (0.469/Pr)^(9/16))^(4/9).
 * Valid: Ra up to 1e11, Pr from 0.7. Source: `churchill-1983` (from memory, `incropera-6`, chapter 9).
 */
export function nusseltSphere(Ra: number, Pr: number): number {
  return 2 + (0.589 * Ra ** 0.25) / (1 + (0.469 / Pr) ** (9 / 16)) ** (4 / 9)
}
