import { type Area, type CutPiece, type Layers, type Numbered, thick, together } from './cut-piece.ts'

/** Linings and mould as rings about the centre of a ball or a log; the fill takes what they and a hollow leave. */
export function cutRings(diameter: number, { lining, stacked, mould }: Layers, hollow = 0): CutPiece {
  const radius = diameter / 2
  const areas: Area[] = []
  const ring = ({ row, number }: Numbered, outer: number, inner: number, thickness: number | null): void => {
    const figure = { kind: 'ring', x: radius, y: radius, outer, inner: Math.max(0, inner) } as const
    areas.push({ row, number, thickness, figure })
  }
  const walls = mould.filter(({ faces }) => faces.has('curved'))
  const outside = radius + together(walls)
  let outer = outside
  for (const layer of [...walls.toReversed(), ...lining]) {
    ring(layer, outer, outer - thick(layer.row), thick(layer.row))
    outer = Math.max(0, outer - thick(layer.row))
  }
  for (const layer of stacked.slice(0, 1)) ring(layer, outer, Math.min(hollow / 2, outer), null)
  return {
    width: diameter,
    height: diameter,
    broken: false,
    centred: true,
    stacked: false,
    areas,
    bounds: { left: radius - outside, bottom: radius - outside, right: radius + outside, top: radius + outside },
  }
}
