import { describe, expect, test } from 'vitest'
import { materialFromPlan } from '../../../src/core/materials/material-from-plan.ts'
import { amountsFor, makeRecipe } from '../../../src/core/materials/recipe.ts'
import { recipeFaults, recipeOf } from '../../../src/core/materials/recipe-from-plan.ts'
import type { PlanRecipe } from '../../../src/core/plan/schema/plan.ts'

const sponge: PlanRecipe = {
  recipe: [
    { ingredient: 'egg', count: 240, unit: 'piece-L' },
    { ingredient: 'sugar', mass_kg: 7.2 },
    { ingredient: 'wheat-flour-cake', mass_kg: 7.2 },
    { ingredient: 'milk', volume_L: 1 },
  ],
  water_loss_pct: 10,
  density_kg_m3: 280,
}
const paths = (given: PlanRecipe) => recipeFaults(given, 'materials.x').map((fault) => fault.path)

describe('a recipe', () => {
  const made = makeRecipe(recipeOf(sponge))

  test('lines are weighed by mass, volume and count', () => {
    // 240 eggs of 60.5 g without shell; a litre of milk at 1031 kg/m³ (USDA cup of 244 g).
    expect(made.lines.map((line) => line.mass)).toEqual([240 * 0.0605, 7.2, 7.2, 1.031])
  })

  test('no matter goes astray', () => {
    expect(made.massOut).toBeCloseTo(0.9 * made.massIn, 12)
    const water = (240 * 0.0605 * 76.15 + 7.2 * 0.02 + 7.2 * 12.51 + 1.031 * 88.13) / 100 - 0.1 * made.massIn
    // Rows add up to 100 within 1.5, and the sum is scaled: 1 % of the share.
    expect(Math.abs(made.mass.composition.water / (water / made.massOut) - 1)).toBeLessThan(0.01)
    expect(made.volume * 280).toBeCloseTo(made.massOut, 9)
  })

  test('the other way: what a piece of 10 kg needs', () => {
    const needed = amountsFor(made, 10)
    expect(needed.reduce((sum, mass) => sum + mass, 0) * 0.9).toBeCloseTo(10, 12)
    expect(needed[1]! / needed[0]!).toBeCloseTo(made.lines[1]!.mass / made.lines[0]!.mass, 12)
  })

  test('allergens follow, each named once', () => {
    expect(made.allergens).toEqual(['egg', 'gluten', 'milk'])
  })

  test('becomes a material of the plan, with what was assumed', () => {
    const material = materialFromPlan('sponge', sponge, 'materials.sponge')
    expect(material.density).toBeCloseTo(280, 6)
    expect(material.recipe?.massOut_kg).toBeCloseTo(made.massOut, 12)
    expect(material.notes.map((note) => note.code)).toEqual(
      expect.arrayContaining(['water-loss-given', 'pore-aw-default', 'fat-curve-borrowed']),
    )
    expect(material.sources).toContain('usda-sr26')
  })

  test('air: overrun, share and density say the same', () => {
    const base: PlanRecipe = { recipe: [{ ingredient: 'cream-35', mass_kg: 1 }] }
    const whipped = materialFromPlan('x', { ...base, overrun_pct: 100 }, 'x')
    expect(materialFromPlan('x', { ...base, air_pct: 50 }, 'x').density).toBeCloseTo(whipped.density, 9)
    const weighed = materialFromPlan('x', { ...base, density_kg_m3: whipped.density }, 'x')
    expect(weighed.at(20).k).toBeCloseTo(whipped.at(20).k, 9)
  })

  test('sugar dissolves up to twice the free water, and stays dissolved when water is lost', () => {
    const syrup = (sugar: number, loss = 0) =>
      makeRecipe(
        recipeOf({
          recipe: [
            { ingredient: 'water', mass_kg: 1 },
            { ingredient: 'sugar-granulated', mass_kg: sugar },
          ],
          water_loss_pct: loss,
        }),
      ).mass.composition
    expect(syrup(1.9).crystals).toBe(0)
    expect(syrup(3).crystals * 4).toBeCloseTo(1, 2)
    expect(syrup(1.9, 25).crystals).toBe(0)
  })
})

describe('faults of a recipe', () => {
  test('every line at once', () => {
    const given: PlanRecipe = {
      recipe: [
        { ingredient: 'sugr-granulated', mass_kg: 1 },
        { ingredient: 'egg-whole' },
        { ingredient: 'egg-whole', count: 3, unit: 'dozen' },
        { ingredient: 'egg-whole', count: 3 },
        { ingredient: 'agar-packet', count: 2, unit: 'packet' },
        { ingredient: 'agar-packet', count: 2, unit: 'packet', unit_g: 12 },
        { ingredient: 'gelatin-sheet', volume_L: 1 },
        { ingredient: 'water', mass_kg: 1, volume_L: 1 },
      ],
      overrun_pct: 10,
      air_pct: 5,
    }
    expect(paths(given)).toEqual([
      'materials.x.recipe[0].ingredient',
      'materials.x.recipe[1]',
      'materials.x.recipe[2].unit',
      'materials.x.recipe[3].unit',
      'materials.x.recipe[4].unit',
      'materials.x.recipe[6].volume_L',
      'materials.x.recipe[7]',
      'materials.x.air_pct',
    ])
    expect(recipeFaults(given, 'materials.x')[0]!.remedy).toContain('sugar-granulated')
  })

  test('more water lost than there is; heavier than without air', () => {
    const base: PlanRecipe = { recipe: [{ ingredient: 'cream-35', mass_kg: 1 }] }
    expect(paths({ ...base, water_loss_pct: 70 })).toEqual(['materials.x.water_loss_pct'])
    expect(paths({ ...base, density_kg_m3: 1200 })).toEqual(['materials.x.density_kg_m3'])
    expect(paths({ ...base, density_kg_m3: 980 })).toEqual([])
  })
})
