import { describe, expect, test } from 'vitest'
import { buildBody } from '../../../src/core/geometry/shapes/index.ts'
import { getWall } from '../../../src/core/materials/wall.ts'
import { sheathe } from '../../../src/core/plan/sheath.ts'

const wall = (k: number) => ({ ...getWall('pvc'), k })
const round = buildBody({ kind: 'round', diameter_mm: 400 })
const ball = buildBody({ kind: 'ball', diameter_mm: 400 })
const bar = buildBody({ kind: 'bar', width_mm: 400, length_mm: 800 })

/** Heat passed per m² of the inner face and kelvin, through the wall and a film outside it. */
const overall = ({ resistances, spread }: ReturnType<typeof sheathe>, h: number): number =>
  1 / (resistances.reduce((sum, { R }) => sum + R, 0) + 1 / (h * spread))

describe('around a round piece', () => {
  test('the wall of a pipe: 8 mm of k 0.19 on a radius of 0.20 m, film 8 outside', () => {
    // 1/U = r (ln(r'/r)/k + 1/(h r')) = 0.2 (ln(0.208/0.2)/0.19 + 1/(8·0.208)), the handbook law of a cylinder's wall.
    const U = 1 / (0.2 * (Math.log(0.208 / 0.2) / 0.19 + 1 / (8 * 0.208)))
    expect(U).toBeCloseTo(6.193, 3)
    expect(overall(sheathe(round, 'sides', [{ wall: wall(0.19), thickness: 0.008 }]), 8)).toBeCloseTo(U, 9)
  })

  test('two walls on each other, the outer one wider', () => {
    const sheets = [
      { wall: wall(0.19), thickness: 0.008 },
      { wall: wall(0.036), thickness: 0.03 },
    ]
    const { resistances, spread } = sheathe(round, 'sides', sheets)
    expect(resistances[0]!.R).toBeCloseTo((0.2 * Math.log(0.208 / 0.2)) / 0.19, 9)
    expect(resistances[1]!.R).toBeCloseTo((0.2 * Math.log(0.238 / 0.208)) / 0.036, 9)
    expect(spread).toBeCloseTo(0.238 / 0.2, 12)
  })

  test('a shell: R = r δ / (k (r + δ)) per m² of the inner face', () => {
    const { resistances, spread } = sheathe(ball, 'curved', [{ wall: wall(0.2), thickness: 0.02 }])
    expect(resistances[0]!.R).toBeCloseTo((0.2 * 0.02) / (0.2 * 0.22), 9)
    expect(spread).toBeCloseTo((0.22 / 0.2) ** 2, 12)
  })
})

test('flat faces have no spread: R = δ/k', () => {
  for (const [body, face] of [
    [round, 'bottom'],
    [bar, 'left'],
    [bar, 'top'],
    [bar, 'right'],
  ] as const) {
    const { resistances, spread } = sheathe(body, face, [{ wall: wall(0.12), thickness: 0.018 }])
    expect(resistances[0]!.R).toBeCloseTo(0.15, 12)
    expect(spread).toBeCloseTo(1, 12)
  }
})

test('nothing on a face, nothing in the way', () => {
  expect(sheathe(round, 'sides', [])).toEqual({ resistances: [], spread: 1 })
})
