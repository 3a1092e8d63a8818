import type { Body } from '../geometry/body.ts'
import type { Keep } from '../journey/job.ts'
import { fromMm } from '../units.ts'

/** How a plan wants the piece cut. */
export interface CutWish {
  readonly across?: number
  readonly along?: number
  readonly wedges?: number
  readonly slice_mm?: number
}

/** What is kept of each axis, how many pieces there are, and the ways that the body doesn't know. */
export interface Cutting {
  readonly keeps: readonly Keep[]
  readonly pieces: number
  readonly cannot: readonly string[]
}

/**
 * One of `count` equal stretches: the middle one, or the one just above the middle where there is none and the two
 * halves of the axis may differ.
 */
function stretch(axis: number, count: number, alike: boolean): Keep {
  const half = 0.5 / count
  if (count % 2 === 1 || alike) return { axis, low: 0.5 - half, high: 0.5 + half }
  return { axis, low: 0.5, high: 0.5 + 2 * half }
}

/** The piece that is followed when a body is cut: one from the middle, as it lags most. */
export function keepsOf(body: Body, { across, along, wedges, slice_mm }: CutWish): Cutting {
  const keeps: Keep[] = []
  const cannot: string[] = []
  let pieces = 1
  const divide = (way: 'across' | 'along' | 'wedges', count: number | undefined): void => {
    if (count === undefined) return
    const axis = body.mixed === true ? -1 : body.axes.findIndex(({ cuts }) => cuts === way)
    if (axis < 0) {
      cannot.push(way)
      return
    }
    if (count < 2) return
    keeps.push(stretch(axis, count, body.axes[axis]!.idle === true))
    pieces *= count
  }
  divide('across', across)
  divide('along', along)
  divide('wedges', wedges)
  if (slice_mm !== undefined) {
    const axis = body.axes.findIndex(({ cuts }) => cuts === 'along')
    const share = axis < 0 ? 1 : fromMm(slice_mm) / body.axes[axis]!.length
    if (axis < 0 || share >= 1) cannot.push('slice_mm')
    else {
      keeps.push({ axis, low: 0.5 - share / 2, high: 0.5 + share / 2 })
      pieces *= 1 / share
    }
  }
  return { keeps, pieces, cannot }
}
