/* How much of a fat is solid at a temperature, and the heat of its melting. */

export const fatKinds = [
  'milkFat',
  'cocoaButter',
  'cocoaButterUntempered',
  'lauric',
  'coconut',
  'oil',
  'egg',
  'margarine',
  'shortening',
] as const

export type FatKind = (typeof fatKinds)[number]

const POINTS_C = [-40, -20, 0, 5, 10, 15, 20, 25, 30, 32, 34, 35, 37, 40] as const

/** Solid share in per cent at `POINTS_C`, equilibrated, in the direction of warming; ±8 points. */
const tables = {
  milkFat: [100, 88, 68, 58, 48, 36, 20, 12, 6, 4, 2, 1, 0, 0],
  cocoaButterTempered: [100, 99, 96, 95, 92, 88, 78, 71, 45, 25, 6, 1, 0, 0],
  cocoaButterUntempered: [100, 99, 92, 90, 86, 78, 58, 25, 2, 0, 0, 0, 0, 0],
  lauric: [100, 100, 98, 98, 97, 96, 93, 82, 42, 18, 3, 1, 0, 0],
  nutOil: [100, 60, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0],
} as const

/** A fat's curve and heats. */
export interface Fat {
  /** Share that is solid, 0 to 1; 1 in the deep cold. */
  solid(T_C: number): number
  /** Slope of `solid`, 1/K; never positive. */
  slope(T_C: number): number
  /** Heat of melting all of it, J/kg. */
  readonly fusion: number
  /** Density of the solid where it is a continuous, set fat, kg/m³; absent: the liquid's is used throughout. */
  readonly solidDensity?: number
  /** Where the curve bends, °C. */
  readonly corners_C: readonly number[]
}

/**
 * How far a fat that is cooled within hours runs below its curve before it sets, K. Milk fat 5 to 8 K (estimate; that
 * it undercools: `nahid-2007`); tempered cocoa butter does not set above 28 °C and is slow at 25 °C, untempered waits
 * for 20 to 22 °C (from memory); the others by analogy.
 */
export const undercooling_K: Readonly<Record<FatKind, number>> = {
  milkFat: 6,
  cocoaButter: 5,
  cocoaButterUntempered: 7,
  lauric: 5,
  coconut: 5,
  oil: 0,
  egg: 0,
  margarine: 6,
  shortening: 6,
}

/** Undercooling fades in between these temperatures, °C: in deep cold a fat has caught up. */
const FADES_C = [-20, 0] as const

/**
 * The curve of a fat on its way down from the melt. It meets the curve of the rested fat in the cold and above the
 * melt, so that going down by this one and up by the other takes and gives the same heat.
 */
function coolingFat(kind: FatKind): Fat {
  const rested = fats[kind]
  const depth = undercooling_K[kind]
  if (depth === 0) return rested
  const [cold, mild] = FADES_C
  const part = (T_C: number): number => Math.min(Math.max((T_C - cold) / (mild - cold), 0), 1)
  return {
    ...rested,
    corners_C: [...rested.corners_C.map((T_C) => T_C - depth * part(T_C)), cold, mild],
    solid: (T_C) => rested.solid(T_C + depth * part(T_C)),
    slope: (T_C) => {
      const inside = T_C > cold && T_C < mild
      return rested.slope(T_C + depth * part(T_C)) * (1 + (inside ? depth / (mild - cold) : 0))
    },
  }
}

/** A fat in the state that a mass gives to it. */
export function fatIn(state: 'rested' | 'cooling' | 'molten' | undefined, kind: FatKind): Fat {
  if (state === 'cooling') return coolingFat(kind)
  return state === 'molten' ? moltenFat(kind) : fats[kind]
}

/** A fat with its heat of melting taken up once and for all. */
function moltenFat(kind: FatKind): Fat {
  return { ...fats[kind], corners_C: [], solid: () => 0, slope: () => 0 }
}

/**
 * Monotone cubic through the points (Fritsch and Carlson), so that neither overshoot nor jumps of the apparent heat
 * capacity come in that the table doesn't hold.
 */
function fat(percent: readonly number[], fusion: number, solidDensity?: number, shift_K = 0): Fat {
  const x = POINTS_C.map((T_C) => T_C + shift_K)
  const y = percent.map((value) => value / 100)
  const last = x.length - 1
  const secant = x.slice(1).map((right, i) => (y[i + 1]! - y[i]!) / (right - x[i]!))
  const m = x.map((_, i) => {
    if (i === 0 || i === last) return 0
    const left = secant[i - 1]!
    const right = secant[i]!
    return left * right <= 0 ? 0 : (2 * left * right) / (left + right)
  })
  const piece = (T_C: number): number => {
    let i = 0
    while (i < last - 1 && x[i + 1]! <= T_C) i++
    return i
  }
  return {
    fusion,
    ...(solidDensity === undefined ? {} : { solidDensity }),
    corners_C: x.filter((_, i) => i === 0 || y[i] !== y[i - 1] || y[i] !== y[Math.min(i + 1, last)]),
    solid(T_C) {
      if (T_C <= x[0]!) return y[0]!
      if (T_C >= x[last]!) return y[last]!
      const i = piece(T_C)
      const h = x[i + 1]! - x[i]!
      const s = (T_C - x[i]!) / h
      const r = 1 - s
      return r * r * (1 + 2 * s) * y[i]! + s * s * (3 - 2 * s) * y[i + 1]! + h * s * r * (r * m[i]! - s * m[i + 1]!)
    },
    slope(T_C) {
      if (T_C <= x[0]! || T_C >= x[last]!) return 0
      const i = piece(T_C)
      const s = (T_C - x[i]!) / (x[i + 1]! - x[i]!)
      return 6 * s * (1 - s) * secant[i]! + (1 - s) * (1 - 3 * s) * m[i]! + s * (3 * s - 2) * m[i + 1]!
    },
  }
}

/**
 * Curves and heats by kind of fat. Source: from memory (fat handbooks); the heat of cocoa butter lies between those of
 * `beckett-2009` (157) and of form V (137 J/g); solid densities `beckett-2009`. The egg's fat, margarine and
 * shortening borrow the curve of a fat like them.
 */
export const fats: Readonly<Record<FatKind, Fat>> = {
  milkFat: fat(tables.milkFat, 85_000),
  cocoaButter: fat(tables.cocoaButterTempered, 150_000, 975),
  cocoaButterUntempered: fat(tables.cocoaButterUntempered, 110_000, 975),
  lauric: fat(tables.lauric, 125_000, 970),
  // Coconut fat melts at 23 to 26 °C (from memory): the curve of hard lauric fat, 9 K lower (estimate).
  coconut: fat(tables.lauric, 125_000, 970, -9),
  oil: fat(tables.nutOil, 75_000),
  egg: fat(tables.nutOil, 75_000),
  margarine: fat(tables.milkFat, 85_000),
  shortening: fat(tables.milkFat, 85_000),
}

/** Kinds whose curve is borrowed from another fat. */
export const borrowedFats: readonly FatKind[] = ['coconut', 'egg', 'margarine', 'shortening']
