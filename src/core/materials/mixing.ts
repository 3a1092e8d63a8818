/* Conductivity of mixtures, W/(m K), from conductivities and volume fractions of the parts. */

/** One part of a mixture: conductivity and share of the volume. */
export interface Part {
  readonly k: number
  readonly share: number
}

/** Upper bound: all parts side by side along the heat. */
export function parallel(parts: readonly Part[]): number {
  let k = 0
  for (const part of parts) k += part.share * part.k
  return k
}

/** Lower bound: all parts one behind the other. */
export function series(parts: readonly Part[]): number {
  let resistance = 0
  for (const part of parts) resistance += part.share / part.k
  return 1 / resistance
}

/**
 * Balls of one part strewn in a continuous other.
 * @param share  volume fraction of the balls
 * Source: `maxwell-eucken` (from memory), the form of `ashrae-2006`.
 */
export function maxwellEucken(continuous: number, dispersed: number, share: number): number {
  const gap = continuous - dispersed
  const sum = 2 * continuous + dispersed
  return (continuous * (sum - 2 * share * gap)) / (sum + share * gap)
}

/**
 * Several dispersed parts in one continuous part; with one dispersed part equal to `maxwellEucken`.
 * @param dispersed  shares are those of the whole volume
 * Source: `brailsford-major-1964` (from memory).
 */
export function maxwellMulti(continuous: number, dispersed: readonly Part[]): number {
  let b = 0
  for (const part of dispersed) b += (part.share * (part.k - continuous)) / (part.k + 2 * continuous)
  return (continuous * (1 + 2 * b)) / (1 - b)
}

/**
 * Levy's average of the two Maxwell forms: exchanging the parts changes nothing.
 * @param share_1  volume fraction of part 1
 * Source: `levy-1981` in `ashrae-2006` (from memory).
 */
export function levy(k_1: number, k_2: number, share_1: number): number {
  if (share_1 <= 0) return k_2
  if (share_1 >= 1) return k_1
  const ratio = k_1 / k_2
  if (Math.abs(ratio - 1) < 1e-9) return k_2
  const s = (ratio - 1) ** 2 / ((ratio + 1) ** 2 + ratio / 2)
  const b = 2 / s - 1 + 2 * share_1
  const F = 0.5 * (b - Math.sqrt(b * b - (8 * share_1) / s))
  return (k_2 * (2 + ratio + 2 * (ratio - 1) * F)) / (2 + ratio - (ratio - 1) * F)
}

/**
 * Effective medium of two parts, neither continuous.
 * Source: `bruggeman` (from memory, Landauer 1952).
 */
export function effectiveMedium(k_1: number, k_2: number, share_2: number): number {
  const b = (3 * share_2 - 1) * k_2 + (3 * (1 - share_2) - 1) * k_1
  return 0.25 * (b + Math.sqrt(b * b + 8 * k_1 * k_2))
}

/**
 * Kopelman's isotropic law: one part strewn in a continuous other.
 * Source: `ashrae-2006` (from memory).
 */
export function kopelman(continuous: number, dispersed: number, share: number): number {
  const q = share ** (2 / 3) * (1 - dispersed / continuous)
  return (continuous * (1 - q)) / (1 - q * (1 - Math.cbrt(share)))
}

/**
 * Krischer's weighting of the two bounds.
 * @param seriesShare  0: parallel, 1: in series
 * Source: `krischer` (from memory).
 */
export function krischer(parts: readonly Part[], seriesShare: number): number {
  return 1 / ((1 - seriesShare) / parallel(parts) + seriesShare / series(parts))
}
