import { describe, expect, test } from 'vitest'
import vectors from '../../../shared/reference/recipe-vectors.json'
import sources from '../../../shared/reference/sources.json'
import { cardRange, findCard, tableTemperatures } from '../../../src/core/materials/card.ts'
import { materialIds } from '../../../src/core/materials/index.ts'
import { MISS_TO_EXPLAIN } from '../../../src/core/materials/measured.ts'
import { wallIds } from '../../../src/core/materials/wall.ts'
import type { PlanRecipe } from '../../../src/core/plan/schema/plan.ts'
import { materialDocument } from '../../../src/core/words/material-document.ts'

const columns = ['k_W_mK', 'c_J_kgK', 'rho_kg_m3', 'enthalpy_J_kg', 'ice_share', 'solid_fat_share'] as const

describe.each([...materialIds, ...wallIds])('card of %s', (id) => {
  const card = findCard(id, undefined)!
  const { curves, material } = card

  test('columns alike long, temperatures rising within the range, numbers all', () => {
    const [low, high] = cardRange(material)
    expect(curves.T_C[0]).toBe(low)
    expect(curves.T_C.at(-1)).toBe(high)
    for (let i = 1; i < curves.T_C.length; i++) expect(curves.T_C[i]!).toBeGreaterThan(curves.T_C[i - 1]!)
    for (const key of columns) {
      expect(curves[key]).toHaveLength(curves.T_C.length)
      expect(curves[key].every(Number.isFinite)).toBe(true)
    }
  })

  test('heat content rises by its own heat capacity', () => {
    // Trapezoids between drawn points: 4 % of the whole span, most of it where ice begins within one step.
    const { T_C, c_J_kgK: c, enthalpy_J_kg: H } = curves
    const boiling = card.boils_C
    let sum = 0
    for (let i = 1; i < T_C.length; i++) {
      const jump = boiling !== undefined && T_C[i - 1]! < boiling && T_C[i]! > boiling
      sum += jump ? H[i]! - H[i - 1]! : ((c[i]! + c[i - 1]!) / 2) * (T_C[i]! - T_C[i - 1]!)
    }
    if (id !== 'water') expect(Math.abs(sum / (H.at(-1)! - H[0]!) - 1)).toBeLessThan(0.04)
  })

  test('says where it comes from, and why published values are missed', () => {
    const document = materialDocument(card)
    for (const key of document.sources) expect(Object.keys(sources)).toContain(key)
    for (const { error, miss } of card.measured) if (Math.abs(error) > MISS_TO_EXPLAIN) expect(miss).toBeTruthy()
  })
})

interface State {
  readonly given: Record<string, unknown> & { readonly state: string }
  readonly expect: Record<'mass_kg' | 'rho_kg_m3' | 'volume_L' | 'k4_W_mK' | 'k20_W_mK' | 'k60_W_mK', number> & {
    readonly freezing_C: number | null
    readonly allergens: readonly string[]
  }
}

// The same recipes by an independent program (shared/reference/recipe-vectors.json, with its tolerances).
describe.each(vectors.testVectors)('card of the recipe $id', ({ recipe, states }) => {
  for (const { given, expect: expected } of states as readonly State[])
    test(given.state, () => {
      const { state: _, ...rest } = given
      const { material, curves } = findCard('own', { recipe, ...rest } as PlanRecipe, [4, 20, 60])!
      const near = (found: number | undefined, wanted: number, share: number): void =>
        expect(Math.abs((found ?? Number.NaN) / wanted - 1)).toBeLessThan(share)
      near(material.recipe?.massOut_kg, expected.mass_kg, 1e-4)
      near(material.density, expected.rho_kg_m3, 1e-3)
      near((material.recipe?.volume ?? 0) * 1000, expected.volume_L, 2e-3)
      near(curves.k_W_mK[0], expected.k4_W_mK, 3e-3)
      near(curves.k_W_mK[1], expected.k20_W_mK, 3e-3)
      near(curves.k_W_mK[2], expected.k60_W_mK, 3e-3)
      if (expected.freezing_C === null) expect(material.freezes_C).toBeUndefined()
      else expect(Math.abs((material.freezes_C ?? 0) - expected.freezing_C)).toBeLessThan(0.01)
      expect(material.recipe?.allergens).toEqual(expected.allergens)
    })
})

test('a plan’s own material goes before a built-in one of the same name', () => {
  const own = { fixed: { k_W_mK: 0.4, rho_kg_m3: 700, c_J_kgK: 2500 } }
  expect(findCard('butter', own)?.material.density).toBe(700)
  expect(findCard('butter', own)?.measured).toEqual([])
  expect(findCard('no-such-mass', undefined)).toBeUndefined()
})

test('the short table holds round temperatures and the freezing point', () => {
  const { material } = findCard('lemon-cream', undefined)!
  const temperatures = tableTemperatures(material)
  expect(temperatures).toContain(20)
  expect(temperatures).toContain(material.freezes_C)
})
