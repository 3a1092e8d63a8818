import { expect, test } from 'vitest'
import vectors from '../../shared/reference/setting-vectors.json'
import { isRefusal, verifyFile } from '../../src/core/verification/formats.ts'

/* Setting laws by an independent program, at three levels; tolerances are those stated with each vector. */

const verify = (file: unknown) => {
  const result = verifyFile(file, { fidelity: 'quick' })
  if (isRefusal(result)) throw new Error('refused')
  return result
}
const outside = (file: unknown) => verify(file).rows.filter((row) => row.verdict === 'outside')

test('every figure is found, none is left out', () => {
  const { rows, summary, faults } = verify(vectors)
  expect(faults).toEqual([])
  expect(rows.filter((row) => row.verdict !== 'ok')).toEqual([])
  expect(summary.outputs).toBeGreaterThan(430)
})

test('a changed figure is found in every section', () => {
  const changed = structuredClone(vectors)
  changed.families.gelatin.params.w_fast.typical = 0.56
  changed.families.egg_set.params.T_set10.custard = 80.1
  changed.families.sugar_batter_starch.params.Tc0.maize = 70
  changed.families.pectin_hm.params.T_set.rapid[1] = 81
  changed.families.milk_fat.params.s_eq.points[3]![1] = 0.32
  changed.rules.structure.limits.unmould_SF = 2.5
  changed.formula_checks[2]!.value = [0.0163025, 0.138, 0.256527]
  expect(outside(changed)).toHaveLength(7)
})

test.each(vectors.vectors.map((vector, index) => [vector.id, index] as const))(
  '%s: each figure can fail',
  (_, index) => {
    const changed = structuredClone(vectors.vectors[index]!) as {
      expected: Record<string, Record<string, number | boolean | null>>
    }
    let count = 0
    for (const level of Object.values(changed.expected))
      for (const [key, value] of Object.entries(level)) {
        // 5 % and more than any tolerance of a time.
        level[key] =
          typeof value === 'boolean' ? !value : value === null ? 1 : value * 1.05 + (Math.abs(value) > 500 ? 300 : 0.1)
        count++
      }
    expect(outside({ schema: vectors.schema, vectors: [changed] })).toHaveLength(count)
  },
)

test('what is not known is left out and said', () => {
  const { rows } = verify({
    schema: vectors.schema,
    families: { honeycomb: { params: {} } },
    vectors: [{ ...vectors.vectors[0], family: 'honeycomb' }],
    formula_checks: [{ id: 'X', what: 'weight', inputs: { pounds: 1 }, value: 1, tolerance: '0' }],
  })
  expect(new Set(rows.map((row) => row.verdict))).toEqual(new Set(['not applicable']))
})
