import { expect, test } from 'vitest'
import { meanRate } from '../../../src/core/outcomes/mean-rate.ts'

/** Falls, rests, jumps at one moment and leaves the table at both ends. */
const history = { t: [0, 600, 1800, 1800, 4000, 9000], T_C: [70, 40, 40, 12, -8, 110] }

test('a rate summed along a history is the integral of what it is at every moment', () => {
  const rate = (T_C: number): number => 2 ** (T_C / 10)
  const within = (T_C: number): number => rate(Math.min(100, Math.max(0, T_C)))
  let exact = 0
  // Midpoint rule, so fine that its error does not count.
  const cuts = 20_000
  for (let i = 1; i < history.t.length; i++) {
    const [from, to] = [history.T_C[i - 1]!, history.T_C[i]!]
    const dt = (history.t[i]! - history.t[i - 1]!) / cuts
    for (let cut = 0; cut < cuts; cut++) exact += within(from + ((to - from) * (cut + 0.5)) / cuts) * dt
  }
  expect(meanRate(rate, 0, 100).along(history) / exact).toBeCloseTo(1, 6)
})
