import { readdirSync, readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import sources from '../../../shared/reference/sources.json'
import { condensedDensity } from '../../../src/core/materials/composition.ts'
import { findIngredient, ingredientGroups, ingredientIds } from '../../../src/core/materials/ingredients.ts'
import { makeRecipe } from '../../../src/core/materials/recipe.ts'

const all = ingredientIds.map((id) => findIngredient(id)!)

test('every file of the folder is in the list, and the other way round', () => {
  const files = readdirSync('shared/ingredients').map((name) => name.replace('.json', ''))
  expect(files.sort()).toEqual(Object.keys(ingredientGroups).sort())
  for (const [group, ids] of Object.entries(ingredientGroups)) {
    const rows = JSON.parse(readFileSync(`shared/ingredients/${group}.json`, 'utf8')) as { id: string }[]
    expect(rows.map((row) => row.id)).toEqual(ids)
  }
})

test('ids and aliases name one ingredient each', () => {
  const names = all.flatMap((one) => [one.id, ...(one.aliases ?? [])])
  expect(new Set(names).size).toBe(names.length)
  for (const one of all) for (const name of [one.id, ...(one.aliases ?? [])]) expect(findIngredient(name)).toBe(one)
  expect(findIngredient('no-such-thing')).toBeUndefined()
})

describe.each(all.map((one) => [one.id, one] as const))('%s', (_, one) => {
  const sum = (parts: Readonly<Record<string, number>> = {}) =>
    Object.values(parts).reduce((total, part) => total + part, 0)

  // Analyses are made apart, so that a row adds up to 100 within 1.5.
  test('adds up', () => {
    expect(Math.abs(sum(one.composition_pct) - 100)).toBeLessThanOrEqual(1.5 + 1e-9)
    expect(Math.abs(sum(one.sugars_pct) - (one.composition_pct.sugars ?? 0))).toBeLessThan(0.02)
    expect(Math.abs(sum(one.polyols_pct) - (one.composition_pct.polyols ?? 0))).toBeLessThan(0.02)
    if ((one.composition_pct.fat ?? 0) > 0.5) expect(sum(one.fat_kinds)).toBeCloseTo(1, 6)
    expect(one.salt_pct ?? 0).toBeLessThanOrEqual(one.composition_pct.ash ?? 0)
    if (one.sugars_pct?.syrup_solids !== undefined) expect(one.syrup_DE).toBeGreaterThan(0)
  })

  test('sources are listed; memory is owned up to', () => {
    for (const key of one.sources) expect(Object.keys(sources)).toContain(key)
    if (one.sources.includes('trade-figures')) expect(one.certainty).not.toBe('seen in the source')
  })

  test('makes a mass by itself', () => {
    const made = makeRecipe({
      lines: [{ ingredient: one, amount: { kind: 'mass', mass: 2 } }],
      waterLoss: 0,
      air: { kind: 'none' },
    })
    expect(made.massOut).toBe(2)
    expect(condensedDensity(made.mass, 20, 0)).toBeGreaterThan(750)
    expect(condensedDensity(made.mass, 20, 0)).toBeLessThan(2500)
  })
})

// Density of the air-free ingredient at 20 °C against measured ones.
test.each([
  ['milk-whole', 1030, 0.01], // textbooks of dairy science, from memory
  ['honey', 1425, 0.015], // White and Krell
  ['chocolate-dark-50', 1300, 0.01], // Beckett 2009, solid
  ['cocoa-butter', 975, 0.002], // Beckett 2009, 960 to 990 solid at 15 °C
  ['sugar-granulated', 1588, 0.002], // crystal, from memory
  ['water', 998.2, 0.003], // IAPWS
  ['oil-sunflower', 919, 0.005], // from memory
] as const)('density of %s', (id, measured, within) => {
  const made = makeRecipe({
    lines: [{ ingredient: findIngredient(id)!, amount: { kind: 'mass', mass: 1 } }],
    waterLoss: 0,
    air: { kind: 'none' },
  })
  expect(Math.abs(made.condensedDensity / measured - 1)).toBeLessThan(within)
})

// Shell 11 %, white 59.5 %, yolk 29.5 % of the middle of each EU weight class (Regulation (EC) 589/2008).
test.each([
  ['piece-M', 58],
  ['piece-L', 68],
])('an egg of %s weighs what its parts weigh', (unit, inShell) => {
  const grams = (id: string) => findIngredient(id)!.units_g![unit]!
  // Each is rounded to 0.1 g.
  expect(Math.abs(grams('egg-white') + grams('egg-yolk') - grams('egg-whole'))).toBeLessThan(0.16)
  expect(Math.abs(grams('egg-whole') / inShell - 0.89)).toBeLessThan(0.002)
})
