import { isThinWall } from '../boundary/series.ts'
import type { Body, FaceName } from '../geometry/body.ts'
import type { Layer } from '../geometry/layer.ts'
import type { Wall } from '../materials/wall.ts'

/** What decides whether the heat that a layer outside the piece holds is followed. */
export interface WallHeat {
  /** Whether it counts: much beside the mass behind the face, or slow beside the shortest stage. */
  counts(wall: Wall, thickness: number, face: FaceName): boolean
  /** °C of a mould when it is filled, where the plan gives none: of the room, or of what it was chilled with. */
  readonly mould_C: number
}

/** Common practice, no source. */
const ROOM_C = 20

/**
 * @param layers  of the piece at the start, those next to the mould first
 * @param shortest  stage, s
 */
export function wallHeat(body: Body, layers: readonly Layer[], shortest: number): WallHeat {
  const stack = layers.reduce((sum, layer) => sum + (layer.thickness ?? 0), 0)
  const { material, start_C } = layers[0]!
  const volumetric = material.density * material.at(start_C).c
  const behind = (face: FaceName): number => {
    const index = body.axes.findIndex((axis) => axis.low === face || axis.high === face)
    const depth = index === body.stackAxis ? stack : (body.axes[index]?.length ?? stack)
    // A depth that follows from the layers alone, where they leave one open.
    return (depth > 0 ? depth : Number.POSITIVE_INFINITY) * volumetric
  }
  return {
    counts: (wall, thickness, face) =>
      !isThinWall(
        { heat: wall.rho * wall.c * thickness, thickness, diffusivity: wall.k / (wall.rho * wall.c) },
        behind(face),
        shortest,
      ),
    mould_C: Math.min(ROOM_C, start_C),
  }
}
