import type { Resistance } from '../boundary/face.ts'
import { type Gap, restConductance } from '../boundary/gap.ts'
import { type HeatNode, type HeldHeat, slicesOf } from '../boundary/held-heat.ts'
import { type Body, endOf, type FaceName } from '../geometry/body.ts'
import type { Wall } from '../materials/wall.ts'

/** A layer on a face of the piece: mould wall, board, cover. */
export interface Sheet {
  readonly wall: Wall
  /** m */
  readonly thickness: number
  /** Closed air between what lies within and this. */
  readonly gap?: Gap
  /** Of its outside, where it isn't that of its material. */
  readonly emissivity?: number
  /** Where the heat that it holds counts: what it is called, and °C when it comes; as the air if left out. */
  readonly holds?: { readonly layer: string; readonly start_C?: number }
}

/** What lies on a face, as the film outside of it sees it. */
export interface Sheath {
  /** Per m² of the piece's own face. */
  readonly resistances: readonly Resistance[]
  readonly held?: HeldHeat
  /** Outermost surface over the piece's own face: above 1 around a round piece. */
  readonly spread: number
}

/** Area of the surface at `distance` m outside a face, over the area of the face itself. */
function spreadAt(body: Body, face: FaceName, distance: number): number {
  const { axis: index, end } = endOf(body, face)!
  // A height that isn't known yet (that of the layers) is the same in both areas.
  const box = {
    low: body.axes.map(({ from = 0 }) => from),
    high: body.axes.map(({ from = 0, length }) => from + (length > 0 ? length : 1)),
  }
  const outward = end === 'high' ? 1 : -1
  const at = box[end][index]!
  return body.coordinates.area(index, at + outward * distance, box) / body.coordinates.area(index, at, box)
}

/** Integral of dx over the spread between two distances, m, by Simpson's rule: ten digits for walls thinner than the piece. */
function path(body: Body, face: FaceName, from: number, to: number): number {
  const panels = 32
  const step = (to - from) / panels
  let sum = 0
  for (let node = 0; node <= panels; node++) {
    const weight = node === 0 || node === panels ? 1 : node % 2 === 1 ? 4 : 2
    sum += weight / spreadAt(body, face, from + node * step)
  }
  return (sum * step) / 3
}

/**
 * Sheets on each other outside a face, inside out, as resistances per m² of the face. Around a round piece each sheet
 * has more area than the one within, as in the logarithmic law of a pipe's wall.
 */
export function sheathe(body: Body, face: FaceName, sheets: readonly Sheet[]): Sheath {
  const resistances: Resistance[] = []
  const nodes: HeatNode[] = []
  /** From the last node so far outward. */
  const between: number[] = [0]
  let gapAt = -1
  let outside = 0
  const cross = (thickness: number, k: number): number => {
    const R = path(body, face, outside, outside + thickness) / k
    outside += thickness
    between[nodes.length] = between[nodes.length]! + R
    return R
  }
  for (const { wall, thickness, gap, holds } of sheets) {
    if (gap !== undefined) {
      // Per m² of the face: the layer is somewhat wider than that around a round piece.
      const widened = spreadAt(body, face, outside + gap.thickness / 2)
      const R = 1 / (widened * restConductance(gap))
      resistances.push({ name: `air under ${wall.title.toLowerCase()}`, R, gap })
      outside += gap.thickness
      gapAt = nodes.length
    }
    if (holds === undefined) {
      resistances.push({ name: wall.title, R: cross(thickness, wall.k) })
      continue
    }
    const slices = slicesOf(thickness, wall.k / (wall.rho * wall.c))
    const half = thickness / slices / 2
    let R = 0
    for (let slice = 0; slice < slices; slice++) {
      const heat = wall.rho * wall.c * 2 * half * spreadAt(body, face, outside + half)
      R += cross(half, wall.k)
      const start = holds.start_C === undefined ? {} : { start_C: holds.start_C }
      nodes.push({ layer: holds.layer, heat, ...start })
      between.push(0)
      R += cross(half, wall.k)
    }
    resistances.push({ name: wall.title, R })
  }
  return {
    resistances,
    spread: sheets.length === 0 ? 1 : spreadAt(body, face, outside),
    ...(nodes.length === 0 ? {} : { held: { nodes, R: between, gapAt } }),
  }
}
