import { type Arc, type BandFigure, type Box, type Figure, halfWidthAt, type ShellFigure } from './figures.ts'

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

/** An SVG path for a layer's outline; the hole of a cup or ring by the even-odd rule. */
export function outlinePath(figure: Figure, paper: Paper): string {
  switch (figure.kind) {
    case 'box': {
      const { box } = figure
      const thin = (box.top - box.bottom) * paper.scale < LEAST_PX
      return boxPath(paper, thin ? { ...box, top: box.bottom + LEAST_PX / paper.scale } : box)
    }
    case 'cup':
      return cupPath(figure.outer, atLeast(figure, paper), paper)
    case 'ring': {
      const centre = onPaper(paper, figure.x, figure.y)
      const outer = figure.outer * paper.scale
      if (figure.inner <= 0) return circlePath(centre, outer)
      return `${circlePath(centre, outer)}${circlePath(centre, Math.min(figure.inner * paper.scale, outer - LEAST_PX))}`
    }
    case 'shell':
      return shellPath(figure, paper)
    case 'band':
      return bandPath(figure, paper)
    case 'joined':
      return figure.parts.map((part) => outlinePath(part, paper)).join('')
  }
}

/** Whether a layer is drawn thicker than it is. */
export const drawnThicker = (thickness: number | null, paper: Paper): boolean =>
  thickness !== null && thickness > 0 && thickness * paper.scale < LEAST_PX

/** The inner box of a cup, moved so that every wall which is there is wide enough to be seen. */
function atLeast({ outer, inner }: Extract<Figure, { kind: 'cup' }>, paper: Paper): Box {
  const least = LEAST_PX / paper.scale
  const wall = (size: number): number => (size > 0 ? Math.max(size, least) : 0)
  return {
    left: outer.left + wall(inner.left - outer.left),
    bottom: outer.bottom + wall(inner.bottom - outer.bottom),
    right: outer.right - wall(outer.right - inner.right),
    top: outer.top - wall(outer.top - inner.top),
  }
}

function cupPath(outer: Box, inner: Box, paper: Paper): string {
  const at = (x: number, y: number): string => text(onPaper(paper, x, y))
  const closedTop = outer.top > inner.top
  const open = {
    left: outer.left === inner.left,
    right: outer.right === inner.right,
    bottom: outer.bottom === inner.bottom,
  }
  if (closedTop || open.left || open.right || open.bottom) return wallPaths(outer, inner, paper)
  return (
    `M${at(outer.left, outer.top)}L${at(outer.left, outer.bottom)}L${at(outer.right, outer.bottom)}` +
    `L${at(outer.right, outer.top)}L${at(inner.right, inner.top)}L${at(inner.right, inner.bottom)}` +
    `L${at(inner.left, inner.bottom)}L${at(inner.left, inner.top)}Z`
  )
}

/** Walls that don't join to a cup: each by itself, corners belonging to bottom and top. */
function wallPaths(outer: Box, inner: Box, paper: Paper): string {
  const parts: Box[] = []
  if (inner.bottom > outer.bottom) parts.push({ ...outer, top: inner.bottom })
  if (outer.top > inner.top) parts.push({ ...outer, bottom: inner.top })
  if (inner.left > outer.left) parts.push({ ...inner, left: outer.left, right: inner.left })
  if (outer.right > inner.right) parts.push({ ...inner, left: inner.right, right: outer.right })
  return parts.map((part) => boxPath(paper, part)).join('')
}

/** Points given from an arc's centre, towards its flat side, and the arc from one to the next. */
function pen({ x, y, up }: Arc, paper: Paper) {
  const at = (across: number, along: number): string => text(onPaper(paper, x + across, y + up * along))
  return {
    at,
    /** Onward anticlockwise as seen with the flat side up (1), or back (−1). */
    round(radius: number, way: 1 | -1, across: number, along: number): string {
      const r = round(radius * paper.scale)
      return `A${r} ${r} 0 0 ${way === up ? 0 : 1} ${at(across, along)}`
    },
  }
}

/** From the upper left end along the outer arc to the upper right one, and back along the inner one. */
function shellPath(figure: ShellFigure, paper: Paper): string {
  const { arc, outer, reach, rise } = figure
  const inner = Math.max(0, Math.min(figure.inner, outer - LEAST_PX / paper.scale))
  const { at, round } = pen(arc, paper)
  const side = (radius: number): readonly [number, number] => [radius * Math.sin(reach), -radius * Math.cos(reach)]
  const [ox, oy] = side(outer)
  const [ix, iy] = side(inner)
  return (
    `M${at(-ox, oy + rise)}L${at(-ox, oy)}${round(outer, 1, 0, -outer)}${round(outer, 1, ox, oy)}L${at(ox, oy + rise)}` +
    `L${at(ix, iy + rise)}L${at(ix, iy)}${round(inner, -1, 0, -inner)}${round(inner, -1, -ix, iy)}L${at(-ix, iy + rise)}Z`
  )
}

/** Along the lower level to the right, up the arc, back along the upper level and down the arc at the left. */
function bandPath({ arc, radius, low, high: given }: BandFigure, paper: Paper): string {
  const high = Math.max(given, low + LEAST_PX / paper.scale)
  const { at, round } = pen(arc, paper)
  const [below, above] = [halfWidthAt(radius, low), halfWidthAt(radius, high)]
  const rim = Math.max(low, Math.min(high, 0))
  const bent = low < 0
  const right = bent ? round(radius, 1, halfWidthAt(radius, rim), rim) : ''
  const left = bent ? `L${at(-halfWidthAt(radius, rim), rim)}${round(radius, 1, -below, low)}` : ''
  return `M${at(-below, low)}L${at(below, low)}${right}L${at(above, high)}L${at(-above, high)}${left}Z`
}

function boxPath(paper: Paper, { left, bottom, right, top }: Box): string {
  const a = onPaper(paper, left, bottom)
  const b = onPaper(paper, right, top)
  return `M${text(a)}H${round(b.x)}V${round(b.y)}H${round(a.x)}Z`
}

function circlePath({ x, y }: Point, radius: number): string {
  const r = round(radius)
  return `M${round(x - radius)} ${round(y)}a${r} ${r} 0 1 0 ${round(2 * radius)} 0a${r} ${r} 0 1 0 ${round(-2 * radius)} 0Z`
}

const round = (value: number): number => Number(value.toFixed(2))
const text = ({ x, y }: Point): string => `${round(x)} ${round(y)}`
