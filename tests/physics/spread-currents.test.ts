import { describe, expect, it } from 'vitest'
import { computeSamples, prepareSpread } from '../../src/core/deciding/spread-samples.ts'
import type { Plan } from '../../src/core/plan/schema/plan.ts'

/** A cream that pours hot and moves until it begins to set. */
const plan: Plan = {
  format: 'thickset-plan',
  version: 1,
  title: 'Gelatin cream, a hand high',
  startsAt: '2027-03-12T16:00',
  fidelity: 'quick',
  piece: {
    shape: { kind: 'sheet', area_m2: 0.2 },
    fill: [{ material: 'gelatin-cream', thickness_mm: 90, start_C: 50 }],
  },
  stages: [{ name: 'Chill', in: { air_C: 3, h_W_m2K: 12 }, until: { after_h: 30 } }],
  targets: [{ kind: 'cooled', core_C: 20 }],
}

describe('currents in what pours', () => {
  it('are drawn as one of the uncertain inputs: none is slowest, the thin end of the class quickest', () => {
    const at = (z: number) => {
      const drawn = (_runs: number, inputs: number): Float64Array[] => {
        const draw = new Float64Array(inputs)
        draw[task.inputs.findIndex(({ kind }) => kind === 'currents')] = z
        return [draw]
      }
      const task = prepareSpread(plan, { runs: 20, seed: 1 })
      const moved = prepareSpread(plan, { runs: 1, seed: 1 }, {}, drawn)
      return computeSamples(moved, 0, 1)[0]!
    }
    const [none, thick, middle, thin] = [at(-2), at(-1.6), at(0), at(1.6)]
    console.log(`none ${none}, thick ${thick}, middle ${middle}, thin ${thin} h`)
    expect(none).toBeGreaterThan(thick!)
    expect(thick).toBeGreaterThan(middle!)
    expect(middle).toBeGreaterThan(thin!)
    // drawn beyond its ends it stays there
    expect(at(3)).toBe(at(2))
  })

  it('are not asked about where nothing pours', () => {
    const fixed = { fixed: { k_W_mK: 0.48, rho_kg_m3: 1050, c_J_kgK: 3500 } }
    const { inputs } = prepareSpread(
      {
        ...plan,
        materials: { block: fixed },
        piece: { ...plan.piece, fill: [{ material: 'block', thickness_mm: 90, start_C: 50 }] },
      },
      { runs: 20, seed: 1 },
    )
    expect(inputs.some(({ kind }) => kind === 'currents')).toBe(false)
  })
})
