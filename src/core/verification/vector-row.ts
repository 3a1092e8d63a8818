import type { Row } from './report.ts'

/** A figure that a vectors file states, beside the one computed from it. */
export interface Comparison {
  readonly case: string
  readonly output: string
  readonly unit: string
  /** A number; null where the figure does not exist. */
  readonly computed: number | null
  readonly expected: number | readonly [number, number] | null
  /** In the output's unit. */
  readonly tolerance: number
  readonly source?: string
}

/** Judges one figure. */
export function compared({ computed, expected, tolerance, source, ...labels }: Comparison): Row {
  const row = { ...labels, ...(source === undefined ? {} : { source }) }
  if (expected === null) {
    if (computed === null) return { ...row, error: 0, tolerance: 0, verdict: 'ok' }
    return { ...row, computed, verdict: 'outside', reason: 'there should be no such figure' }
  }
  const [low, high] = typeof expected === 'number' ? [expected, expected] : expected
  if (computed === null)
    return { ...row, expected: [low, high], verdict: 'outside', reason: 'no such figure was found' }
  const error = Math.max(low - computed, computed - high, 0)
  // Not `error > tolerance`: an error that is no number is outside.
  const verdict = error <= tolerance * (1 + 1e-9) ? 'ok' : 'outside'
  return { ...row, computed, expected: [low, high], error, tolerance, verdict }
}

/** Judges words: they must be the same. */
export function sameWords(name: string, output: string, computed: string, expected: string): Row {
  const row = { case: name, output, unit: '' }
  if (computed === expected) return { ...row, error: 0, tolerance: 0, verdict: 'ok' }
  return { ...row, verdict: 'outside', reason: `"${expected}" expected, "${computed}" found` }
}

export function leftOut(name: string, output: string, reason: string): Row {
  return { case: name, output, unit: '', verdict: 'not applicable', reason }
}
