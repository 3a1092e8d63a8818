import { describe, expect, test } from 'vitest'

import { type Plan, planSchema } from '../../../src/core/plan/schema/plan.ts'
import { writeAt } from '../../../src/renderer/edits/path.ts'
import * as ranges from '../../../src/renderer/parts/ranges.ts'
import type { Range } from '../../../src/renderer/typed.ts'
import { bar } from './plans.ts'

const plan: Plan = { ...bar, probes: [{ name: 'heart', x: 0.5 }] }
const sheet: Plan = { ...plan, piece: { ...plan.piece, shape: { kind: 'sheet', area_m2: 1 } } }
const vessel: Plan = { ...plan, piece: { ...plan.piece, shape: { kind: 'stirred', volume_L: 20 } } }
const coated: Plan = {
  ...plan,
  stages: [
    {
      name: 'Coat',
      in: 'room',
      start: [{ do: 'coat', material: 'chocolate', yield_Pa: 12, start_C: 32 }],
      until: { after_h: 1 },
    },
  ],
}
const batter: Plan = {
  ...plan,
  materials: {
    batter: {
      recipe: [
        { ingredient: 'sugar', mass_kg: 1 },
        { ingredient: 'milk', volume_L: 1 },
        { ingredient: 'egg', count: 3, unit: 'piece', unit_g: 50 },
      ],
      water_loss_pct: 5,
      overrun_pct: 50,
      air_pct: 30,
      density_kg_m3: 500,
      rises_to: 2,
      pore_aw: 0.9,
    },
  },
}
const fits = (from: Plan, path: string, value: number): boolean =>
  planSchema.safeParse(writeAt(from, path, value)).success

const fields: readonly (readonly [string, Range, Plan, string])[] = [
  ['length', ranges.lengthRange, plan, 'piece.fill[0].thickness_mm'],
  ['width', ranges.lengthRange, plan, 'piece.shape.width_mm'],
  ['temperature', ranges.temperatureRange, plan, 'piece.fill[0].start_C'],
  ['core temperature', ranges.temperatureRange, plan, 'stages[2].until.core_C'],
  ['air', ranges.temperatureRange, plan, 'stages[1].in.air_C'],
  ['duration', ranges.hoursRange, plan, 'stages[0].until.after_h'],
  ['guard', ranges.hoursRange, plan, 'stages[2].until.max_h'],
  ['film coefficient', ranges.filmRange, plan, 'stages[1].in.h_W_m2K'],
  ['humidity', ranges.humidityRange, plan, 'stages[1].in.humidity.relative_pct'],
  ['heat through walls', ranges.lossRange_W_K, plan, 'stages[1].in.appliance.UA_W_K'],
  ['thermostat', ranges.bandRange, plan, 'stages[1].in.appliance.thermostat_K'],
  ['water of a bath', ranges.loadRange, plan, 'stages[1].in.appliance.water_kg'],
  ['goods', ranges.loadRange, plan, 'stages[1].in.appliance.goods.mass_kg'],
  ['area', ranges.areaRange, sheet, 'piece.shape.area_m2'],
  ['share', ranges.shareRange, plan, 'probes[0].x'],
  ['volume', ranges.volumeRange, vessel, 'piece.shape.volume_L'],
  ['weight', ranges.massRange, batter, 'materials.batter.recipe[0].mass_kg'],
  ['volume of an ingredient', ranges.volumeRange, batter, 'materials.batter.recipe[1].volume_L'],
  ['pieces', ranges.piecesRange, batter, 'materials.batter.recipe[2].count'],
  ['weight of a piece', ranges.pieceWeightRange, batter, 'materials.batter.recipe[2].unit_g'],
  ['water lost', ranges.lossRange, batter, 'materials.batter.water_loss_pct'],
  ['overrun', ranges.overrunRange, batter, 'materials.batter.overrun_pct'],
  ['share of air', ranges.airShareRange, batter, 'materials.batter.air_pct'],
  ['density', ranges.densityRange, batter, 'materials.batter.density_kg_m3'],
  ['growth', ranges.growthRange, batter, 'materials.batter.rises_to'],
  ['water activity', ranges.activityRange, batter, 'materials.batter.pore_aw'],
  ['yield stress', ranges.stressRange, coated, 'stages[0].start[0].yield_Pa'],
]

describe('what a field takes is what the plan’s format takes', () => {
  test.each(fields)('%s', (_, { low, high, above = false }, from, path) => {
    const little = 1e-6 * (high - low)
    expect(fits(from, path, low)).toBe(!above)
    expect(fits(from, path, low + little)).toBe(true)
    expect(fits(from, path, high)).toBe(true)
    expect(fits(from, path, low - little)).toBe(false)
    expect(fits(from, path, high + little)).toBe(false)
  })

  test('pieces in an appliance, whole ones', () => {
    const { low, high } = ranges.piecesAlikeRange
    const taken = [low - 1, low, low + 0.5, high, high + 1].map((value) =>
      fits(plan, 'stages[1].in.appliance.pieces', value),
    )
    expect(taken).toEqual([false, true, false, true, false])
  })
})
