/** Nusselt number of a level face in fluid at rest, on area over perimeter: conduction away from a disc (computed). */
const STILL = 0.64

/**
 * Mean Nusselt number of a level face above which the fluid turns over (hot face up, cold face down), on area over
 * perimeter. Nu = 0.54 Ra^(1/4) up to Ra = 1e7, 0.15 Ra^(1/3) above, never below that of fluid at rest.
 * Valid: Ra 1e4 to 1e11; handbooks differ from each other by up to a third. Source: `mcadams-1954`,
 * `lloyd-moran-1974`; `incropera-6`, ex. 9.3.
 */
export function nusseltUnstablePlate(Ra: number): number {
  return Math.max(STILL, Ra <= 1e7 ? 0.54 * Ra ** 0.25 : 0.15 * Ra ** (1 / 3))
}

/**
 * Mean Nusselt number of a level face under which the fluid lies still (hot face down, cold face up), on area over
 * perimeter. Nu = 0.27 Ra^(1/4), never below that of fluid at rest.
 * Valid: Ra 1e5 to 1e10. Source: `mcadams-1954`; `incropera-6`, ex. 9.3.
 */
export function nusseltStablePlate(Ra: number): number {
  return Math.max(STILL, 0.27 * Ra ** 0.25)
}

/**
 * The same by a later and lower law: Nu = 0.52 Ra^(1/5). Valid: Ra 1e4 to 1e9.
 * Source: `radziemska-lewandowski-2001` (from memory). For the lower end of a band.
 */
export function nusseltStablePlateLow(Ra: number): number {
  return Math.max(STILL, 0.52 * Ra ** 0.2)
}
