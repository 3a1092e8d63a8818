/**
 * Nusselt number of a level layer of air heated from below, on its thickness.
 * Nu = 1 + 1.44 (1 − 1708/Ra)⁺ + ((Ra/5830)^(1/3) − 1)⁺. Heated from above it is 1: the layer lies still.
 * Valid: air, Ra up to 1e8. Source: `hollands-1976` (from memory).
 */
export function nusseltLayerHeatedBelow(Ra: number): number {
  return 1 + 1.44 * Math.max(0, 1 - 1708 / Math.max(Ra, 1e-9)) + Math.max(0, (Ra / 5830) ** (1 / 3) - 1)
}

/**
 * Nusselt number of an upright layer of air heated from one side, on its thickness: the largest of
 * 0.0605 Ra^(1/3), (1 + (0.104 Ra^0.293 / (1 + (6310/Ra)^1.36))³)^(1/3) and 0.242 (Ra/A)^0.272.
 * @param slenderness  height over thickness, A
 * Valid: Ra 1e2 to 2e7, A 5 to 110. Source: `elsherbiny-1982` (from memory).
 */
export function nusseltLayerUpright(Ra: number, slenderness: number): number {
  if (Ra <= 0) return 1
  return Math.max(
    0.0605 * Ra ** (1 / 3),
    (1 + ((0.104 * Ra ** 0.293) / (1 + (6310 / Ra) ** 1.36)) ** 3) ** (1 / 3),
    0.242 * (Ra / slenderness) ** 0.272,
  )
}

/**
 * The same as measured in liquids up to silicone oils: Nu = 0.069 Ra^(1/3) Pr^0.074.
 * Valid: Ra 3e5 to 7e9, Pr 0.02 to 8750. Source: `globe-dropkin-1959` (from memory).
 */
export function nusseltLiquidLayerMeasured(Ra: number, Pr: number): number {
  return 0.069 * Math.cbrt(Ra) * Pr ** 0.074
}

/** Prandtl number for which a layer is told: hot cream 50, syrup a thousand, for which it would pass a fifth more. */
const USUAL_PR = 100

/**
 * Nusselt number of a level layer of a thick liquid cooled from above or heated from below, on its thickness: the larger
 * of the measured law above and of 1 + (1 − 1708/Ra)⁺ (1.44 + 2 (Ra^(1/3)/75)^(1 − ln(Ra^(1/3)/75))) +
 * ((Ra/5830)^(1/3) − 1)⁺, which holds from the onset on but lies a third too low at Ra 1e7.
 * Valid: Pr above 10, Ra up to 7e9. Source: `hollands-1975` in the limit of a high Prandtl number (from memory).
 */
export function nusseltLiquidLayer(Ra: number): number {
  if (Ra <= 1708) return 1
  const root = Math.cbrt(Ra) / 75
  const fromOnset =
    1 + (1 - 1708 / Ra) * (1.44 + 2 * root ** (1 - Math.log(root))) + Math.max(0, Math.cbrt(Ra / 5830) - 1)
  return Math.max(fromOnset, nusseltLiquidLayerMeasured(Ra, USUAL_PR))
}

/**
 * Nusselt number of a box of liquid about as high as wide, cooled at its sides, on its width:
 * 0.18 (Pr Ra/(0.2 + Pr))^0.29.
 * Valid: height 1 to 2 widths, Pr Ra/(0.2 + Pr) above 1e3. Source: `catton-1978` (from memory).
 */
export function nusseltBoxSides(Ra: number, Pr: number): number {
  return 0.18 * ((Pr * Ra) / (0.2 + Pr)) ** 0.29
}
