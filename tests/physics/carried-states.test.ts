import { expect, test } from 'vitest'
import { sheetBody } from '../../src/core/geometry/shapes/sheet.ts'
import type { Job } from '../../src/core/journey/job.ts'
import { computeJourney, runJourney } from '../../src/core/journey/journey.ts'
import type { StateLaw } from '../../src/core/materials/state-law.ts'
import { air, cream, jobOf, stage } from './jobs.ts'

/* Values that follow from the temperatures a place has been through and change nothing. */

/** Degree-seconds above 30 °C, exactly for straight pieces, and the highest temperature so far. */
const warmth: StateLaw = {
  names: ['degreeSeconds', 'highest'],
  start: (T_C) => [0, T_C],
  advance(values, from_C, to_C, dt) {
    const [a, b] = [from_C - 30, to_C - 30]
    const share = a * b < 0 ? (Math.max(a, b) ** 2 / (2 * Math.abs(b - a))) * dt : (Math.max(a + b, 0) / 2) * dt
    values[0] = values[0]! + share
    values[1] = Math.max(values[1]!, to_C)
  },
}

const body = sheetBody({})
const stages = [stage(body, air(15, 80), 2), stage(body, air(15, 5), 4)]

test('a law of the job follows every place, whatever the material', () => {
  const job: Job = { ...jobOf(body, cream, 0.08, 10, stages), states: [warmth] }
  const { course } = computeJourney(job, 'standard')
  for (const place of course.places()) {
    const { degreeSeconds, highest } = place.states
    let sum = 0
    let most = 10
    for (let i = 1; i < place.t.length; i++) {
      const values = new Float64Array([sum, most])
      warmth.advance(values, place.T_C[i - 1]!, place.T_C[i]!, place.t[i]! - place.t[i - 1]!)
      ;[sum, most] = values as unknown as [number, number]
    }
    // The joined clock of both grids differs by round-off only: these stages end by the clock.
    expect(degreeSeconds!.at(-1)! / sum).toBeCloseTo(1, 9)
    expect(highest!.at(-1)).toBe(most)
  }
})

test('it changes nothing else', () => {
  const plain = runJourney(jobOf(body, cream, 0.08, 10, stages), { fidelity: 'standard' })
  const watched = runJourney({ ...jobOf(body, cream, 0.08, 10, stages), states: [warmth] }, { fidelity: 'standard' })
  expect(Array.from(watched.mean_C)).toEqual(Array.from(plain.mean_C))
  expect(plain.segments[0]!.states).toEqual({})
})

test('a law of a material is carried through a pour, and begins with its layer', () => {
  const watched = { ...cream, states: [warmth] }
  const layer = { name: 'stages[1].start[0]', material: { ...watched }, thickness: 0.04, start_C: 70 }
  const job: Job = {
    body,
    lining: [{ name: 'lining[0]', material: cream, thickness: 0.01, start_C: 5 }],
    fill: [{ name: 'fill[0]', material: watched, thickness: 0.04, start_C: 10 }],
    probes: [],
    stages: [stages[0]!, { ...stages[1]!, start: [{ do: 'pour', layer }] }],
  }
  const course = runJourney(job, { fidelity: 'quick' })
  const of = (name: string) => course.places().filter((place) => place.layer === name)
  for (const place of of('lining[0]')) expect(place.states).toEqual({})
  for (const place of of('fill[0]')) {
    const history = place.states.degreeSeconds!
    for (let i = 1; i < history.length; i++) expect(history[i]).toBeGreaterThanOrEqual(history[i - 1]! - 1e-9)
    expect(history[0]).toBe(0)
  }
  for (const place of of('stages[1].start[0]')) {
    expect(place.states.degreeSeconds![0]).toBe(0)
    expect(place.states.highest![0]).toBe(70)
  }
})
