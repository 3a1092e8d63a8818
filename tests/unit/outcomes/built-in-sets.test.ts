import { expect, test } from 'vitest'
import { findBuiltIn, getMaterial, materialIds } from '../../../src/core/materials/index.ts'
import { setsBySchema, settingLaw } from '../../../src/core/outcomes/kinetics/index.ts'
import { setsOf } from '../../../src/core/outcomes/layer-laws.ts'

const setting = materialIds.filter((id) => getMaterial(id).sets !== undefined)

test.each(setting)('%s: its setting laws are known, with every input that they want', (id) => {
  for (const { source, ...inputs } of findBuiltIn(id)!.sets!) {
    expect(setsBySchema.safeParse(inputs).error?.issues ?? []).toEqual([])
    expect(source.length).toBeGreaterThan(5)
  }
  for (const one of setsOf(getMaterial(id))) expect(settingLaw(one, 'typical').id).toBe(one.by)
})

test('sugar that the laws of batters take is that of the composition, to a per cent', () => {
  for (const id of setting)
    for (const one of setsOf(getMaterial(id)))
      if (one.by === 'batter-starch') {
        const { water, sugars } = findBuiltIn(id)!.composition_pct
        expect(Math.abs(one.sugar_pct - (100 * sugars) / (sugars + water))).toBeLessThan(1)
      }
})

test('water activity and pH run from low to high', () => {
  const keeping = materialIds.flatMap((id) => getMaterial(id).keeping ?? [])
  expect(keeping.length).toBeGreaterThan(20)
  for (const { aw, pH = [0, 14] } of keeping) {
    expect(aw[0]).toBeLessThanOrEqual(aw[1])
    expect(pH[0]).toBeLessThanOrEqual(pH[1])
  }
})
