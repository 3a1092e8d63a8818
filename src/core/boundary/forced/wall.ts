/** Speed from which the air of a cabinet counts as blown, m/s (assumed). */
export const FANNED_SPEED = 0.5

/**
 * Film of a wall in blown room air, W/(m² K): 5.7 + 3.9 v below 5 m/s, 7.4 v^0.78 above.
 * Valid: air near 20 °C. Source: `jurges-1924` as in `mcadams-1954` (from memory).
 */
export function filmRoughWallJurges(speed: number): number {
  return speed < 5 ? 5.7 + 3.9 * speed : 7.4 * speed ** 0.78
}
