import { describe, expect, test } from 'vitest'
import { findIngredient } from '../../../src/core/materials/ingredients.ts'
import type { Plan } from '../../../src/core/plan/schema/plan.ts'
import {
  amountKinds,
  asksWeight,
  kindOf,
  massOfLine,
  usualKind,
  withIngredient,
  withKind,
} from '../../../src/renderer/edits/amounts.ts'
import { readAt, writeAt } from '../../../src/renderer/edits/path.ts'
import {
  addLine,
  freeName,
  isUsed,
  nameFault,
  ownRecipe,
  removeLine,
  removeMaterial,
  renameMaterial,
  scaleRecipe,
  withAirKind,
} from '../../../src/renderer/edits/recipes.ts'
import { readIngredient } from '../../../src/renderer/material/find-ingredient.ts'
import { gellingSentences } from '../../../src/renderer/material/gelling-words.ts'
import { readAmount } from '../../../src/renderer/material/read-amount.ts'
import { metricUnits } from '../../../src/renderer/units.ts'
import { bar } from './plans.ts'

const egg = findIngredient('egg-whole')!
const milk = findIngredient('milk-whole')!
const agar = findIngredient('agar-packet')!

describe('amounts', () => {
  test('the same weight told in another way: large eggs of 60.5 g (middle of the EU class, shell 11 %)', () => {
    const counted = { ingredient: 'egg-whole', count: 40, unit: 'piece-L' }
    expect(kindOf(counted, egg)).toBe('piece-L')
    expect(massOfLine(counted, egg)).toBeCloseTo(2.42, 12)
    const weighed = withKind(counted, egg, 'mass')
    expect(weighed).toEqual({ ingredient: 'egg-whole', mass_kg: 2.42 })
    expect(withKind(weighed, egg, 'piece-L')).toEqual(counted)
    const own = withKind(counted, egg, 'own')
    expect(massOfLine(own, egg)).toBeCloseTo(2.42, 9)
    expect(kindOf(own, egg)).toBe('own')
  })

  test('eggs and sheets are counted, the rest is weighed; packets ask what they weigh', () => {
    expect(usualKind(egg)).toBe('piece-L')
    expect(usualKind(findIngredient('gelatin-sheet')!)).toBe('sheet-gold')
    expect(usualKind(milk)).toBe('mass')
    expect(amountKinds(milk)).toContain('volume')
    expect(amountKinds(findIngredient('gelatin-sheet')!)).not.toContain('volume')
    expect(asksWeight('packet', agar)).toBe(true)
    expect(asksWeight('piece-L', egg)).toBe(false)
  })

  test('another ingredient keeps the amount where it can be told so, else its weight', () => {
    expect(withIngredient({ ingredient: 'milk-whole', volume_L: 2 }, milk, findIngredient('water')!)).toEqual({
      ingredient: 'water',
      volume_L: 2,
    })
    const butter = findIngredient('butter')!
    expect(withIngredient({ ingredient: 'egg-whole', count: 10, unit: 'piece-L' }, egg, butter)).toEqual({
      ingredient: 'butter',
      mass_kg: 0.605,
    })
  })

  test('what is typed with its own unit is taken so, whatever was chosen', () => {
    expect(readAmount('500 g', 'piece-L', egg, metricUnits)).toEqual({ ok: true, kind: 'mass', value: 0.5 })
    expect(readAmount('250 mL', 'mass', milk, metricUnits)).toEqual({ ok: true, kind: 'volume', value: 0.25 })
    expect(readAmount('120', 'piece-L', egg, metricUnits)).toEqual({ ok: true, kind: 'piece-L', value: 120 })
    expect(readAmount('some', 'mass', milk, metricUnits).ok).toBe(false)
  })
})

describe('ingredients by what is typed', () => {
  test.each([
    ['egg', 'egg-whole'],
    ['Granulated sugar', 'sugar-granulated'],
    ['wheat flour cake', 'wheat-flour-cake'],
    ['raspberry', 'raspberry-puree'],
  ])('%s', (typed, id) => {
    expect(readIngredient(typed)).toMatchObject({ ok: true, ingredient: { id } })
  })

  test('several that could be meant are named; an unknown one gets the nearest', () => {
    expect(readIngredient('cream,')).toMatchObject({ ok: false, problem: expect.stringContaining('Which one') })
    expect(readIngredient('buttr')).toMatchObject({
      ok: false,
      problem: expect.stringContaining('did you mean Butter'),
    })
    expect(readIngredient('  ')).toMatchObject({ ok: false })
  })
})

