import { expect, test } from 'vitest'
import vectors from '../../shared/reference/safety-vectors.json'
import { isRefusal, verifyFile } from '../../src/core/verification/formats.ts'

/*
 * Rules, growth and killing by an independent program, published coolings among them; tolerances are those stated in
 * the file: 0.002 h, 0.5 % of an exposure, 0.02 powers of ten, 1 % of a killing.
 */

const verify = (file: unknown) => {
  const result = verifyFile(file, { fidelity: 'quick' })
  if (isRefusal(result)) throw new Error('refused')
  return result
}

test('every figure is found, none is left out', () => {
  const { rows, summary, faults } = verify(vectors)
  expect(faults).toEqual([])
  expect(rows.filter((row) => row.verdict !== 'ok')).toEqual([])
  expect(summary.outputs).toBeGreaterThan(750)
})

test('a changed figure is found in every section', () => {
  const changed = structuredClone(vectors)
  changed.rules[0]!.steps![0]!.within_h = 2.1
  changed.holding[0]!.cold_max_C = 5.1
  changed.organisms[0]!.T.min_C = 10
  changed.lethalityTargets[0]!.z_C = 7.6
  changed.rateTable.mu_per_h['s-aureus'][6]! *= 1.001
  changed.gammaAwTable.gamma.salmonella[8]! *= 1.001
  changed.suboptimalSlope.b['b-cereus'] *= 1.001
  changed.growthFormulaChecks[4]!.log10 += 1e-4
  changed.equivalents_70C_2min_z7p5[0]!.min *= 1.001
  changed.publishedCoolings[3]!.A *= 1.01
  changed.thicknessOrientation.rows[4]!.half_mm *= 1.05
  const lists: readonly (readonly { kind: string; outcome?: string }[])[] = changed.vectors.map(({ checks }) => checks)
  const checks = lists.flat()
  checks.find(({ kind }) => kind === 'staged')!.outcome = 'fail'
  checks.find(({ kind }) => kind === 'bands')!.outcome = 'fail'
  checks.find(({ kind }) => kind === 'zone')!.outcome = 'pass'
  checks.find(({ kind }) => kind === 'lethality')!.outcome = 'reached'
  checks.find(({ kind }) => kind === 'worst-rule')!.outcome = 'pass'
  expect(verify(changed).rows.filter((row) => row.verdict === 'outside')).toHaveLength(16)
})

test('what is not known is left out and said, what is malformed is a fault', () => {
  const { rows, faults } = verify({
    ...vectors,
    vectors: [
      {
        id: 'own',
        unit: 'C',
        points: [{ name: 'a', history: [[0, 60]] }],
        checks: [
          { kind: 'staged', rule: 'no-such-rule', point: 'a', outcome: 'pass', episodes: [] },
          { kind: 'smell', point: 'a' },
          { kind: 'bands', rule: 'fsis-b-option1' },
        ],
      },
    ],
  })
  expect(rows.flatMap((row) => (row.verdict === 'ok' ? [] : [row.reason]))).toEqual([
    'no rule no-such-rule',
    'no check of the kind "smell" is known here',
  ])
  expect(faults.map((fault) => fault.path)).toEqual(['vectors[0].checks[2]'])
})
