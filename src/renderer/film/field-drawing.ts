import type { SectionGrid } from '../../core/forecast-types.ts'
import { type ContourLine, contourLines, type Region, regionAbove } from './contours.ts'
import { type Extent, nodeAt, type Point } from './section-shape.ts'
import type { StepScale } from './step-scale.ts'

/** How metres of the section lie on the screen: one scale in both directions, y upward in metres. */
export interface Placement {
  readonly pixelsPerMetre: number
  readonly left: number
  readonly top: number
  readonly extent: Extent
}

/** The section as large as fits a box, in its middle. */
export function placeIn(extent: Extent, box: { left: number; top: number; width: number; height: number }): Placement {
  const pixelsPerMetre = Math.min(box.width / extent.width, box.height / extent.height)
  return {
    pixelsPerMetre,
    left: box.left + (box.width - extent.width * pixelsPerMetre) / 2,
    top: box.top + (box.height - extent.height * pixelsPerMetre) / 2,
    extent,
  }
}

export function onScreen({ pixelsPerMetre, left, top, extent }: Placement, point: Point): Point {
  return {
    x: left + (point.x - extent.left) * pixelsPerMetre,
    y: top + (extent.bottom + extent.height - point.y) * pixelsPerMetre,
  }
}

/** A field as filled steps, m. */
export interface FilledSteps {
  /** From the lowest step up; each lies on those before it. The first is the whole section. */
  readonly fills: readonly { readonly step: number; readonly region: Region }[]
  /** Where nothing is, within the rim: a ring's hole. */
  readonly empty: Region
}

/** The steps with the lines between them, m. */
export interface FieldDrawing extends FilledSteps {
  readonly lines: readonly { readonly value: number; readonly step: number; readonly lines: readonly ContourLine[] }[]
}

const innerSteps = (scale: StepScale) => scale.edges.slice(1, -1).map((value, index) => ({ value, step: index + 1 }))

/** The steps alone, for a small picture. */
export const fillSteps = (grid: SectionGrid, nodes: Float64Array, scale: StepScale): FilledSteps => ({
  fills: [
    { step: 0, region: rimRegion(grid) },
    ...innerSteps(scale).map(({ value, step }) => ({ step, region: regionAbove(grid, nodes, value) })),
  ],
  empty: emptyRegion(grid),
})

export const drawField = (grid: SectionGrid, nodes: Float64Array, scale: StepScale): FieldDrawing => ({
  ...fillSteps(grid, nodes, scale),
  lines: innerSteps(scale).map(({ value, step }) => ({ value, step, lines: contourLines(grid, nodes, value) })),
})

/** The cells in which nothing is. */
export function emptyRegion(grid: SectionGrid): Region {
  const { nu, nv, layer } = grid
  const cells: Point[][] = []
  for (let iv = 0; iv < nv; iv++)
    for (let iu = 0; iu < nu; iu++)
      if (layer[iv * nu + iu] === -1)
        cells.push([
          nodeAt(grid, iu, iv),
          nodeAt(grid, iu + 1, iv),
          nodeAt(grid, iu + 1, iv + 1),
          nodeAt(grid, iu, iv + 1),
        ])
  return cells
}

/** The rim of the whole grid as one region. */
export function rimRegion(grid: SectionGrid): Region {
  const { nu, nv, x_m, y_m } = grid
  const ring: Point[] = []
  const add = (iu: number, iv: number): void => {
    const index = iv * (nu + 1) + iu
    ring.push({ x: x_m[index]!, y: y_m[index]! })
  }
  for (let iu = 0; iu < nu; iu++) add(iu, 0)
  for (let iv = 0; iv < nv; iv++) add(nu, iv)
  for (let iu = nu; iu > 0; iu--) add(iu, nv)
  for (let iv = nv; iv > 0; iv--) add(0, iv)
  return [ring]
}
