import { expect, test } from 'vitest'
import sources from '../../../shared/reference/sources.json'
import { findWall, gapResistance, getWall, wallIds, wallResistance } from '../../../src/core/materials/wall.ts'

test('every wall has plausible figures and a listed source', () => {
  expect(wallIds.length).toBeGreaterThan(15)
  for (const id of wallIds) {
    const wall = getWall(id)
    expect(wall.k * wall.rho * wall.c).toBeGreaterThan(0)
    expect(wall.emissivity).toBeLessThanOrEqual(1)
    expect(Object.keys(sources)).toContain(wall.source)
  }
  expect(findWall('no-such-wall')).toBeUndefined()
  expect(() => getWall('no-such-wall')).toThrow('no-such-wall')
})

// EN ISO 10077-2: silicone 0.35 W/(m K); 8 mm of it.
test('resistance of a wall', () => {
  expect(wallResistance(getWall('silicone'), 0.008)).toBeCloseTo(0.008 / 0.35, 12)
})

// EN ISO 6946, from memory: 5 mm of still air between non-metal faces, 0.11 m² K/W; 0.5 mm, about 0.02.
test('resistance of a narrow gap of air', () => {
  expect(Math.abs(gapResistance(0.005, 10) - 0.11)).toBeLessThan(0.01)
  expect(Math.abs(gapResistance(0.0005, 20) - 0.018)).toBeLessThan(0.002)
})
