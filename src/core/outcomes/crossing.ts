/** Temperatures nearer than this are equal, K. */
export const SAME_K = 1e-6

/** Where a straight line from (`x0`, `y0`) to (`x1`, `y1`) has the value `y`: a moment between two samples, or the like. */
export function along(x0: number, x1: number, y0: number, y1: number, y: number): number {
  return y1 === y0 ? x1 : x0 + ((x1 - x0) * (y - y0)) / (y1 - y0)
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
    const at = T_C[i]! > to ? t[i]! : along(t[i - 1]!, t[i]!, T_C[i - 1]!, T_C[i]!, to)
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
    return Math.max(from, along(t[i - 1]!, t[i]!, T_C[i - 1]!, T_C[i]!, level_C))
  }
  return undefined
}
