import type { BodyAxis } from '../body.ts'

/** The axis along a bar of any section, with its two ends; heat through them may be left out. */
export const lengthAxis = (length: number): BodyAxis => ({
  carries: 'z',
  length,
  low: 'front',
  high: 'back',
  linedLow: false,
  linedHigh: false,
  long: true,
  cuts: 'along',
})
