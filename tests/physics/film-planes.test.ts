import { describe, expect, test } from 'vitest'

import { forecast } from '../../src/core/forecast.ts'
import type { SectionFilm } from '../../src/core/forecast-types.ts'
import type { Plan } from '../../src/core/plan/schema/plan.ts'

const block = (length_mm: number, dimensions: 2 | 3 = 3): Plan => ({
  format: 'thickset-plan',
  version: 1,
  title: 'Block',
  startsAt: '2027-03-12T16:00',
  fidelity: 'quick',
  dimensions,
  materials: { mass: { fixed: { k_W_mK: 0.5, rho_kg_m3: 1000, c_J_kgK: 3500 } } },
  piece: {
    shape: { kind: 'block', length_mm, width_mm: 100 },
    fill: [{ material: 'mass', thickness_mm: 100, start_C: 60 }],
  },
  stages: [{ name: 'Chill', in: { air_C: 0, h_W_m2K: 20 }, until: { after_h: 4 } }],
})

const filmsOf = (plan: Plan): SectionFilm => forecast(plan).film[0]!
const last = ({ T_C }: SectionFilm): Float32Array => T_C.at(-1)!
/** Value of the cell nearest to the middle of a film. */
function middle(film: SectionFilm): number {
  const { nu, nv } = film.grid
  return last(film)[Math.floor(nv / 2) * nu + Math.floor(nu / 2)]!
}

describe('cuts through a block of three directions', () => {
  test('a cube that meets the same on every face is the same in each of them', () => {
    const across = filmsOf(block(100))
    const { along, level } = across.others!
    for (const other of [along, level]) {
      expect(other.grid.width_m).toBeCloseTo(0.1, 9)
      expect(other.grid.height_m).toBeCloseTo(0.1, 9)
      expect(last(other).length).toBe(last(across).length)
      const apart = last(other).map((value, i) => Math.abs(value - last(across)[i]!))
      expect(Math.max(...apart)).toBeLessThan(1e-3)
    }
  })

  test('a long one is as long along as it is, warm in its middle and cold at its ends; level it is as wide as across', () => {
    const across = filmsOf(block(300))
    const { along, level } = across.others!
    expect(along.grid.width_m).toBeCloseTo(0.3, 9)
    expect(along.grid.height_m).toBeCloseTo(0.1, 9)
    expect(level.grid.width_m).toBeCloseTo(0.1, 9)
    expect(level.grid.height_m).toBeCloseTo(0.3, 9)
    // all three meet in the middle of the piece
    expect(middle(along)).toBeCloseTo(middle(across), 6)
    expect(middle(level)).toBeCloseTo(middle(across), 6)
    const { nu, nv } = along.grid
    const row = Array.from({ length: nu }, (_, i) => last(along)[Math.floor(nv / 2) * nu + i]!)
    expect(row[0]).toBeCloseTo(row.at(-1)!, 6)
    expect(row[0]!).toBeLessThan(middle(along) - 5)
  })

  test('where heat is followed in two directions there is but the one across', () => {
    expect(filmsOf(block(900, 2)).others).toBeUndefined()
  })
})
