import type { Point } from './outline.ts'

/** A measure printed beside the drawing, in round steps of the person's unit. */
export interface ScaleBar {
  readonly at: Point
  /** px */
  readonly width: number
  /** mm */
  readonly length: number
  readonly words: string
}

const LONGEST = 120

const steps: Readonly<
  Record<'mm' | 'cm' | 'in', { readonly mm: number; readonly name: string; readonly sizes: readonly number[] }>
> = {
  mm: { mm: 1, name: 'mm', sizes: [1, 5, 10, 25, 50, 100, 250, 500, 1000, 2500] },
  cm: { mm: 10, name: 'cm', sizes: [0.1, 0.5, 1, 2.5, 5, 10, 25, 50, 100, 250] },
  in: { mm: 25.4, name: 'in', sizes: [0.1, 0.25, 0.5, 1, 2, 4, 10, 20, 40, 100] },
}

/** The longest round measure that fits. */
export function scaleBar(scale: number, unit: 'mm' | 'cm' | 'in', at: Point): ScaleBar {
  const { mm, name, sizes } = steps[unit]
  const fits = sizes.filter((size) => size * mm * scale <= LONGEST)
  const size = fits.at(-1) ?? sizes[0] ?? 1
  return { at, width: size * mm * scale, length: size * mm, words: `${size} ${name}` }
}
