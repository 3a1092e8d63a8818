import { describe, expect, test } from 'vitest'
import {
  airConductivity,
  airDensity,
  boilingPoint,
  evaporationHeat,
  poreConductivity,
  saturationPressure,
  vapourConductivity,
} from '../../../src/core/materials/vapour.ts'

describe('water vapour', () => {
  // ASHRAE Handbook-Fundamentals 2017, ch. 1, eq. 5 and 6, evaluated by an independent implementation.
  test.each([
    [-40, 12.8452],
    [-20, 103.26],
    [-10, 259.903],
    [0, 611.154],
    [4, 813.48],
    [20, 2338.8],
    [40, 7383.46],
    [60, 19943.8],
    [80, 47411.6],
    [100, 101419],
  ])('saturation pressure at %d °C', (T, expected) => {
    expect(Math.abs(saturationPressure(T) / expected - 1)).toBeLessThan(1e-4)
  })

  // IAPWS-IF97; the fit is stated within 0.06 kJ/kg.
  test.each([
    [0, 2500.9],
    [20, 2453.5],
    [60, 2357.7],
    [100, 2256.5],
  ])('heat of evaporation at %d °C', (T, expected) => {
    expect(Math.abs(evaporationHeat(T) / 1000 - expected)).toBeLessThan(0.11)
  })

  // a_w p_s(T) = 101325 Pa solved apart with the same saturation formula.
  test.each([
    [1, 99.97],
    [0.98, 100.54],
    [0.95, 101.42],
    [0.93, 102.02],
    [0.9, 102.95],
    [0.85, 104.59],
    [0.8, 106.35],
    [0.7, 110.28],
  ])('boiling point at water activity %d', (activity, expected) => {
    expect(Math.abs(boilingPoint(activity) - expected)).toBeLessThan(0.006)
  })
})

describe('humid pores', () => {
  // Krischer's form with the constants of the module's doc, evaluated apart.
  test.each([
    [0, 0.0241, 0.0198],
    [4, 0.0245, 0.0257],
    [20, 0.0257, 0.0682],
    [40, 0.0273, 0.202],
    [60, 0.0288, 0.563],
    [80, 0.0303, 1.82],
    [90, 0.031, 4.42],
  ])('air and vapour at %d °C', (T, air, vapour) => {
    expect(Math.abs(airConductivity(T) / air - 1)).toBeLessThan(0.003)
    expect(Math.abs(vapourConductivity(T, 1) / vapour - 1)).toBeLessThan(0.004)
  })

  // De Vries 1958, from memory: the effect equals the conductivity of liquid water near 60 °C.
  test('vapour carries as much as liquid water near 63 °C', () => {
    expect(vapourConductivity(63, 1)).toBeGreaterThan(0.6)
    expect(vapourConductivity(63, 1)).toBeLessThan(0.7)
  })

  test('dry pores are air; below 0 °C too; never above 0.6', () => {
    expect(poreConductivity(60, 1e-9)).toBeCloseTo(airConductivity(60), 6)
    expect(poreConductivity(-5, 0.95)).toBe(airConductivity(-5))
    expect(poreConductivity(120, 0.99)).toBe(0.6)
    // US Standard Atmosphere 1976 by way of the ideal gas: 1.204 kg/m³ at 20 °C.
    expect(airDensity(20)).toBeCloseTo(1.204, 3)
  })
})
