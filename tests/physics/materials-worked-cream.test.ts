import { describe, expect, test } from 'vitest'
import type { Mass } from '../../src/core/materials/composition.ts'
import { massLaw } from '../../src/core/materials/mass-law.ts'
import { massMaterial } from '../../src/core/materials/mass-material.ts'

/*
 * A sugar-rich cream worked through by an independent program from the published formulas (Choi and Okos 1986,
 * Norrish 1966, Levy 1981): 50 % water, 24 % sucrose, 2 % lactose, 5 % protein, 17.5 % fat, 0.8 % starch, 0.7 % ash.
 */
const cream: Mass = {
  composition: {
    water: 0.5,
    protein: 0.05,
    fat: 0.175,
    sugars: { sucrose: 0.24, lactose: 0.02 },
    starch: 0.008,
    fibre: 0,
    ash: 0.007,
    alcohol: 0,
    polyols: {},
    other: 0,
    salt: 0,
    crystals: 0,
  },
  structure: 'OW',
  ash_kg_mol: 0.065,
  syrup_DE: 42,
  fat_kinds: {},
  porosity: 0,
  pore_aw: 0.95,
}

// T °C, ice kg/kg, H kJ/kg, c kJ/(kg K), k W/(m K), rho kg/m³
const rows: readonly (readonly [number, number, number, number, number, number])[] = [
  [20, 0, 274.9, 2.975, 0.4115, 1108.7],
  [4, 0, 227.41, 2.962, 0.3958, 1112.2],
  [0.001, 0, 215.57, 2.959, 0.3915, 1112.9],
  [-5, 0.09929, 168.72, 24.28, 0.4838, 1103.1],
  [-8, 0.2259, 120.44, 10.95, 0.6171, 1090.4],
  [-10, 0.2692, 101.99, 7.83, 0.6655, 1086.4],
  [-15, 0.3288, 72.255, 4.677, 0.7356, 1081.4],
  [-18, 0.3495, 59.527, 3.878, 0.7615, 1080.0],
  [-20, 0.36, 52.141, 3.525, 0.7753, 1079.4],
  [-25, 0.3795, 36.062, 2.964, 0.8027, 1078.6],
  [-30, 0.393, 22.114, 2.641, 0.824, 1078.4],
  [-40, 0.4012, 0, 1.975, 0.8442, 1079.8],
]

describe('sugar-rich cream', () => {
  const law = massLaw(cream)
  const material = massMaterial({ id: 'cream', title: 'cream', look: 'cream', mass: cream, sources: [] })

  test('freezing point', () => {
    expect(Math.abs(material.freezes_C! + 3.848)).toBeLessThan(0.002)
  })

  // Tolerances: half a unit of the printed digits, c by a central difference of 0.1 K there.
  test.each(rows)('at %d °C', (T, ice, H, c, k, rho) => {
    const found = material.at(T)
    expect(Math.abs(law.ice(T).mass - ice)).toBeLessThan(6e-5)
    expect(Math.abs(found.enthalpy_J_kg / 1000 - H)).toBeLessThan(0.02)
    // At −40 °C the difference was taken from above; at 0 °C it straddles the joint of water's two branches.
    expect(Math.abs(found.c / 1000 / c - 1)).toBeLessThan(0.002)
    expect(Math.abs(found.k - k)).toBeLessThan(2e-4)
    expect(Math.abs(found.rho - rho)).toBeLessThan(0.1)
  })

  test('heat to take from 20 to −18 °C', () => {
    const heat = material.at(20).enthalpy_J_kg - material.at(-18).enthalpy_J_kg
    expect(Math.abs(heat / 215_400 - 1)).toBeLessThan(0.005)
  })

  // 70 % of the water is ice at −18 °C.
  test('share of the water that is ice', () => {
    expect(Math.abs(material.at(-18).ice_share - 0.699)).toBeLessThan(0.001)
  })
})
