import { type Area, type CutPiece, type Layers, thick, together } from './cut-piece.ts'
import type { Box, PlainFigure } from './figures.ts'

interface Tier {
  readonly diameter_mm: number
  readonly height_mm?: number
}

/** Layers through all tiers from the bottom up; what is poured underneath lies below the lowest tier. */
export function cutTiers(tiers: readonly Tier[], { stacked, beneath }: Layers): CutPiece {
  const width = Math.max(...tiers.map(({ diameter_mm }) => diameter_mm))
  const base = together(beneath)
  const height = base + together(stacked)
  const rooms = roomsOf(tiers, width, base)
  const areas: Area[] = []
  let low = 0
  for (const layer of [...beneath.toReversed(), ...stacked]) {
    const high = low + thick(layer.row)
    const [first, ...others] = rooms.flatMap((room): PlainFigure[] => {
      const box = { ...room, bottom: Math.max(room.bottom, low), top: Math.min(room.top, high) }
      return box.bottom < box.top ? [{ kind: 'box', box }] : []
    })
    if (first !== undefined)
      areas.push({
        ...layer,
        thickness: thick(layer.row),
        figure: others.length === 0 ? first : { kind: 'joined', parts: [first, ...others] },
      })
    low = high
  }
  const bounds: Box = { left: 0, bottom: 0, right: width, top: height }
  return { width, height, broken: false, centred: true, stacked: true, areas, bounds }
}

/** Where each tier stands; the lowest and the uppermost go on without end. */
function roomsOf(tiers: readonly Tier[], width: number, base: number): Box[] {
  let bottom = base
  return tiers.map(({ diameter_mm, height_mm = 0 }, index) => {
    const from = index === 0 ? Number.NEGATIVE_INFINITY : bottom
    bottom += height_mm
    return {
      left: (width - diameter_mm) / 2,
      right: (width + diameter_mm) / 2,
      bottom: from,
      top: index === tiers.length - 1 ? Number.POSITIVE_INFINITY : bottom,
    }
  })
}
