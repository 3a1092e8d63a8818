/*
 * Properties of the pure components of a food between −40 and 150 °C. Beyond that range every property keeps the value
 * of its end, so that heat goes on rising and conductivity stays positive; whoever uses them there says so.
 */

/** y = c0 + c1 T + c2 T² with T in °C. */
export type Polynomial = readonly [number, number, number]

export type ComponentName = 'water' | 'ice' | 'protein' | 'fat' | 'carbohydrate' | 'fibre' | 'ash'

/** Coefficients of one component: W/(m K), m²/s, kg/m³, J/(kg K). */
export interface ComponentPolynomials {
  readonly k: Polynomial
  /** Diffusivity, for checks only: a forecast forms it from k, rho and c. */
  readonly alpha: Polynomial
  readonly rho: Polynomial
  readonly c: Polynomial
}

/** Range of the polynomials, °C. */
export const POLYNOMIAL_RANGE_C = [-40, 150] as const

/** Where enthalpy counts from, °C. */
export const REFERENCE_C = -40

/** Heat of fusion of water at 0 °C, J/kg. Source: `iapws`. */
export const FUSION_J_KG = 333_550

/** Heat capacity of the unfrozen water of a sugar solution below 0 °C, J/(kg K). */
const UNFROZEN_WATER_C = 4180

/**
 * Choi and Okos' polynomials. Where transcriptions differ, the coefficient was taken that keeps alpha = k/(rho c):
 * fat's k has slope −2.7604e-4, fat's alpha −1.2569e-10, carbohydrate's alpha starts at 8.0842e-8, and water above
 * 0 °C has c0 = 4176.2.
 *
 * Source: `choi-okos-1986`, as tabulated in `ashrae-2006`; checked against `iapws` for water and ice.
 */
export const polynomials: Readonly<Record<ComponentName, ComponentPolynomials>> = {
  water: {
    k: [5.7109e-1, 1.7625e-3, -6.7036e-6],
    alpha: [1.3168e-7, 6.2477e-10, -2.4022e-12],
    rho: [997.18, 3.1439e-3, -3.7574e-3],
    c: [4176.2, -9.0864e-2, 5.4731e-3],
  },
  ice: {
    k: [2.2196, -6.2489e-3, 1.0154e-4],
    alpha: [1.1756e-6, -6.0833e-9, 9.5037e-11],
    rho: [916.89, -0.13071, 0],
    c: [2062.3, 6.0769, 0],
  },
  protein: {
    k: [1.7881e-1, 1.1958e-3, -2.7178e-6],
    alpha: [6.8714e-8, 4.7578e-10, -1.4646e-12],
    rho: [1329.9, -0.5184, 0],
    c: [2008.2, 1.2089, -1.3129e-3],
  },
  fat: {
    k: [1.8071e-1, -2.7604e-4, -1.7749e-7],
    alpha: [9.8777e-8, -1.2569e-10, -3.8286e-14],
    rho: [925.59, -0.41757, 0],
    c: [1984.2, 1.4733, -4.8008e-3],
  },
  carbohydrate: {
    k: [2.0141e-1, 1.3874e-3, -4.3312e-6],
    alpha: [8.0842e-8, 5.3052e-10, -2.3218e-12],
    rho: [1599.1, -0.31046, 0],
    c: [1548.8, 1.9625, -5.9399e-3],
  },
  fibre: {
    k: [1.8331e-1, 1.2497e-3, -3.1683e-6],
    alpha: [7.3976e-8, 5.1902e-10, -2.2202e-12],
    rho: [1311.5, -0.36589, 0],
    c: [1845.9, 1.8306, -4.6509e-3],
  },
  ash: {
    k: [3.2962e-1, 1.4011e-3, -2.9069e-6],
    alpha: [1.2461e-7, 3.7321e-10, -1.2244e-12],
    rho: [2423.8, -0.28063, 0],
    c: [1092.6, 1.8896, -3.6817e-3],
  },
}

/** A pure component as a mass uses it. */
export interface Substance {
  /** W/(m K) */
  k(T_C: number): number
  /** kg/m³ */
  rho(T_C: number): number
  /** J/(kg K) */
  c(T_C: number): number
  /** Integral of c from −40 °C, J/kg. */
  heat(T_C: number): number
}

export const value = ([c0, c1, c2]: Polynomial, T_C: number): number => c0 + T_C * (c1 + T_C * c2)

const area = ([c0, c1, c2]: Polynomial, T_C: number): number => T_C * (c0 + T_C * (c1 / 2 + (T_C * c2) / 3))

const held = (T_C: number): number => Math.min(Math.max(T_C, POLYNOMIAL_RANGE_C[0]), POLYNOMIAL_RANGE_C[1])

function substance({ k, rho, c }: Pick<ComponentPolynomials, 'k' | 'rho' | 'c'>): Substance {
  const start = area(c, REFERENCE_C)
  return {
    k: (T_C) => value(k, held(T_C)),
    rho: (T_C) => value(rho, held(T_C)),
    c: (T_C) => value(c, held(T_C)),
    heat(T_C) {
      const inside = held(T_C)
      return area(c, inside) - start + value(c, inside) * (T_C - inside)
    },
  }
}

const warmWater = substance(polynomials.water)

/**
 * Liquid water, also below 0 °C inside a mass: there it keeps the density of 0 °C, and c = 4180 J/(kg K) instead of
 * the printed branch, which follows pure undercooled water and jumps at 0 °C.
 */
const water: Substance = {
  k: warmWater.k,
  rho: (T_C) => warmWater.rho(Math.max(T_C, 0)),
  c: (T_C) => (T_C < 0 ? UNFROZEN_WATER_C : warmWater.c(T_C)),
  heat: (T_C) =>
    T_C < 0
      ? UNFROZEN_WATER_C * (T_C - REFERENCE_C)
      : warmWater.heat(T_C) - warmWater.heat(0) - UNFROZEN_WATER_C * REFERENCE_C,
}

export type SubstanceName = ComponentName | 'sucroseCrystal' | 'ethanol'

/**
 * Source: `choi-okos-1986` for the seven components; crystals c `mohos-2010` (a fit within 0.9 % of nine table
 * points), density and k from memory; ethanol from memory (`crc-handbook`, constants of 20 °C).
 */
export const substances: Readonly<Record<SubstanceName, Substance>> = {
  water,
  ice: substance(polynomials.ice),
  protein: substance(polynomials.protein),
  fat: substance(polynomials.fat),
  carbohydrate: substance(polynomials.carbohydrate),
  fibre: substance(polynomials.fibre),
  ash: substance(polynomials.ash),
  sucroseCrystal: substance({ k: [0.58, 0, 0], rho: [1588, 0, 0], c: [1096.6, 5.383, 0] }),
  ethanol: substance({ k: [0.167, 0, 0], rho: [789, 0, 0], c: [2440, 0, 0] }),
}
