import { expect, test } from 'vitest'
import { sheetBody } from '../../src/core/geometry/shapes/sheet.ts'
import { runJourney } from '../../src/core/journey/journey.ts'
import { air, cream, hours, jobOf, stage } from './jobs.ts'

const body = sheetBody({})
const cooled = { ...stage(body, air(15, 4), 1), until: { core_C: 20, max: hours(500) } }

test('a time of day that has passed when the stage begins comes again the next day', () => {
  const clock = hours(2)
  const job = jobOf(body, cream, 0.1, 70, [
    cooled,
    { ...stage(body, air(15, 4), 1), until: { clock, clockEvery: hours(24), max: hours(500) } },
  ])
  const course = runJourney(job, { fidelity: 'quick' })
  const [first, second] = course.stages
  expect(first!.to).toBeGreaterThan(clock)
  expect(second!.to).toBeCloseTo(clock + hours(24), 6)
  expect(second!.endedBy).toBe('clock')
})

test('a dated clock that has passed ends the stage at once', () => {
  const job = jobOf(body, cream, 0.1, 70, [
    cooled,
    { ...stage(body, air(15, 4), 1), until: { clock: hours(2), max: hours(500) } },
  ])
  const second = runJourney(job, { fidelity: 'quick' }).stages[1]!
  expect(second.to).toBe(second.from)
})

test('the longest time guards a stage that never gets there', () => {
  const job = jobOf(body, cream, 0.1, 70, [{ ...stage(body, air(15, 25), 1), until: { core_C: 20, max: hours(6) } }])
  const [span] = runJourney(job, { fidelity: 'standard' }).stages
  expect(span).toMatchObject({ endedBy: 'max', to: hours(6) })
})
