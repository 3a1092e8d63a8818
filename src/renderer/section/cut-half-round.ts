import { type Area, type CutPiece, type Layers, type MouldWall, type Numbered, thick, together } from './cut-piece.ts'
import type { Arc, Box, PlainFigure } from './figures.ts'

/** What is drawn for a layer without room. */
const LEAST = 1e-3

/** Half disc: linings along the arc, layers level by level from its crown, upright walls where they rise above it. */
export function cutHalfRound(radius: number, up: 1 | -1, { lining, mould, ...layers }: Layers): CutPiece {
  // only the flat side ever takes a pour, whichever way the piece lies
  const stacked = [...layers.stacked, ...layers.beneath]
  const inner = Math.max(0, radius - together(lining))
  const depths = depthsOf(stacked, inner)
  const depth = depths.reduce((sum, one) => sum + one, 0)
  const level = depth - inner
  const reach = level >= 0 || inner === 0 ? Math.PI / 2 : Math.acos(Math.min(1, -level / inner))
  const rise = Math.max(0, level)
  const width = 2 * radius * Math.sin(reach)
  const height = radius + level
  const arc: Arc = { x: width / 2, y: up === 1 ? radius : height - radius, up }

  const areas: Area[] = []
  let outer = radius
  for (const layer of lining) {
    const within = Math.max(0, outer - thick(layer.row))
    areas.push({
      ...layer,
      thickness: thick(layer.row),
      figure: { kind: 'shell', arc, outer, inner: within, reach, rise },
    })
    outer = within
  }
  let low = -inner
  for (const [index, layer] of stacked.entries()) {
    const high = low + depths[index]!
    areas.push({
      ...layer,
      thickness: layer.row.thickness_mm ?? null,
      figure: { kind: 'band', arc, radius: inner, low, high },
    })
    low = high
  }
  const walls = wallsAlong({ arc, radius, reach, rise, flat: arc.y + up * level }, mould)
  const bounds = boundsOf(arc, walls.outer * Math.sin(reach), walls.outer, walls.flat)
  return { width, height, broken: false, centred: true, stacked: true, areas: [...walls.areas, ...areas], bounds }
}

/** Thicknesses, bottom first; one that isn't given takes what the others leave up to the rim. */
function depthsOf(stacked: readonly Numbered[], radius: number): number[] {
  const rest = Math.max(LEAST, radius - together(stacked))
  return stacked.map(({ row }) => row.thickness_mm ?? rest)
}

interface Within {
  readonly arc: Arc
  readonly radius: number
  readonly reach: number
  readonly rise: number
  /** Height of the flat side. */
  readonly flat: number
}

/** Mould walls along the arc, as plates on the flat side, or both. */
function wallsAlong(within: Within, mould: readonly MouldWall[]): { areas: Area[]; outer: number; flat: number } {
  const { arc, reach, rise } = within
  const areas: Area[] = []
  let outer = within.radius
  let flat = within.flat
  for (const { row, number, faces } of mould) {
    const t = thick(row)
    const parts: PlainFigure[] = []
    if (faces.has('curved')) {
      parts.push({ kind: 'shell', arc, outer: outer + t, inner: outer, reach, rise })
      outer += t
    }
    if (faces.has(arc.up === 1 ? 'top' : 'bottom')) {
      parts.push({ kind: 'box', box: plate(arc, within.radius * Math.sin(reach), flat, t) })
      flat += arc.up * t
    }
    const [first, ...others] = parts
    if (first === undefined) continue
    areas.push({ row, number, thickness: t, figure: { kind: 'joined', parts: [first, ...others] } })
  }
  return { areas: areas.toReversed(), outer, flat }
}

function plate({ x, up }: Arc, half: number, flat: number, thickness: number): Box {
  const [bottom, top] = up === 1 ? [flat, flat + thickness] : [flat - thickness, flat]
  return { left: x - half, right: x + half, bottom, top }
}

function boundsOf({ x, y, up }: Arc, half: number, outer: number, flat: number): Box {
  const crown = y - up * outer
  return { left: x - half, right: x + half, bottom: Math.min(crown, flat), top: Math.max(crown, flat) }
}
