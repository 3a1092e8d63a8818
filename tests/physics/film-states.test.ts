import { describe, expect, test } from 'vitest'
import { makeFilm } from '../../src/core/film.ts'
import { roundBody } from '../../src/core/geometry/shapes/round.ts'
import { findCore } from '../../src/core/journey/core-place.ts'
import type { Action } from '../../src/core/journey/job.ts'
import { runJourney } from '../../src/core/journey/journey.ts'
import { fixedMaterial } from '../../src/core/materials/fixed.ts'
import { getMaterial } from '../../src/core/materials/index.ts'
import { judgeGrowth } from '../../src/core/outcomes/growth/growth-report.ts'
import { judgeTarget } from '../../src/core/outcomes/targets/index.ts'
import { air, jobOf, stage } from './jobs.ts'

const round = roundBody({ diameter: 0.24 })
const agar = {
  ...fixedMaterial({ id: 'gel', title: 'Gel', k: 0.5, rho: 1050, c: 3500 }),
  sets: [{ by: 'agar', agar_pct: 0.8 }],
}
const least = (field: ArrayLike<number>) => Array.from(field).reduce((a, b) => Math.min(a, b))
const most = (field: ArrayLike<number>) => Array.from(field).reduce((a, b) => Math.max(a, b))

describe('an agar cream that gets a second layer', () => {
  const cake = fixedMaterial({ id: 'cake', title: 'Cake', k: 0.2, rho: 500, c: 2500 })
  const pour: Action = {
    do: 'pour',
    layer: { name: 'stages[1].start[0]', material: cake, thickness: 0.03, start_C: 20 },
  }
  const job = jobOf(round, agar, 0.08, 80, [
    stage(round, air(10, 4), 10),
    { ...stage(round, air(10, 4), 10), start: [pour] },
  ])
  const course = runJourney(job, { fidelity: 'quick' })
  const film = makeFilm(course)
  const gel = (part: (typeof film)[number], field: Float32Array) =>
    Array.from(field).filter((_, cell) => part.layers[part.grid.layer[cell]!]?.material === 'gel')

  test('starts liquid, sets from the rim inward, and only ever goes on in the cold', () => {
    const [first] = film
    expect(most(first!.set_pct[0]!)).toBe(0)
    const halfway = first!.set_pct.find((field) => most(field) > 90)!
    expect(least(halfway)).toBeLessThan(50)
    for (let frame = 1; frame < first!.set_pct.length; frame++)
      for (const [cell, value] of first!.set_pct[frame]!.entries())
        expect(value).toBeGreaterThanOrEqual(first!.set_pct[frame - 1]![cell]! - 1e-4)
  })

  test('what has set stays so when something comes beside it, and the answer agrees with the picture', () => {
    const [first, second] = film
    const before = gel(first!, first!.set_pct.at(-1)!)
    const after = gel(second!, second!.set_pct[0]!)
    expect(least(after)).toBeGreaterThanOrEqual(least(before) - 1)
    expect(second!.setUnknown).toEqual(['Cake'])
    // Set is nine tenths at every place, and cold enough.
    const { at_h } = judgeTarget({ kind: 'set', index: 0 }, course)
    const [part, frame] = film
      .flatMap((one) => one.times_h.map((t, i) => [one, i, t] as const))
      .find(([, , t]) => t >= at_h!)!
    expect(least(gel(part, part.set_pct[frame]!))).toBeGreaterThan(89)
  })
})

test('ice of every cell is that of its material at its temperature, to a hundredth', () => {
  const cream = getMaterial('ice-cream-base')
  const course = runJourney(jobOf(round, cream, 0.06, 4, [stage(round, air(15, -22), 12)]), { fidelity: 'quick' })
  const [film] = makeFilm(course)
  for (const frame of [0, Math.floor(film!.times_h.length / 2), film!.times_h.length - 1])
    for (const [cell, share] of film!.ice_pct[frame]!.entries())
      if (film!.grid.layer[cell]! >= 0)
        // The curve bends most where freezing begins, between nodes a tenth of a kelvin apart.
        expect(Math.abs(share - 100 * cream.at(film!.T_C[frame]![cell]!).ice_share)).toBeLessThan(1)
  expect(most(film!.ice_pct.at(-1)!)).toBeGreaterThan(70)
  expect(most(film!.ice_pct[0]!)).toBe(0)
})

test('the most that grows anywhere is what the report says of its worst organism', () => {
  const course = runJourney(jobOf(round, getMaterial('pastry-cream'), 0.08, 60, [stage(round, air(8, 12), 20)]), {
    fidelity: 'quick',
  })
  const [film] = makeFilm(course)
  const reports = judgeGrowth(course, findCore(course))
  const worst = most(reports.map(({ log10 }) => log10 ?? 0))
  expect(worst).toBeGreaterThan(0.5)
  expect(most(film!.growth_log10!)).toBeCloseTo(worst, 5)
})
