import { describe, expect, it } from 'vitest'
import { Cancelled } from '../../../src/core/errors.ts'
import { isRefusal, verifyFile } from '../../../src/core/verification/formats.ts'
import { closingLine } from '../../../src/core/verification/report.ts'
import { verifyCases } from '../../../src/core/verification/verify.ts'

const film = { type: 'convection', h_W_m2K: 10, T_C: 4 }
const entry = {
  id: 'one',
  geometry: { shape: 'slab', half_thickness_m: 0.05, symmetric: true },
  material: { k_W_mK: 0.5, rho_kg_m3: 1000, c_J_kgK: 3500 },
  initial: { T_C: 4 },
  boundary: { surface: film },
  // A body in air of its own temperature stays as it is.
  outputs: [{ quantity: 'temperature', position: { x_m: 0 }, t_s: 3600, value: 4, unit: 'degC' }],
  tolerance: { abs_K: 1e-9 },
}
const quick = { fidelity: 'quick' } as const
const only = (changes: object) => verifyCases([{ ...entry, ...changes }], quick).rows[0]!

describe('a verified case', () => {
  it('is inside, with what it was judged by', () => {
    const row = only({})
    expect(row).toMatchObject({ case: 'one', verdict: 'ok', expected: [4, 4] })
    expect(row.computed).toBeCloseTo(4, 12)
    expect(row.error).toBeLessThan(1e-12)
  })

  it('is outside when the figure is another', () => {
    const output = { ...entry.outputs[0], value: 5 }
    const row = only({ outputs: [output] })
    expect(row.verdict).toBe('outside')
    expect(row.error).toBeCloseTo(1, 12)
  })

  it('is outside when a moment never comes', () => {
    const never = { quantity: 'time_to_temperature', position: { x_m: 0 }, value: 3600, target_C: 3, unit: 's' }
    expect(only({ outputs: [never], tolerance: { rel: 0.5 } })).toMatchObject({
      verdict: 'outside',
      computed: Number.POSITIVE_INFINITY,
    })
  })

  it.each([
    [{ geometry: { shape: 'cone' } }, 'the shape "cone" is not one that the core has'],
    [{ material: { name: 'bread' } }, 'no conductivity'],
    [{ material: { k_W_mK: 'T*x', rho_c_J_m3K: 1e6 } }, 'uses "x"'],
    [{ material: { k_W_mK: '2*(T', rho_c_J_m3K: 1e6 } }, 'character'],
    [{ boundary: { surface: 'warm air' } }, 'in words: warm air'],
    [{ boundary: { roof: film } }, 'the face "roof"'],
    [{ boundary: {} }, 'no surroundings'],
    [{ tolerance: {} }, 'no tolerance'],
    [{ outputs: [{ quantity: 'taste', value: 1 }] }, 'the quantity "taste"'],
  ])('is left out with the reason: %j', (changes, reason) => {
    const row = only(changes)
    expect(row.verdict).toBe('not applicable')
    expect(row.reason).toContain(reason)
  })

  it('runs both ends where the film is a range', () => {
    const row = only({
      initial: { T_C: 80 },
      boundary: { surface: { ...film, h_W_m2K: [5, 50] } },
      outputs: [{ quantity: 'time_to_temperature', position: { x_m: 0 }, value: 15_000, target_C: 40, unit: 's' }],
      tolerance: { rel: 0.01 },
    })
    const [low, high] = row.computed as readonly [number, number]
    expect(low).toBeLessThan(15_000)
    expect(high).toBeGreaterThan(15_000)
    expect(row).toMatchObject({ verdict: 'ok', error: 0 })
  })

  it('reports progress and stops when asked', () => {
    const told: string[] = []
    verifyCases([entry], quick, { report: (_, doing) => told.push(doing) })
    expect(told).toEqual(['one'])
    expect(() => verifyCases([entry], quick, { stopped: () => true })).toThrow(Cancelled)
  })
})

describe('a file', () => {
  const file = { format: { schema: 'thermal-validation-cases/1' }, cases: [entry, { id: 'two' }] }

  it('is known by its format', () => {
    const result = verifyFile(file, quick)
    if (isRefusal(result)) throw new Error('refused')
    expect(closingLine(result.summary)).toBe('1 cases, 1 outputs, 0 outside, 0 not applicable')
    expect(result.faults.every((fault) => fault.path.startsWith('two.'))).toBe(true)
  })

  it.each([null, 3, [], {}, { format: 'x/1' }, { format: 'surroundings', materials: [] }])('%j is refused', (other) => {
    expect(isRefusal(verifyFile(other, quick))).toBe(true)
  })
})
