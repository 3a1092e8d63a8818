import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { readCases } from '../../../src/core/verification/case-schema.ts'

const file = JSON.parse(
  readFileSync(new URL('../../../shared/reference/validation-cases.json', import.meta.url), 'utf8'),
)

const good = {
  id: 'one',
  geometry: { shape: 'slab', half_thickness_m: 0.05, symmetric: true },
  material: { k_W_mK: 0.5, rho_kg_m3: 1000, c_J_kgK: 3500 },
  initial: { T_C: 80 },
  boundary: { surface: { type: 'convection', h_W_m2K: 10, T_C: 4 } },
  outputs: [{ quantity: 'temperature', position: { x_m: 0 }, t_s: 3600, value: 70 }],
}

describe('the form of a case', () => {
  it('reads every case of the project’s own collection', () => {
    const { cases, faults } = readCases(file.cases)
    expect(faults).toEqual([])
    expect(cases.length).toBe(file.cases.length)
  })

  it('leaves keys alone that it does not know', () => {
    const { cases } = readCases([{ ...good, laboratory: 'north', geometry: { ...good.geometry, photo: 'a.png' } }])
    expect(cases[0]).toMatchObject({ laboratory: 'north', geometry: { photo: 'a.png' } })
  })

  it('names the field of a malformed case and still reads the others', () => {
    const bad = { ...good, id: 'two', geometry: { ...good.geometry, half_thickness_m: -1 } }
    const { cases, faults } = readCases([good, bad, null, { ...good, id: 'three', outputs: 'none' }])
    expect(cases.map((entry) => entry.id)).toEqual(['one'])
    const paths = faults.map((fault) => fault.path)
    expect(paths).toContain('two.geometry.half_thickness_m')
    expect(paths).toContain('three.outputs')
    expect(paths.some((path) => path.startsWith('cases[2]'))).toBe(true)
  })

  it('refuses two cases of one name', () => {
    expect(readCases([good, good]).faults[0]?.path).toBe('one.id')
  })
})
