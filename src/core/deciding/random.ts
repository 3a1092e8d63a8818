/*
 * Numbers that look like chance and follow from a seed alone: xoshiro128** of Blackman and Vigna, its state filled
 * from the seed by steps of a Weyl sequence that are mixed (the finaliser of MurmurHash3). Four words of 32 bits, so
 * that any engine gives the same.
 */

/** The next whole number from 0 to 2³² − 1. */
export type Random = () => number

const rotated = (word: number, by: number): number => (word << by) | (word >>> (32 - by))

/** The generator with a given state, four words of which one at least isn't 0. */
export function randomOf(state: readonly [number, number, number, number]): Random {
  let [a, b, c, d] = state
  return () => {
    const result = Math.imul(rotated(Math.imul(b, 5), 7), 9) >>> 0
    const shifted = b << 9
    c ^= a
    d ^= b
    b ^= c
    a ^= d
    c ^= shifted
    d = rotated(d, 11)
    return result
  }
}

/** The generator that a seed starts. */
export function seeded(seed: number): Random {
  let weyl = seed | 0
  const next = (): number => {
    weyl = (weyl + 0x9e3779b9) | 0
    let mixed = Math.imul(weyl ^ (weyl >>> 16), 0x85ebca6b)
    mixed = Math.imul(mixed ^ (mixed >>> 13), 0xc2b2ae35)
    return (mixed ^ (mixed >>> 16)) >>> 0
  }
  return randomOf([next(), next(), next(), next() | 1])
}

/** A number above 0 and below 1. */
export const open01 = (random: Random): number => (random() + 0.5) / 2 ** 32

/** 0 to count − 1 in an order by chance. */
export function shuffled(count: number, random: Random): Uint32Array {
  const order = Uint32Array.from({ length: count }, (_, index) => index)
  for (let last = count - 1; last > 0; last--) {
    const other = Math.floor(open01(random) * (last + 1))
    const kept = order[last]!
    order[last] = order[other]!
    order[other] = kept
  }
  return order
}
