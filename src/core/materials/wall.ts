import file from '../../../shared/walls/walls.json'
import { z } from '../zod.ts'
import { airConductivity } from './vapour.ts'

const wallSchema = z.strictObject({
  id: z.string(),
  title: z.string(),
  k_W_mK: z.number().gt(0),
  rho_kg_m3: z.number().gt(0),
  c_J_kgK: z.number().gt(0),
  emissivity: z.number().min(0).max(1),
  emissivity_note: z.string(),
  usual_thickness_mm: z.number().gt(0).exactOptional(),
  /** false: commonly sold for building or packing, not for food. */
  for_food: z.boolean().exactOptional(),
  source: z.string(),
  certainty: z.enum(['seen in the source', 'from memory']),
  note: z.string(),
})

/** What a mould, a board or a wrap is made of, at about 20 °C. */
export interface Wall {
  readonly id: string
  readonly title: string
  /** W/(m K) */
  readonly k: number
  /** kg/m³ */
  readonly rho: number
  /** J/(kg K) */
  readonly c: number
  /** Long-wave, 0 to 1. */
  readonly emissivity: number
  /** m; absent where none is usual. */
  readonly usualThickness?: number
  /** Whether what is commonly sold is made for food; a plan may declare its own to be. */
  readonly forFood: boolean
  readonly source: string
  readonly note: string
}

const walls: ReadonlyMap<string, Wall> = new Map(
  z
    .array(wallSchema)
    .parse(file)
    .map((row) => [
      row.id,
      {
        id: row.id,
        title: row.title,
        k: row.k_W_mK,
        rho: row.rho_kg_m3,
        c: row.c_J_kgK,
        emissivity: row.emissivity,
        ...(row.usual_thickness_mm === undefined ? {} : { usualThickness: row.usual_thickness_mm / 1000 }),
        forFood: row.for_food ?? true,
        source: row.source,
        note: row.note,
      },
    ]),
)

/** Ids of all wall materials. */
export const wallIds: readonly string[] = [...walls.keys()]

/** The wall material of this id; nothing when there is none. */
export function findWall(id: string): Wall | undefined {
  return walls.get(id)
}

/** A wall material that is known to exist. Throws: a plain error when it doesn't. */
export function getWall(id: string): Wall {
  const wall = walls.get(id)
  if (wall === undefined) throw new Error(`no wall material "${id}"`)
  return wall
}

/** Resistance of a wall of `thickness` m, m² K/W. */
export function wallResistance(wall: Wall, thickness: number): number {
  return thickness / wall.k
}

/**
 * Resistance of a narrow gap of still air, m² K/W: conduction beside radiation between its faces.
 * @param gap  m
 * @param emissivities  of the two faces
 * Valid: gap below 8 mm; a wider one convects. Source: `en-iso-6946` (from memory).
 */
export function gapResistance(gap: number, T_C: number, emissivities: readonly [number, number] = [0.9, 0.9]): number {
  const radiative = 4 * 5.670374e-8 * (T_C + 273.15) ** 3
  return 1 / (airConductivity(T_C) / gap + radiative / (1 / emissivities[0] + 1 / emissivities[1] - 1))
}
