/** A quantity over the time of a stage: its value, and the moments at which it bends or jumps. */
export interface Profile {
  /** Value at `t` seconds after the stage's start. At a jump: the value after it. */
  at(t: number): number
  /** Seconds after the stage's start at which the solver must begin a new step; rising. */
  readonly breaks: readonly number[]
  /** True where the value between breaks is neither constant nor straight: steps are then kept short. */
  readonly curved: boolean
  /** Lowest and highest value ever taken in the stage, for the range of the tables. */
  readonly range: readonly [number, number]
}

/** The same value all the time. */
export function steady(value: number): Profile {
  return { at: () => value, breaks: [], curved: false, range: [value, value] }
}

/**
 * Straight lines between points; constant before the first and after the last. Two points at one time make a jump.
 * @param t  seconds, never falling. Shape: points
 * @param value  Shape: points
 */
export function straight(t: readonly number[], value: readonly number[]): Profile {
  const last = t.length - 1
  return {
    at(time) {
      if (time < t[0]!) return value[0]!
      if (time >= t[last]!) return value[last]!
      let low = 0
      let high = last
      while (high - low > 1) {
        const middle = (low + high) >> 1
        if (t[middle]! <= time) low = middle
        else high = middle
      }
      const span = t[high]! - t[low]!
      return span === 0 ? value[high]! : value[low]! + ((value[high]! - value[low]!) * (time - t[low]!)) / span
    },
    breaks: [...new Set(t.filter((time) => time > 0))],
    curved: false,
    range: [Math.min(...value), Math.max(...value)],
  }
}

/** A formula of time, with the range that it stays in. */
export function formula(at: (t: number) => number, range: readonly [number, number]): Profile {
  return { at, breaks: [], curved: true, range }
}
