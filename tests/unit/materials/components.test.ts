import { describe, expect, test } from 'vitest'
import {
  type ComponentName,
  type ComponentPolynomials,
  type Polynomial,
  polynomials,
  substances,
  value,
} from '../../../src/core/materials/components.ts'

// ASHRAE Handbook-Refrigeration 2006, ch. 9, after Choi and Okos (1986), typed apart from the source file.
const printed: Record<ComponentName, Record<keyof ComponentPolynomials, Polynomial>> = {
  water: {
    k: [0.57109, 0.0017625, -6.7036e-6],
    alpha: [1.3168e-7, 6.2477e-10, -2.4022e-12],
    rho: [997.18, 0.0031439, -0.0037574],
    c: [4176.2, -0.090864, 0.0054731],
  },
  ice: {
    k: [2.2196, -0.0062489, 1.0154e-4],
    alpha: [1.1756e-6, -6.0833e-9, 9.5037e-11],
    rho: [916.89, -0.13071, 0],
    c: [2062.3, 6.0769, 0],
  },
  protein: {
    k: [0.17881, 0.0011958, -2.7178e-6],
    alpha: [6.8714e-8, 4.7578e-10, -1.4646e-12],
    rho: [1329.9, -0.5184, 0],
    c: [2008.2, 1.2089, -0.0013129],
  },
  fat: {
    k: [0.18071, -2.7604e-4, -1.7749e-7],
    alpha: [9.8777e-8, -1.2569e-10, -3.8286e-14],
    rho: [925.59, -0.41757, 0],
    c: [1984.2, 1.4733, -0.0048008],
  },
  carbohydrate: {
    k: [0.20141, 0.0013874, -4.3312e-6],
    alpha: [8.0842e-8, 5.3052e-10, -2.3218e-12],
    rho: [1599.1, -0.31046, 0],
    c: [1548.8, 1.9625, -0.0059399],
  },
  fibre: {
    k: [0.18331, 0.0012497, -3.1683e-6],
    alpha: [7.3976e-8, 5.1902e-10, -2.2202e-12],
    rho: [1311.5, -0.36589, 0],
    c: [1845.9, 1.8306, -0.0046509],
  },
  ash: {
    k: [0.32962, 0.0014011, -2.9069e-6],
    alpha: [1.2461e-7, 3.7321e-10, -1.2244e-12],
    rho: [2423.8, -0.28063, 0],
    c: [1092.6, 1.8896, -0.0036817],
  },
}
const names = Object.keys(printed) as ComponentName[]

/** Largest |alpha/(k/(rho c)) − 1| between 0 and 100 °C (ice: −40 to 0 °C). */
function worstAlpha(name: ComponentName, row: ComponentPolynomials): number {
  const temperatures = name === 'ice' ? [-40, -20, 0] : [0, 20, 40, 60, 80, 100]
  return Math.max(
    ...temperatures.map((T) =>
      Math.abs((value(row.alpha, T) * value(row.rho, T) * value(row.c, T)) / value(row.k, T) - 1),
    ),
  )
}

describe('component polynomials', () => {
  test.each(names)('coefficients of %s as printed', (name) => {
    expect(polynomials[name]).toEqual(printed[name])
  })

  // ASHRAE 2006 coefficients evaluated at 20 °C.
  test.each([
    ['water', 'k', 0.60366],
    ['water', 'rho', 995.74],
    ['water', 'c', 4176.57],
    ['fat', 'k', 0.175118],
    ['carbohydrate', 'k', 0.227426],
    ['carbohydrate', 'rho', 1592.89],
  ] as const)('%s %s at 20 °C', (name, property, expected) => {
    expect(Math.abs(substances[name][property](20) / expected - 1)).toBeLessThan(1e-4)
  })

  // Own arithmetic of the printed laws: the fits of k, rho, c and alpha were made apart and agree within 6 %.
  test.each(names)('diffusivity of %s agrees with k/(rho c)', (name) => {
    expect(worstAlpha(name, polynomials[name])).toBeLessThan(0.06)
  })

  // The slips seen in transcriptions: each must be caught by the check above.
  test.each<[string, ComponentName, Partial<ComponentPolynomials>]>([
    ['k of fat, slope ten times too steep', 'fat', { k: [0.18071, -2.7604e-3, -1.7749e-7] }],
    ['k of fat, slope of the wrong sign', 'fat', { k: [0.18071, 2.7604e-3, -1.7749e-7] }],
    ['alpha of fat, slope ten times too flat', 'fat', { alpha: [9.8777e-8, -1.2569e-11, -3.8286e-14] }],
    ['alpha of carbohydrate, digits swapped', 'carbohydrate', { alpha: [8.8042e-8, 5.3052e-10, -2.3218e-12] }],
    ['alpha of protein and fat, rows swapped', 'protein', { alpha: printed.fat.alpha }],
  ])('%s is caught', (_, name, wrong) => {
    expect(worstAlpha(name, { ...polynomials[name], ...wrong })).toBeGreaterThan(0.06)
  })

  // IAPWS-IF97 and ice Ih; the misses are those of the polynomials themselves (k of water +2.8 % at 0 °C).
  test.each([
    ['water', 'k', 20, 0.59801, 0.01],
    ['water', 'k', 60, 0.65102, 0.003],
    ['water', 'k', 100, 0.67722, 0.005],
    ['water', 'rho', 20, 998.21, 0.003],
    ['water', 'rho', 100, 958.35, 0.002],
    ['water', 'c', 20, 4184.8, 0.0025],
    ['water', 'c', 60, 4182.8, 0.002],
    ['ice', 'rho', -20, 919.57, 0.0002],
    ['ice', 'c', -20, 1949.8, 0.005],
  ] as const)('%s %s at %d °C against IAPWS', (name, property, T, expected, within) => {
    expect(Math.abs(substances[name][property](T) / expected - 1)).toBeLessThan(within)
  })

  // Mohos 2010, table A1.1: heat capacity of crystalline sucrose; the fit is stated to hold within 0.9 %.
  test.each([
    [0, 1088.57],
    [20, 1214.17],
    [30, 1256.04],
    [40, 1323.03],
    [50, 1356.52],
    [60, 1419.32],
    [70, 1469.57],
    [80, 1532.37],
    [90, 1578.42],
  ])('sucrose crystals at %d °C', (T, expected) => {
    expect(Math.abs(substances.sucroseCrystal.c(T) / expected - 1)).toBeLessThan(0.009)
  })
})

describe('every substance', () => {
  test.each(Object.entries(substances))('%s: heat is the integral of c, also beyond the range', (_, substance) => {
    expect(substance.heat(-40)).toBeCloseTo(0, 9)
    for (let T = -60; T <= 300; T += 7) {
      // Midpoint rule on 1 mK, away from the joints at −40, 0 and 150 °C.
      const slope = (substance.heat(T + 5e-4) - substance.heat(T - 5e-4)) / 1e-3
      expect(Math.abs(slope / substance.c(T) - 1)).toBeLessThan(1e-6)
      expect(substance.k(T)).toBeGreaterThan(0)
      expect(substance.rho(T)).toBeGreaterThan(0)
    }
  })

  test('unfrozen water below 0 °C: c = 4180, density of 0 °C', () => {
    expect(substances.water.c(-20)).toBe(4180)
    expect(substances.water.rho(-20)).toBe(substances.water.rho(0))
  })
})
