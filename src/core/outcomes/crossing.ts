/** Temperatures nearer than this are equal, K. */
export const SAME_K = 1e-6

/** Moment between two samples at which a straight line has a value. */
export function momentBetween(t0: number, t1: number, value0: number, value1: number, value: number): number {
  return value1 === value0 ? t1 : t0 + ((t1 - t0) * (value - value0)) / (value1 - value0)
}

/** A passage of a curve through a level. */
export interface Passage {
  readonly at: number
  /** The last sample before it. */
  readonly before: number
}

/** Every moment at which a curve comes from above a level to it or below. Shape of both: samples */
export function fallsTo(t: ArrayLike<number>, T_C: ArrayLike<number>, level_C: number): Passage[] {
  const passages: Passage[] = []
  for (let i = 1; i < t.length; i++) {
    if (!(T_C[i - 1]! > level_C + SAME_K) || !(T_C[i]! <= level_C + SAME_K)) continue
    const to = Math.min(level_C, T_C[i - 1]!)
    const at = T_C[i]! > to ? t[i]! : momentBetween(t[i - 1]!, t[i]!, T_C[i - 1]!, T_C[i]!, to)
    passages.push({ at, before: i - 1 })
  }
  return passages
}

/** The first moment, not before `from`, at which a curve is above a level; undefined when it never is. */
export function firstAbove(
  t: ArrayLike<number>,
  T_C: ArrayLike<number>,
  level_C: number,
  from = Number.NEGATIVE_INFINITY,
): number | undefined {
  for (let i = 0; i < t.length; i++) {
    if (!(T_C[i]! > level_C + SAME_K) || t[i]! < from) continue
    if (i === 0 || !(T_C[i - 1]! < level_C)) return t[i]!
    return Math.max(from, momentBetween(t[i - 1]!, t[i]!, T_C[i - 1]!, T_C[i]!, level_C))
  }
  return undefined
}
