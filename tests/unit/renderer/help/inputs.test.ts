import { describe, expect, test } from 'vitest'

import { choiceKey, findHelp, helpGroups, pathKey } from '../../../../src/renderer/help/inputs.ts'

describe('help of inputs', () => {
  test('each key stands once; each entry is a sentence with what is usual', () => {
    const inputs = helpGroups.flatMap((group) => group.inputs)
    const keys = inputs.flatMap((input) => input.keys)
    expect(keys).toEqual([...new Set(keys)])
    for (const { name, says, usual } of inputs) {
      expect(`${name}: ${says}`).toMatch(/: [A-Z].{15,}\.$/s)
      expect(`${name}: ${usual}`).toMatch(/\S\.$/)
      expect(`${says} ${usual}`).not.toMatch(/\b(safe|guaranteed|perfect|optimal|smart)\b/i)
    }
  })

  test('a field of the plan is found by its path, whatever its numbers and own names', () => {
    expect(pathKey('piece.fill[12].thickness_mm')).toBe('piece.fill[].thickness_mm')
    expect(pathKey('materials.lemon-cream.recipe[3].mass_kg')).toBe('materials.*.recipe[].mass_kg')
    expect(pathKey('materials.a.b 2.air_pct')).toBe('materials.*.air_pct')
    expect(pathKey('stages[0].start[1].board_mm')).toBe('stages[].start[].board_mm')
    expect(choiceKey('Material of layer 3')).toBe('choice Material of layer')
    expect(findHelp(pathKey('stages[2].until.probe.C'))?.says).toContain('ends once')
    expect(findHelp('stages[].until.nothing')).toBeUndefined()
  })
})
