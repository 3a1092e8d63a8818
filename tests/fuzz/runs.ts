import type { Parameters } from 'fast-check'

/** Inputs for each door: 5,000 in `npm test`; `.ci/nightly` asks for 100,000. */
export const RUNS = Number(process.env.FUZZ_RUNS ?? 5000)

/** The same inputs every time unless another seed is asked for; a failure tells the seed and the input. */
const seed = Number(process.env.FUZZ_SEED ?? 1)

/** A share of the inputs of one door. */
export const share = (part: number): Parameters<unknown> => ({
  seed,
  numRuns: Math.max(1, Math.round(RUNS * part)),
  endOnFailure: process.env.FUZZ_SHRINK !== '1',
})

/** Time that a test may take, ms: no measure of speed, only an end for what hangs. */
export const timeout = 60_000 + 40 * RUNS
