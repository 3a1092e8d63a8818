import { describe, expect, test } from 'vitest'
import { sheetBody } from '../../src/core/geometry/shapes/sheet.ts'
import type { Action } from '../../src/core/journey/job.ts'
import { runJourney } from '../../src/core/journey/journey.ts'
import { getMaterial } from '../../src/core/materials/index.ts'
import { judgeCoats } from '../../src/core/outcomes/coats.ts'
import { dewPoint } from '../../src/core/outcomes/contact.ts'
import { air, jobOf, stage } from './jobs.ts'

const body = sheetBody({})
const coated = (
  heart_C: number,
  { thickness = 0.0015, start_C = 32, air_C = 18, material = 'dark-chocolate' } = {},
) => {
  const layer = { name: 'stages[1].start[0]', material: getMaterial(material), thickness, start_C }
  const coat: Action = { do: 'coat', layer, faces: ['top'] }
  const still = stage(body, air(5, heart_C), 1)
  const job = jobOf(body, getMaterial('ice-cream-base'), 0.06, heart_C, [
    still,
    { ...stage(body, air(5, air_C), 0.2), start: [coat] },
  ])
  return judgeCoats(runJourney(job, { fidelity: 'quick' }), job)[0]!
}
const codes = (report: ReturnType<typeof coated>) => report.notes.map(({ code }) => code)

describe('chocolate of 32 °C on a cream of −18 °C', () => {
  const found = coated(-18)

  test('both come to about −4 °C where they touch: −4.4 by two thick masses of ordinary properties', () => {
    expect(found.face_C).toBeCloseTo(-18, 1)
    // 3 K: effusivities of chocolates differ by a fifth.
    expect(Math.abs(found.contact_C + 4.4)).toBeLessThan(3)
  })

  test('it sets within seconds, four times slower twice as thick, slower on a warmer heart', () => {
    // A dip shell of 1 to 2 mm sets in about 30 s on soft ice at −6 °C (page on dipped cones); colder is faster.
    expect(found.setting_s).toBeGreaterThan(2)
    expect(found.setting_s).toBeLessThan(30)
    expect(coated(-18, { thickness: 0.003 }).setting_s! / found.setting_s!).toBeCloseTo(4, 3)
    const soft = coated(-6)
    expect(soft.setting_s).toBeGreaterThan(10)
    expect(soft.setting_s).toBeLessThan(60)
  })

  test('warned of: set in a shock, likely cracked, sweating from a low humidity on', () => {
    expect(codes(found)).toEqual(expect.arrayContaining(['coat-shock-set', 'coat-cracks', 'coat-sweats']))
    // The humidity is that at which the dew point comes within a kelvin of the face.
    expect(dewPoint(18, found.sweats_pct) + 1).toBeGreaterThanOrEqual(found.face_C)
    expect(dewPoint(18, found.sweats_pct - 1) + 1).toBeLessThan(found.face_C)
  })

  test('more freezes on while it is dipped, with the root of the time', () => {
    const picked = found.notes.find(({ code }) => code === 'coat-picks-up')!
    expect(Number(picked.values.frozen_m)).toBeCloseTo(0.0015 * Math.sqrt(3 / found.setting_s!), 9)
  })
})

test('on a heart at 16 °C the air must set it, and nothing is warned of', () => {
  const found = coated(16)
  expect(found.setting_s).toBeUndefined()
  expect(found.why.code).toBe('coat-no-colder')
  // What no computation of this kind can know is said with every coat.
  expect(codes(found).filter((code) => code !== 'coat-sweats')).toEqual(['coat-unknown'])
})

test('air below 8 °C is warned of', () => {
  expect(codes(coated(14, { air_C: 4 }))).toContain('coat-cold-air')
})

test('what is no fat coat is not reported', () => {
  const layer = { name: 'x', material: getMaterial('jam'), thickness: 0.002, start_C: 40 }
  const job = jobOf(body, getMaterial('ice-cream-base'), 0.06, -18, [
    stage(body, air(5, -18), 1),
    { ...stage(body, air(5, 18), 0.2), start: [{ do: 'coat', layer, faces: ['top'] }] },
  ])
  expect(judgeCoats(runJourney(job, { fidelity: 'quick' }), job)).toEqual([])
})
