import { airAt, moistAirDensity } from '../boundary/air.ts'
import { type Crossing, gapConductance } from '../boundary/gap.ts'
import { nusseltVerticalPlate } from '../boundary/natural/vertical-plate.ts'
import { effectiveEmissivity, radiativeFilm } from '../boundary/radiation.ts'
import { densityContrast, filmOf, rayleigh } from '../boundary/similarity.ts'
import type { AirRoom } from '../geometry/air-rooms.ts'
import type { Mesh } from '../geometry/mesh.ts'

/*
 * Heat across rooms of air within a piece. The air holds no heat: what its walls give and take adds up to nothing at
 * every moment, so its temperature is the mean of theirs, weighed by their conductances. A layer between two walls
 * follows the law of a closed layer (conduction, or convection where it sets in, and radiation); in a hollow each wall
 * meets the air by the law of an upright face and shines on the others as on a hull of their mean temperature.
 */

/** Emissivity of masses, crumb and chocolate alike: 0.85 to 0.95, from memory. */
export const ROOM_EMISSIVITY = 0.9
const BOTH = [ROOM_EMISSIVITY, ROOM_EMISSIVITY] as const

/** Rooms and their walls, flat for the stage loop. */
export interface AirRooms {
  readonly rooms: readonly AirRoom[]
  /** First wall of every room and the end of the last one. Shape: rooms + 1 */
  readonly first: Int32Array
  /** Cell of every wall, padded numbering. Shape: walls */
  readonly cell: Int32Array
  /**
   * Conductances of the walls, W/K, from their cells' temperatures.
   * @param resistance  m² K/W from the middle of a wall's cell to its face, and the area of that, by wall
   * @param T_C  of a cell, padded numbering
   * @param G  those of the moment before, overwritten. Shape: walls
   */
  renew(resistance: (wall: number) => number, T_C: (cell: number) => number, G: Float64Array): void
}

/** Film between a wall of a hollow and its air with the other walls, W/(m² K). */
function hollowFilm(height: number, wall_C: number, air_C: number): number {
  const air = airAt((wall_C + air_C) / 2)
  const Ra = rayleigh(air, densityContrast(moistAirDensity(wall_C, 0), moistAirDensity(air_C, 0)), height)
  // Shining on a hull of its own kind, each wall is half of the way.
  const emissivity = 2 * effectiveEmissivity(ROOM_EMISSIVITY, ROOM_EMISSIVITY, 1)
  const radiative = radiativeFilm(Math.min(emissivity, 1), wall_C, air_C)
  return filmOf(nusseltVerticalPlate(Ra, air.Pr), air, height) + radiative
}

/** @param turned  whether the piece lies upside down, as against the start */
export function prepareRooms({ rooms, body }: Mesh, padding: number, turned: () => boolean): AirRooms {
  const walls = rooms.flatMap((room) => room.walls)
  const first = new Int32Array(rooms.length + 1)
  for (const [index, room] of rooms.entries()) first[index + 1] = first[index]! + room.walls.length
  const cell = Int32Array.from(walls, (wall) => padding + wall.cell)

  const crossingOf = ({ level, height }: AirRoom, low_C: number, high_C: number): Crossing => {
    if (!level) return { kind: 'sideways', height }
    const lowIsBelow = (body.invertedAtStart === true) === turned()
    return { kind: low_C > high_C === lowIsBelow ? 'up' : 'down' }
  }

  return {
    rooms,
    first,
    cell,
    renew(resistance, T_C, G) {
      for (const [index, room] of rooms.entries()) {
        const [from, to] = [first[index]!, first[index + 1]!]
        if (room.thickness !== undefined) {
          const [low_C, high_C] = [T_C(cell[from]!), T_C(cell[from + 1]!)]
          const film = 2 * gapConductance(room.thickness, crossingOf(room, low_C, high_C), low_C, high_C, BOTH)
          // Where walls bend the layer is as wide as the mean of both.
          const width = (walls[from]!.area + walls[from + 1]!.area) / 2
          for (let wall = from; wall < to; wall++)
            G[wall] = 1 / (resistance(wall) / walls[wall]!.area + 1 / (film * width))
          continue
        }
        const air_C = airOf(from, to, cell, T_C, G)
        for (let wall = from; wall < to; wall++)
          G[wall] = walls[wall]!.area / (resistance(wall) + 1 / hollowFilm(room.height, T_C(cell[wall]!), air_C))
      }
    },
  }
}

/** Temperature of a room's air, °C: the mean of its walls by their conductances, or by their number at first. */
function airOf(from: number, to: number, cell: Int32Array, T_C: (cell: number) => number, G: Float64Array): number {
  let sum = 0
  let total = 0
  for (let wall = from; wall < to; wall++) {
    const weight = G[wall]! > 0 ? G[wall]! : 1
    sum += weight * T_C(cell[wall]!)
    total += weight
  }
  return sum / total
}
