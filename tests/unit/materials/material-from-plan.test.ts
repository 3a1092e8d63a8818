import { describe, expect, test } from 'vitest'
import { PlanError } from '../../../src/core/errors.ts'
import { findMaterialFaults, materialFromPlan } from '../../../src/core/materials/material-from-plan.ts'

const codes = (notes: readonly { readonly code: string }[]): readonly string[] => notes.map((note) => note.code)

describe('a material written in a plan', () => {
  test('fixed properties', () => {
    const material = materialFromPlan('x', { fixed: { k_W_mK: 0.4, rho_kg_m3: 500, c_J_kgK: 2800 } }, 'materials.x')
    expect(material.at(33)).toMatchObject({ k: 0.4, rho: 500, c: 2800 })
    const curve = material.curve(-20, 80)
    expect(curve.enthalpy[1]! - curve.enthalpy[0]!).toBeCloseTo(500 * 2800 * 100, 3)
    expect(curve.conductivityIntegral[1]! - curve.conductivityIntegral[0]!).toBeCloseTo(40, 9)
  })

  test('composition: what was assumed is said', () => {
    const given = { composition_pct: { water: 60, fat: 10, sugars: 25, ash: 1 }, air_pct: 20 }
    const material = materialFromPlan('x', given, 'materials.x')
    expect(codes(material.notes)).toEqual(
      expect.arrayContaining([
        'composition-scaled',
        'sugars-as-sucrose',
        'ash-as-mixed',
        'fat-crystals-left-out',
        'air-weighs',
      ]),
    )
    expect(material.composition_pct?.water).toBeCloseTo((100 * 60) / 96, 9)
    const solid = materialFromPlan('x', { composition_pct: given.composition_pct }, 'materials.x')
    expect(material.density / solid.density).toBeCloseTo(0.8, 9)
    expect(material.freezes_C).toBe(solid.freezes_C)
  })

  test('a plain composition has no needless notes', () => {
    expect(codes(materialFromPlan('x', { composition_pct: { water: 100 } }, 'materials.x').notes)).toEqual([
      'law-range',
    ])
  })

  test('a composition that does not add up is refused by name', () => {
    const faults = findMaterialFaults({ composition_pct: { water: 60, sugars: 20 } }, 'materials.x')
    expect(faults.map((fault) => fault.path)).toEqual(['materials.x.composition_pct'])
    expect(() => materialFromPlan('x', { composition_pct: { water: 60, sugars: 20 } }, 'materials.x')).toThrow(
      PlanError,
    )
  })

  test('every fault of a table comes at once', () => {
    const table = { rho_kg_m3: 1000, T_C: [0, 10, 5], enthalpy_J_kg: [0, 0, 1], k_W_mK: [0.5, 0.5] }
    const faults = findMaterialFaults({ table }, 'materials.x')
    expect(faults.map((fault) => fault.path)).toEqual([
      'materials.x.table.k_W_mK',
      'materials.x.table.T_C[2]',
      'materials.x.table.enthalpy_J_kg[1]',
    ])
  })
})
