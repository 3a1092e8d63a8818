import { describe, expect, test } from 'vitest'
import { forecast } from '../../../src/core/forecast.ts'
import { wallIds } from '../../../src/core/materials/wall.ts'
import { readPlan } from '../../../src/core/plan/read.ts'

/*
 * Each caution where its condition holds and nowhere else. What they say follows food law and practice: spores outlive
 * cooking; heat-stable toxins (Denny et al. 1971; Lett. Appl. Microbiol. 46, 2008); Salmonella in dry masses (Barrile
 * and Cone 1970); building stock is not made for food (EU 1935/2004 article 3, from memory).
 */

const cautions = (change: {
  readonly material?: string
  readonly start_C?: number
  readonly thickness_mm?: number
  readonly diameter_mm?: number
  readonly mould?: unknown[]
  readonly air_C?: number
  readonly hours?: number
  readonly later?: unknown[]
}): string[] => {
  const { material = 'pastry-cream', start_C = 20, thickness_mm = 20, diameter_mm = 160, mould } = change
  const { air_C = 18, hours = 1, later = [] } = change
  const plan = readPlan(
    JSON.stringify({
      format: 'thickset-plan',
      version: 1,
      title: 'Cautions',
      startsAt: '2027-03-12T16:00',
      fidelity: 'quick',
      rules: ['fda-food-code-2022'],
      piece: {
        shape: { kind: 'round', diameter_mm },
        fill: [{ material, thickness_mm, start_C }],
        ...(mould === undefined ? {} : { mould }),
      },
      stages: [{ name: 'Stand', in: { air_C, h_W_m2K: 10 }, until: { after_h: hours } }, ...later],
    }),
  )
  return forecast(plan).cautions.map(({ code }) => code)
}

const always = ['check-with-probe', 'local-codes', 'caution-met-is-not-proof', 'caution-not-for', 'caution-allergens']

test('what is always true is always said', () => {
  expect(cautions({ material: 'whipped-cream' })).toEqual(always)
})

describe('on condition', () => {
  test('a hot thick mass that cools slowly: spores, scalds, and the rule it fails', () => {
    const told = cautions({ start_C: 85, thickness_mm: 120, diameter_mm: 300, hours: 12 })
    expect(told).toEqual(expect.arrayContaining(['caution-spores', 'caution-toxin', 'caution-scalds']))
    expect(cautions({ start_C: 59, thickness_mm: 120, hours: 12 })).not.toContain('caution-spores')
    expect(cautions({ start_C: 85, thickness_mm: 8, air_C: 1, hours: 6 })).not.toContain('caution-toxin')
  })

  test('heavy from 15 kg on; a cabinet only where it goes in warm', () => {
    const large = { thickness_mm: 150, diameter_mm: 400 }
    expect(cautions(large)).toEqual(expect.arrayContaining(['caution-heavy', 'caution-shelf']))
    // 60 mm at about 1.1 kg/L is 66 kg/m², under 80 % of what the weakest shelves carry, 90.
    expect(cautions({ thickness_mm: 60 })).not.toContain('caution-shelf')
    expect(cautions({ thickness_mm: 100, diameter_mm: 300 })).not.toContain('caution-heavy')
    expect(cautions({ ...large, start_C: 70, air_C: 3 })).toContain('caution-cabinet')
    expect(cautions({ ...large, start_C: 10, air_C: 3 })).not.toContain('caution-cabinet')
    expect(cautions({ start_C: 70, air_C: 3 })).not.toContain('caution-cabinet')
  })

  test('dry and fatty masses protect Salmonella', () => {
    expect(cautions({ material: 'dark-chocolate' })).toContain('caution-dry')
    expect(cautions({ material: 'pastry-cream' })).not.toContain('caution-dry')
  })

  test('frozen', () => {
    expect(cautions({ air_C: -20, hours: 8 })).toContain('caution-freezing')
    expect(cautions({ air_C: 2, hours: 8 })).not.toContain('caution-freezing')
  })

  test('hands after heat: a pour on what was hot, not on what never was', () => {
    const later = [
      {
        name: 'Pour on',
        in: { air_C: 18, h_W_m2K: 10 },
        start: [{ do: 'pour', material: 'whipped-cream', thickness_mm: 20, start_C: 6 }],
        until: { after_h: 1 },
      },
    ]
    expect(cautions({ start_C: 85, later })).toContain('caution-hands')
    expect(cautions({ later })).not.toContain('caution-hands')
  })
})

describe('a mould', () => {
  const mould = (material: string, more = {}) => [{ faces: ['sides'], material, thickness_mm: 4, ...more }]

  test.each(['pvc', 'plywood', 'foam', 'polyethylene'])('of %s is not made for food unless declared', (material) => {
    expect(cautions({ mould: mould(material) })).toContain('caution-mould')
    expect(cautions({ mould: mould(material, { food_grade: true }) })).not.toContain('caution-mould')
  })

  test.each(['stainless', 'silicone', 'glass', 'aluminium'])('of %s usually is', (material) => {
    expect(wallIds).toContain(material)
    expect(cautions({ mould: mould(material) })).not.toContain('caution-mould')
  })
})
