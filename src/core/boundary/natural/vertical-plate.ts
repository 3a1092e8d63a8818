/**
 * Mean Nusselt number of an upright face in still fluid, on its height.
 * Nu = (0.825 + 0.387 Ra^(1/6) / (1 + (0.492/Pr)^(9/16))^(8/27))².
 * Valid: Ra up to 1e12, laminar and turbulent, smooth between. Source: `churchill-chu-1975`; `incropera-6`, ex. 9.2.
 */
export function nusseltVerticalPlate(Ra: number, Pr: number): number {
  return (0.825 + (0.387 * Ra ** (1 / 6)) / (1 + (0.492 / Pr) ** (9 / 16)) ** (8 / 27)) ** 2
}

/**
 * The same, laminar only: Nu = 0.68 + 0.670 Ra^(1/4) / (1 + (0.492/Pr)^(9/16))^(4/9).
 * Valid: Ra below 1e9; a switch to the other law there would make the film jump by a third.
 * Source: `churchill-chu-1975`; `incropera-6`, ex. 9.3.
 */
export function nusseltVerticalPlateLaminar(Ra: number, Pr: number): number {
  return 0.68 + (0.67 * Ra ** 0.25) / (1 + (0.492 / Pr) ** (9 / 16)) ** (4 / 9)
}
