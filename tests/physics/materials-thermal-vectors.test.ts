import { expect, test } from 'vitest'
import vectors from '../../shared/reference/thermal-vectors.json'
import { verifyThermalVectors } from '../../src/core/verification/vectors-thermal.ts'

/* Laws, constants and masses by an independent program, and measurements; tolerances are those stated for them. */

test('laws and masses give the figures of an independent program, and measured ones', () => {
  const { rows, summary, faults } = verifyThermalVectors(vectors)
  expect(faults).toEqual([])
  expect(rows.filter((row) => row.verdict === 'outside')).toEqual([])
  expect(summary.outputs).toBeGreaterThan(800)
  expect(summary.notApplicable).toBeLessThan(65)
})

test('a changed figure is found in every section', () => {
  const changed = structuredClone(vectors)
  changed.componentPolynomials.components.fat.k[1]! *= 10
  changed.solutes[0]!.norrishMinusK = 6.4
  changed.worked_cream.rows[8]!.k *= 1.01
  changed.mixingTestVectors[0]!.levy += 0.001
  changed.moistAir.psat_Pa[5]![1]! *= 1.001
  changed.masses[0]!.k20 *= 1.01
  changed.materials[0]!.k = 51
  const outside = verifyThermalVectors(changed).rows.filter((row) => row.verdict === 'outside')
  expect(outside).toHaveLength(7)
})
