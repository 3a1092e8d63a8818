import { expect, test } from 'vitest'
import vectors from '../../shared/reference/recipe-vectors.json'
import { verifyIngredientVectors } from '../../src/core/verification/vectors-ingredients.ts'

/*
 * Five recipes of ours at large-piece scale, seven states, every figure by an independent program that was written
 * from the published laws alone; tolerances are those of the file.
 */
test('recipes give the figures of an independent program', () => {
  const { rows, summary, faults } = verifyIngredientVectors(vectors)
  expect(faults).toEqual([])
  expect(rows.filter((row) => row.verdict !== 'ok')).toEqual([])
  expect(summary.cases).toBe(5)
  expect(summary.outputs).toBeGreaterThan(250)
})

test('a changed figure is found', () => {
  const changed = structuredClone(vectors)
  changed.testVectors[0]!.states[0]!.expect.k20_W_mK *= 1.004
  changed.testVectors[2]!.states[0]!.expect.structure = 'OW'
  const outside = verifyIngredientVectors(changed).rows.filter((row) => row.verdict === 'outside')
  expect(outside.map((row) => row.output)).toEqual(['k20_W_mK', 'structure'])
})
