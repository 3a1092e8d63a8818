/* What a mass carries of itself: gels against their own weight, soft creams against slumping. */

/** m/s² */
export const GRAVITY = 9.80665

/** Stretch (below 1) of a slice under a load, from λ − 1/λ² = −load/G: neo-Hookean, free at its sides. */
function stretchUnder(load: number): number {
  let low = 0
  let high = 1
  for (let pass = 0; pass < 60; pass++) {
    const middle = (low + high) / 2
    if (middle - 1 / middle ** 2 > -load) high = middle
    else low = middle
  }
  return (low + high) / 2
}

/** Slices for the mean over a column's height; Simpson's rule. */
const SLICES = 40

/**
 * Share of its height that a standing gel column sags under its own weight.
 * @param N  density × gravity × height over shear modulus
 */
export function sagOf(N: number): number {
  if (!Number.isFinite(N)) return 1
  let sum = 0
  for (let i = 0; i <= SLICES; i++) {
    const weight = i === 0 || i === SLICES ? 1 : i % 2 === 1 ? 4 : 2
    sum += weight * stretchUnder((N * i) / SLICES)
  }
  return 1 - sum / (3 * SLICES)
}

/** kg/m² and Pa under layers that lie on each other. */
export function layersLoad(layers: readonly { readonly thickness: number; readonly density: number }[]) {
  const mass = layers.reduce((sum, { thickness, density }) => sum + thickness * density, 0)
  return { mass, pressure: mass * GRAVITY }
}

/** What a mould or a hand may ask of a mass that stands (choice). */
export const LOAD_LIMITS = {
  unmould: { factor: 2, sag: 0.15 },
  transport: { factor: 3, sag: 0.08 },
  warm: { factor: 1.3 },
} as const

let sagsAt: number | undefined

/** Load N at which a column sags by the share that unmoulding allows; found when first asked for. */
function allowedLoad(): number {
  if (sagsAt !== undefined) return sagsAt
  let low = 0
  let high = 10
  for (let pass = 0; pass < 60; pass++) {
    const middle = (low + high) / 2
    if (sagOf(middle) < LOAD_LIMITS.unmould.sag) low = middle
    else high = middle
  }
  sagsAt = low
  return low
}

/** Strength over load of a column: 1 breaks. */
export const loadFactor = (modulus: number, failsAt: number, density: number, height: number): number =>
  (failsAt * modulus) / (density * GRAVITY * height)

/**
 * How far a column is from what unmoulding asks, as a margin that passes zero: both against breaking and against sag.
 * @param load  weight of what stands, Pa at its foot
 */
export function standsMargin(modulus: number, failsAt: number, load: number): number {
  if (load <= 0) return 1
  return Math.min((failsAt * modulus) / load / LOAD_LIMITS.unmould.factor, (modulus * allowedLoad()) / load) - 1
}

/** Greatest height of a standing column at a factor against breaking, m. */
export const standingHeight = (strength: number, factor: number, density: number): number =>
  strength / (factor * density * GRAVITY)

/**
 * Share of its height that a cream slumps when its ring is lifted. Source: Pashias, Boger, Summers, Glenister 1996,
 * J. Rheology 40, 1179 (text seen, formula from memory).
 */
export function slumpOf(yieldStress: number, density: number, height: number): number {
  const t = yieldStress / (density * GRAVITY * height)
  return t < 0.5 ? 1 - 2 * t * (1 - Math.log(2 * t)) : 0
}
