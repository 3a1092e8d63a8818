import { type Area, type CutPiece, type Layers, type MouldWall, thick, together } from './cut-piece.ts'
import { type Box, type Figure, mirrored, type PlainFigure } from './figures.ts'

/** A sheet is drawn this many times as wide as it is high; it has no width of its own. */
const SHEET_ASPECT = 2.6

/** Faces in which a mould wall shows at the left and at the right of what is drawn. */
interface Ends {
  readonly left: readonly string[]
  readonly right: readonly string[]
}

const bothSides: Ends = { left: ['sides', 'left'], right: ['sides', 'right'] }
const ringSides: Ends = { left: ['inner'], right: ['sides'] }

/** Layers on each other between upright walls, lined at both sides and below. */
export function cutStack(width: number, layers: Layers): CutPiece {
  const whole: Box = { left: 0, bottom: together(layers.beneath), right: width, top: heightOf(layers) }
  const walls = wallsAround(whole, layers.mould, bothSides)
  return {
    width,
    height: whole.top,
    broken: false,
    centred: true,
    stacked: true,
    areas: [...walls.areas, ...within(whole, layers)],
    bounds: { ...walls.bounds, bottom: Math.min(0, walls.bounds.bottom) },
  }
}

/** Lined below only, and going on at both ends. */
export function cutSheet(layers: Layers): CutPiece {
  const height = heightOf(layers)
  const whole: Box = { left: 0, bottom: together(layers.beneath), right: height * SHEET_ASPECT, top: height }
  const walls = wallsAround(whole, layers.mould, bothSides)
  return {
    width: whole.right,
    height,
    broken: true,
    centred: false,
    stacked: true,
    areas: [
      ...walls.areas,
      ...under(whole, layers),
      ...onEachOther(whole, whole.bottom, [...layers.lining, ...layers.stacked]),
    ],
    bounds: { ...walls.bounds, bottom: Math.min(0, walls.bounds.bottom) },
  }
}

/** The right half of a ring, and the same once more at the left of its axis. */
export function cutHoled(outer: number, hole: number, layers: Layers): CutPiece {
  const axis = outer / 2
  const half: Box = {
    left: axis + Math.min(hole, outer) / 2,
    bottom: together(layers.beneath),
    right: outer,
    top: heightOf(layers),
  }
  const walls = wallsAround(half, layers.mould, ringSides)
  const { bounds } = walls
  return {
    width: outer,
    height: half.top,
    broken: false,
    centred: true,
    stacked: true,
    areas: [...walls.areas, ...within(half, layers)].map((area) => ({ ...area, figure: twice(area.figure, axis) })),
    bounds: {
      ...bounds,
      left: Math.min(bounds.left, 2 * axis - bounds.right),
      bottom: Math.min(0, bounds.bottom),
    },
  }
}

/** The mass in its vessel: what the volume and the diameter make it. */
export function cutVessel(width: number, height: number, { stacked, mould }: Layers): CutPiece {
  const whole: Box = { left: 0, bottom: 0, right: width, top: height }
  const walls = wallsAround(whole, mould, bothSides)
  const areas = stacked.slice(0, 1).map((layer): Area => ({ ...layer, thickness: null, figure: boxed(whole) }))
  return {
    width,
    height,
    broken: false,
    centred: true,
    stacked: true,
    areas: [...walls.areas, ...areas],
    bounds: walls.bounds,
  }
}

const heightOf = ({ lining, stacked, beneath }: Layers): number =>
  together(lining) + together(stacked) + together(beneath)

const boxed = (box: Box): PlainFigure => ({ kind: 'box', box })

/** Cups for the linings, outside in, and what lies in them. */
function within(whole: Box, layers: Layers): Area[] {
  const { lining, stacked } = layers
  const areas = under(whole, layers)
  let outer = whole
  for (const layer of lining) {
    const t = thick(layer.row)
    const inner: Box = { ...outer, left: outer.left + t, bottom: outer.bottom + t, right: outer.right - t }
    areas.push({ ...layer, figure: { kind: 'cup', outer, inner }, thickness: t })
    outer = inner
  }
  return [...areas, ...onEachOther(outer, outer.bottom, stacked)]
}

/** Below everything, the last poured lowest. */
const under = (whole: Box, { beneath }: Layers): Area[] => onEachOther(whole, 0, beneath.toReversed())

function onEachOther(room: Box, from: number, layers: Layers['stacked']): Area[] {
  let bottom = from
  return layers.map((layer) => {
    const top = bottom + thick(layer.row)
    const figure = boxed({ ...room, bottom, top })
    bottom = top
    return { ...layer, figure, thickness: thick(layer.row) }
  })
}

function wallsAround(whole: Box, mould: readonly MouldWall[], ends: Ends): { areas: Area[]; bounds: Box } {
  const areas: Area[] = []
  let inner = whole
  for (const { row, number, faces } of mould) {
    const t = thick(row)
    const at = (names: readonly string[]): number => (names.some((name) => faces.has(name)) ? t : 0)
    const outer: Box = {
      left: inner.left - at(ends.left),
      bottom: inner.bottom - at(['bottom']),
      right: inner.right + at(ends.right),
      top: inner.top + at(['top']),
    }
    areas.push({ row, number, figure: { kind: 'cup', outer, inner }, thickness: t })
    inner = outer
  }
  return { areas: areas.toReversed(), bounds: inner }
}

/** The figure and its image at the other side of the axis, the image first. */
function twice(figure: Figure, axis: number): Figure {
  switch (figure.kind) {
    case 'box':
      return { kind: 'joined', parts: [boxed(mirrored(figure.box, axis)), figure] }
    case 'cup': {
      const image = { outer: mirrored(figure.outer, axis), inner: mirrored(figure.inner, axis) }
      return { kind: 'joined', parts: [{ kind: 'cup', ...image }, figure] }
    }
    default:
      throw new Error(`a ${figure.kind} has no image in a ring`)
  }
}
