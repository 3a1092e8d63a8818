import type { Figure } from './figures.ts'

/** A point on the paper, px from its upper left corner. */
export interface Point {
  readonly x: number
  readonly y: number
}

/** Where the piece lies on the paper: one scale for both directions. */
export interface Paper {
  /** px per mm */
  readonly scale: number
  /** px of the piece's lower left corner. */
  readonly left: number
  readonly base: number
}

/** Thinner layers are drawn this thick, px. */
export const LEAST_PX = 3

export const onPaper = (paper: Paper, x_mm: number, y_mm: number): Point => ({
  x: paper.left + x_mm * paper.scale,
  y: paper.base - y_mm * paper.scale,
})

/** An SVG path for a layer's outline; holes by the even-odd rule. */
export const outlinePath = (figure: Figure, paper: Paper): string =>
  figure
    .loops(LEAST_PX / paper.scale)
    .map((loop) => `M${loop.map(([x, y]) => text(onPaper(paper, x, y))).join('L')}Z`)
    .join('')

/** Whether a layer is drawn thicker than it is. */
export const drawnThicker = (thickness: number | null, paper: Paper): boolean =>
  thickness !== null && thickness > 0 && thickness * paper.scale < LEAST_PX

const round = (value: number): number => Number(value.toFixed(2))
const text = ({ x, y }: Point): string => `${round(x)} ${round(y)}`
