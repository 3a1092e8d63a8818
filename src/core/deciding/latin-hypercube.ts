import { normalQuantile } from './normal.ts'
import { open01, seeded, shuffled } from './random.ts'

/**
 * Draws of independent standard normal numbers by Latin hypercube: of each of `inputs` numbers, every one of `runs`
 * slices of equal probability is drawn from once. The same seed gives the same draws.
 * Source: McKay, Beckman and Conover, Technometrics 21 (1979) 239–245.
 * @returns Shape: runs × inputs
 */
export function latinHypercube(runs: number, inputs: number, seed: number): Float64Array[] {
  const random = seeded(seed)
  const draws = Array.from({ length: runs }, () => new Float64Array(inputs))
  for (let input = 0; input < inputs; input++) {
    const slices = shuffled(runs, random)
    for (let run = 0; run < runs; run++) draws[run]![input] = normalQuantile((slices[run]! + open01(random)) / runs)
  }
  return draws
}

/** The same by plain chance: independent draws, as nature would make them. Shape: runs × inputs */
export function plainDraws(runs: number, inputs: number, seed: number): Float64Array[] {
  const random = seeded(seed)
  return Array.from({ length: runs }, () => Float64Array.from({ length: inputs }, () => normalQuantile(open01(random))))
}
