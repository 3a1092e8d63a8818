import type { CardCurves } from '../../core/materials/card.ts'
import type { PropertyLine } from './property-plots.ts'

/** Where a curve's name stands: beside it, at the height given as a share of its largest value. */
export interface NamePlace {
  readonly line: PropertyLine
  readonly T_C: number
  readonly value: number
  readonly side: 'left' | 'right'
}

/** Heights at which names of several falling curves stand, so that they don't meet. */
const heights = [0.3, 0.5, 0.14]

/** Places for the names of the curves of one plot; a plot of one curve has its title instead. */
export function namePlaces(lines: readonly PropertyLine[], curves: CardCurves): readonly NamePlace[] {
  return lines.map((line, index) => {
    const values = curves[line.key] ?? []
    const wanted = Math.max(...values, 0) * (heights[index] ?? 0.3)
    const at = values.findLastIndex((value) => value >= wanted)
    const place = Math.max(at, 0)
    // below the first curve, which falls last where it is steepest, there is room on the left
    return { line, T_C: curves.T_C[place] ?? 0, value: values[place] ?? 0, side: index === 0 ? 'left' : 'right' }
  })
}
