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
