import { normalQuantile } from '../../src/core/deciding/normal.ts'
import { open01, seeded } from '../../src/core/deciding/random.ts'
import type { Reading } from '../../src/core/fitting/readings.ts'
import { forecast } from '../../src/core/forecast.ts'
import type { Plan } from '../../src/core/plan/schema/plan.ts'

/** Scatter of readings, K, from a seed. */
export function scatter(seed: number, sigma_K = 0.5): () => number {
  const random = seeded(seed)
  return () => sigma_K * normalQuantile(open01(random))
}

/** A curve of a forecast at a moment, straight between its points. */
export function valueAt(times_h: readonly number[], curve: readonly (number | null)[], at_h: number): number {
  const next = Math.max(
    1,
    times_h.findIndex((time) => time >= at_h),
  )
  const [before, after] = [times_h[next - 1]!, times_h[next]!]
  const share = after === before ? 1 : (at_h - before) / (after - before)
  return curve[next - 1]! + share * (curve[next]! - curve[next - 1]!)
}

/** What a probe would show of a true piece at some moments. */
export function measuredOn(truth: Plan, probe: string, moments_h: readonly number[], noise: () => number): Reading[] {
  const { times_h, curves } = forecast(truth)
  const curve = curves[probe] ?? curves[`probe:${probe}`]!
  return moments_h.map((at_h) => ({ probe, at_h, C: valueAt(times_h, curve, at_h) + noise() }))
}
