import type { Control } from './control.ts'
import { Cancelled } from './errors.ts'

/*
 * Long computations as parts that don't depend on each other: whoever drives one does the parts of a turn one after
 * the other or side by side, and what comes out is the same.
 */

/** Parts of one turn, what they are for, and the share of the whole that they begin and end at. */
export interface Turn<Part> {
  readonly parts: readonly Part[]
  readonly doing: string
  readonly from: number
  readonly to: number
}

/** Goes on with what came of the parts of each turn, in their order; of a part that was left undone, nothing. */
export type InParts<Part, Done, Result> = Generator<Turn<Part>, Result, readonly (Done | undefined)[]>

/** Does all parts here, one after the other. Throws `Cancelled`, and what a part throws. */
export function doneHere<Part, Done, Result>(
  work: InParts<Part, Done, Result>,
  one: (part: Part, control: Control) => Done,
  { stopped, report }: Control = {},
): Result {
  const quiet: Control = stopped === undefined ? {} : { stopped }
  let next = work.next([])
  while (next.done !== true) {
    const { parts, doing, from, to } = next.value
    next = work.next(
      parts.map((part, index) => {
        if (stopped?.() === true) throw new Cancelled()
        report?.(from + ((to - from) * index) / parts.length, doing)
        return one(part, quiet)
      }),
    )
  }
  return next.value
}
