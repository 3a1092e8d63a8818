import type { Box, Coordinates } from './coordinates/coordinates.ts'
import type { Layer } from './layer.ts'
import type { MeshAxis } from './mesh-axis.ts'

/*
 * Rooms of air within a piece: where a layer is air there are no cells with heat, but what stands on both sides, or all
 * around, exchanges heat across. A thin layer is many rooms side by side, each with two walls facing each other; a
 * hollow is one room whose walls all see each other.
 */

/** A cell's face towards a room of air. */
export interface RoomWall {
  readonly cell: number
  readonly axis: number
  readonly side: 'low' | 'high'
  /** m² of the modelled body. */
  readonly area: number
  /** From the cell's middle to the face, m. */
  readonly distance: number
}

export interface AirRoom {
  readonly layer: Layer
  readonly walls: readonly RoomWall[]
  /** Of a layer between two walls, the one on the low side first, m; absent in a hollow. */
  readonly thickness?: number
  /** Whether a layer lies level, the low side of the stack axis on one side of it; otherwise it stands upright. */
  readonly level: boolean
  /** Height of an upright layer or of a hollow, m. */
  readonly height: number
}

/** A fill of air up to this thickness is a layer between two faces even where it has walls at its sides, m. */
export const THICKEST_GAP = 0.025

/** What the rooms are found in. */
export interface RoomGrid {
  readonly coordinates: Coordinates
  readonly axes: readonly MeshAxis[]
  readonly n: readonly [number, number, number]
  readonly layers: readonly Layer[]
  /** Index of the layer of air that a cell belongs to, or −1. Shape: cells */
  readonly airOf: Int16Array
  /** Whether something is in a cell. */
  readonly there: (cell: number) => boolean
  readonly indicesOf: (cell: number) => readonly [number, number, number]
  readonly boxOf: (at: readonly number[]) => Box
  readonly stackAxis: number | null
}

interface Place {
  readonly grid: RoomGrid
  readonly strides: readonly number[]
}

function wallOf({ grid }: Place, cell: number, axis: number, side: 'low' | 'high'): RoomWall {
  const at = grid.indicesOf(cell)
  const { borders, middles } = grid.axes[axis]!
  const i = at[axis]!
  const box = grid.boxOf(at)
  const border = borders[side === 'low' ? i : i + 1]!
  const [from, to] = side === 'low' ? [border, middles[i]!] : [middles[i]!, border]
  return {
    cell,
    axis,
    side,
    area: grid.coordinates.area(axis, border, box),
    distance: grid.coordinates.distance(axis, from, to, box),
  }
}

/** Runs of air along an axis, no thicker than the layer, with something at both ends. */
function gapsAlong(place: Place, layer: number, axis: number, thickness: number, height: number): AirRoom[] {
  const { grid, strides } = place
  const stride = strides[axis]!
  const rooms: AirRoom[] = []
  for (let cell = 0; cell < grid.airOf.length; cell++) {
    const at = grid.indicesOf(cell)
    if (grid.airOf[cell] !== layer || at[axis] === 0 || !grid.there(cell - stride)) continue
    let last = cell
    const end = grid.n[axis as 0 | 1 | 2] - 1
    let i = at[axis]!
    while (i < end && grid.airOf[last + stride] === layer) {
      last += stride
      i++
    }
    if (i === end || !grid.there(last + stride)) continue
    const { borders } = grid.axes[axis]!
    const across = grid.coordinates.distance(axis, borders[at[axis]!]!, borders[i + 1]!, grid.boxOf(at))
    if (across > thickness * (1 + 1e-6)) continue
    rooms.push({
      layer: grid.layers[layer]!,
      walls: [wallOf(place, cell - stride, axis, 'high'), wallOf(place, last + stride, axis, 'low')],
      thickness: across,
      level: axis === grid.stackAxis,
      height,
    })
  }
  return rooms
}

/** Every face of something towards the air of a layer. */
function wallsAround(place: Place, layer: number): RoomWall[] {
  const { grid, strides } = place
  const walls: RoomWall[] = []
  for (let cell = 0; cell < grid.airOf.length; cell++) {
    if (grid.airOf[cell] !== layer) continue
    const at = grid.indicesOf(cell)
    for (const [axis, { middles }] of grid.axes.entries()) {
      const stride = strides[axis]!
      if (at[axis]! > 0 && grid.there(cell - stride)) walls.push(wallOf(place, cell - stride, axis, 'high'))
      if (at[axis]! < middles.length - 1 && grid.there(cell + stride))
        walls.push(wallOf(place, cell + stride, axis, 'low'))
    }
  }
  return walls
}

/** The rooms of every layer of air. */
export function findRooms(grid: RoomGrid, height: number): AirRoom[] {
  const place: Place = { grid, strides: [1, grid.n[0], grid.n[0] * grid.n[1]] }
  return grid.layers.flatMap((layer, index): AirRoom[] => {
    if (layer.material.empty !== true || !grid.airOf.includes(index)) return []
    const { thickness, name } = layer
    const around = (): AirRoom[] => {
      const walls = wallsAround(place, index)
      return walls.length === 0 ? [] : [{ layer, walls, level: false, height }]
    }
    if (thickness === null) return around()
    if (name.startsWith('lining')) {
      return grid.axes.flatMap((_, axis) => gapsAlong(place, index, axis, thickness, height))
    }
    const { stackAxis } = grid
    if (stackAxis === null) return around()
    const walls = wallsAround(place, index)
    if (thickness > THICKEST_GAP && walls.some(({ axis }) => axis !== stackAxis))
      return [{ layer, walls, level: false, height: thickness }]
    return gapsAlong(place, index, stackAxis, thickness, height)
  })
}
