import { describe, expect, test } from 'vitest'
import type { Body } from '../../src/core/geometry/body.ts'
import { ballBody } from '../../src/core/geometry/shapes/ball.ts'
import { barBody } from '../../src/core/geometry/shapes/bar.ts'
import { roundBody } from '../../src/core/geometry/shapes/round.ts'
import { sheetBody } from '../../src/core/geometry/shapes/sheet.ts'
import { runOnGrid } from '../../src/core/journey/grid-journey.ts'
import { air, cream, jobOf, read, stage } from './jobs.ts'

const shapes: readonly { name: string; body: Body; height: number | null }[] = [
  { name: 'sheet', body: sheetBody({}), height: 0.12 },
  { name: 'bar', body: barBody({ width: 0.2, length: 1 }), height: 0.12 },
  { name: 'round', body: roundBody({ diameter: 0.2 }), height: 0.12 },
  { name: 'ball', body: ballBody({ diameter: 0.16 }), height: null },
]

const places = [
  { x: 0.5, y: 0.5, z: 0.5 },
  { x: 0.8, y: 0.5, z: 0.5 },
  { x: 0.5, y: 0.8, z: 0.5 },
]

/** Root mean square of the differences of two runs over places and times, K. */
function gap(job: ReturnType<typeof jobOf>, coarse: Resolution, fine: Resolution): number {
  const one = runOnGrid(job, coarse)
  const other = runOnGrid(job, fine)
  let sum = 0
  let count = 0
  for (const place of places) {
    const a = one.follow(place)
    const b = other.follow(place)
    for (const h of [2, 4, 6, 8]) {
      sum += (read(one, a, h) - read(other, b, h)) ** 2
      count++
    }
  }
  return Math.sqrt(sum / count)
}

type Resolution = Parameters<typeof runOnGrid>[1]
const grid = (perHalf: number): Resolution => ({
  perHalf: [perHalf, perHalf, perHalf],
  halved: false,
  tolerance_K: 0.002,
  firstStep: 2,
  longestStep: 900,
})

describe.each(shapes)('$name', ({ body, height }) => {
  const job = jobOf(body, cream, height, 80, [stage(body, air(8, 5), 8)])

  test('order in space at least 1.9', () => {
    const first = gap(job, grid(16), grid(32))
    const second = gap(job, grid(32), grid(64))
    const order = Math.log2(first / second)
    console.info(`${body.kind}: observed order in space ${order.toFixed(2)}`)
    expect(order).toBeGreaterThan(1.9)
  })
})

test('order in time at least 1.9', () => {
  const body = sheetBody({})
  const job = jobOf(body, cream, 0.12, 80, [stage(body, air(20, 5), 4)])
  // Steps of equal length: the tolerance never binds.
  const even = (step: number): Resolution => ({
    perHalf: [12, 12, 12],
    halved: false,
    tolerance_K: 1e3,
    firstStep: step,
    longestStep: step,
  })
  const exact = runOnGrid(job, even(7.5))
  const error = (step: number): number => {
    const course = runOnGrid(job, even(step))
    return Math.abs(course.mean_C.at(-1)! - exact.mean_C.at(-1)!)
  }
  const order = Math.log2(error(120) / error(60))
  console.info(`observed order in time ${order.toFixed(2)}`)
  expect(order).toBeGreaterThan(1.9)
})
