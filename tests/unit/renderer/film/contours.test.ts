import { describe, expect, it } from 'vitest'

import type { SectionGrid } from '../../../../src/core/forecast-types.ts'
import { contourLines, lineLength, regionAbove } from '../../../../src/renderer/film/contours.ts'
import { emptyRegion } from '../../../../src/renderer/film/field-drawing.ts'
import { nodeField, nodeWeights } from '../../../../src/renderer/film/node-field.ts'
import { outlineEdges, type Point, pointAt } from '../../../../src/renderer/film/section-shape.ts'

/** Grid of a map (u, v) → (x, y), u and v from 0 to 1. */
function gridOf(nu: number, nv: number, map: (u: number, v: number) => readonly [number, number]): SectionGrid {
  const x_m = new Float64Array((nu + 1) * (nv + 1))
  const y_m = new Float64Array((nu + 1) * (nv + 1))
  for (let iv = 0; iv <= nv; iv++) {
    for (let iu = 0; iu <= nu; iu++) {
      const [x, y] = map(iu / nu, iv / nv)
      x_m[iv * (nu + 1) + iu] = x
      y_m[iv * (nu + 1) + iu] = y
    }
  }
  return { nu, nv, x_m, y_m, layer: new Int16Array(nu * nv), width_m: 1, height_m: 1 }
}

const square = gridOf(24, 16, (u, v) => [u * u, v])
const disc = gridOf(20, 64, (u, v) => [u * Math.cos(2 * Math.PI * v), u * Math.sin(2 * Math.PI * v)])

const cellsOf = (grid: SectionGrid, field: (x: number, y: number) => number): Float64Array =>
  new Float64Array(grid.nu * grid.nv).map((_, cell) => {
    const centre = pointAt(grid, (cell % grid.nu) + 0.5, Math.floor(cell / grid.nu) + 0.5)
    return field(centre.x, centre.y)
  })

const area = (ring: readonly Point[]): number =>
  ring.reduce((sum, point, index) => {
    const next = ring[(index + 1) % ring.length]!
    return sum + (point.x * next.y - next.x * point.y) / 2
  }, 0)

describe('nodeField', () => {
  it('carries a plane to every node, rim and corners too', () => {
    const nodes = nodeField(
      nodeWeights(square),
      cellsOf(square, (x, y) => 3 * x - 2 * y),
    )
    nodes.forEach((value, index) => {
      // 1e-12: the plane is linear in x and y, and so are the weights.
      expect(value).toBeCloseTo(3 * square.x_m[index]! - 2 * square.y_m[index]!, 12)
    })
  })

  it('takes a strip of one cell as it is', () => {
    const strip = gridOf(1, 4, (u, v) => [u, v])
    const nodes = nodeField(nodeWeights(strip), [1, 2, 3, 4])
    expect([...nodes]).toEqual([0.5, 0.5, 1.5, 1.5, 2.5, 2.5, 3.5, 3.5, 4.5, 4.5])
  })
})

describe('contours', () => {
  it('draws a straight line where a plane has its value, from rim to rim', () => {
    const nodes = nodeField(
      nodeWeights(square),
      cellsOf(square, (_x, y) => y),
    )
    const lines = contourLines(square, nodes, 0.37)
    expect(lines).toHaveLength(1)
    expect(lineLength(lines[0]!)).toBeCloseTo(1, 9)
    for (const point of lines[0]!) expect(point.y).toBeCloseTo(0.37, 9)
  })

  it('fills exactly what lies above, to the rim and into the corners', () => {
    const nodes = nodeField(
      nodeWeights(square),
      cellsOf(square, (_x, y) => y),
    )
    const region = regionAbove(square, nodes, 0.37)
    expect(region).toHaveLength(1)
    expect(Math.abs(area(region[0]!))).toBeCloseTo(0.63, 9)
  })

  it('finds the circle of a parabola on a round section', () => {
    const nodes = nodeField(
      nodeWeights(disc),
      cellsOf(disc, (x, y) => 1 - x * x - y * y),
    )
    const lines = contourLines(disc, nodes, 0.75)
    const length = lines.reduce((sum, line) => sum + lineLength(line), 0)
    // Radius one half. 1 %: chords of 64 sectors and straight lines between 20 rings.
    expect(Math.abs(length / Math.PI - 1)).toBeLessThan(0.01)
    for (const point of lines.flat()) expect(Math.abs(Math.hypot(point.x, point.y) - 0.5)).toBeLessThan(0.005)
  })

  it('has no line where the value is nowhere', () => {
    const nodes = nodeField(
      nodeWeights(square),
      cellsOf(square, () => 4),
    )
    expect(contourLines(square, nodes, 5)).toEqual([])
    expect(contourLines(square, nodes, 3)).toEqual([])
  })
})

describe('outlineEdges', () => {
  const total = (grid: SectionGrid): number =>
    outlineEdges(grid).reduce((sum, { from, to }) => sum + Math.hypot(to.x - from.x, to.y - from.y), 0)

  it('goes once around a square', () => {
    expect(total(square)).toBeCloseTo(4, 12)
  })

  it('leaves out pole and seam of a round section', () => {
    // Perimeter of the regular polygon of 64 sides.
    expect(total(disc)).toBeCloseTo(64 * 2 * Math.sin(Math.PI / 64), 9)
  })
})

describe('a section with a hole', () => {
  const whole = gridOf(9, 8, (u, v) => [u, v])
  // The middle third is the hole of a ring.
  const layer = whole.layer.map((_, cell) => (Math.floor((cell % 9) / 3) === 1 ? -1 : 0))
  const holed = { ...whole, layer }
  const nodes = nodeField(
    nodeWeights(holed),
    cellsOf(holed, (_, y) => y),
  )

  it('draws no line where nothing is', () => {
    const lines = contourLines(holed, nodes, 0.5)
    expect(lines.length).toBe(2)
    for (const line of lines) for (const { x } of line) expect(x < 1 / 3 + 1e-6 || x > 2 / 3 - 1e-6).toBe(true)
    expect(contourLines(whole, nodes, 0.5)).toHaveLength(1)
  })

  it('knows the hole as a region', () => {
    const hole = emptyRegion(holed)
    expect(hole.reduce((sum, ring) => sum + Math.abs(area(ring)), 0)).toBeCloseTo(1 / 3, 9)
    expect(emptyRegion(whole)).toEqual([])
  })
})
