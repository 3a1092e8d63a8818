/**
 * Mean Nusselt number of a lying cylinder in still fluid, on its diameter.
 * Nu = (0.60 + 0.387 Ra^(1/6) / (1 + (0.559/Pr)^(9/16))^(8/27))².
 * Valid: Ra 1e-5 to 1e12. Source: `churchill-chu-1975`; `incropera-6`, ex. 9.4.
 */
export function nusseltLevelCylinder(Ra: number, Pr: number): number {
  return (0.6 + (0.387 * Ra ** (1 / 6)) / (1 + (0.559 / Pr) ** (9 / 16)) ** (8 / 27)) ** 2
}