describe('recipes of a plan', () => {
  const line = { ingredient: 'milk-whole', mass_kg: 2 }
  const begun = addLine(bar, 'my-cream', line, 'piece.fill[0]')

  test('the first ingredient makes the recipe and gives it to the layer it was begun for', () => {
    expect(begun.piece.fill[0]?.material).toBe('my-cream')
    expect(begun.piece.fill[1]).toBe(bar.piece.fill[1])
    expect(ownRecipe(begun, 'my-cream')?.recipe).toEqual([line])
    expect(freeName(begun, 'my-cream')).toBe('my-cream-2')
    expect(isUsed(begun, 'my-cream')).toBe(true)
  })

  test('lines come and go; the last one stays', () => {
    const two = addLine(begun, 'my-cream', { ingredient: 'sugar', mass_kg: 1 }, 'piece.fill[1]')
    expect(two.piece).toBe(begun.piece)
    expect(ownRecipe(removeLine(two, 'my-cream', 0), 'my-cream')?.recipe).toEqual([{ ingredient: 'sugar', mass_kg: 1 }])
    expect(ownRecipe(removeLine(begun, 'my-cream', 0), 'my-cream')?.recipe).toEqual([line])
  })

  test('another name follows into layers, pours, coats and questions, and keeps its place', () => {
    const plan: Plan = {
      ...begun,
      materials: { first: { fixed: { k_W_mK: 1, rho_kg_m3: 1, c_J_kgK: 1 } }, ...begun.materials },
      targets: [{ kind: 'set', material: 'my-cream' }],
      stages: [
        {
          name: 'Pour',
          in: 'room-still',
          start: [{ do: 'pour', material: 'my-cream', thickness_mm: 10, start_C: 20 }],
          until: { after_h: 1 },
        },
      ],
    }
    const renamed = renameMaterial(plan, 'my-cream', 'lemon')
    expect(JSON.stringify(renamed)).not.toContain('my-cream')
    expect(Object.keys(renamed.materials ?? {})).toEqual(['first', 'lemon'])
    expect(renameMaterial(renamed, 'lemon', 'my-cream')).toEqual(plan)
  })

  test('names that the format refuses, or that are taken, are told', () => {
    expect(nameFault(begun, 'my-cream', 'Crème 1')).toContain('letters')
    expect(nameFault(begun, 'other', 'my-cream')).toContain('taken')
    expect(nameFault(begun, 'my-cream', 'my-cream')).toBeUndefined()
  })

  test('fields of a material whose name holds dots are found', () => {
    const dotted = addLine(bar, 'cream.v2', line, null)
    expect(readAt(dotted, 'materials.cream.v2.recipe[0].mass_kg')).toBe(2)
    const written = writeAt(dotted, 'materials.cream.v2.water_loss_pct', 5)
    expect(ownRecipe(written, 'cream.v2')?.water_loss_pct).toBe(5)
  })

  test('so many times as much; without it again', () => {
    const eggs = addLine(begun, 'my-cream', { ingredient: 'egg', count: 30, unit: 'piece-L' }, null)
    expect(ownRecipe(scaleRecipe(eggs, 'my-cream', 1.5), 'my-cream')?.recipe).toEqual([
      { ingredient: 'milk-whole', mass_kg: 3 },
      { ingredient: 'egg', count: 45, unit: 'piece-L' },
    ])
    expect(removeMaterial(begun, 'my-cream').materials).toBeUndefined()
  })

  test('the same air told in another way: 100 % overrun is half of the volume', () => {
    const whipped = writeAt(begun, 'materials.my-cream.overrun_pct', 100)
    expect(ownRecipe(withAirKind(whipped, 'my-cream', 'air_pct'), 'my-cream')).toEqual({ recipe: [line], air_pct: 50 })
    expect(ownRecipe(withAirKind(whipped, 'my-cream', 'none'), 'my-cream')).toEqual({ recipe: [line] })
    const weighed = ownRecipe(withAirKind(whipped, 'my-cream', 'density_kg_m3'), 'my-cream')?.density_kg_m3
    // half of whole milk, 1031 kg/m³ (USDA cup of 244 g), within 1 %
    expect(Math.abs((weighed ?? 0) / 515.5 - 1)).toBeLessThan(0.01)
  })

  test('sheets of gelatin bring their Bloom', () => {
    const recipe = { recipe: [{ ingredient: 'gelatin-sheet', count: 10, unit: 'sheet-gold' }] }
    expect(gellingSentences(recipe, 2)).toEqual(['Gelatin, sheets: 1.00 % of the mass of about 200 Bloom'])
  })
})
