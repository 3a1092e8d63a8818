import { iceActivity } from './freezing.ts'
import type { Material } from './material.ts'
import { boilingPoint, PRESSURE, saturationPressure } from './vapour.ts'

/** Water that an open surface of a material can give off. */
export interface SurfaceWater {
  /** Water activity at the surface, 0 to 1. */
  readonly activity: number
  /** Where it boils there, °C. */
  readonly boils_C: number
  /** kg/m² that leave before the surface is dry. */
  readonly reserve: number
  /** Whether a skin forms that slows it. */
  readonly skins: boolean
}

/** Depth of batter or crumb that a surface draws its water from before it is crust, m (assumed). */
const CRUST_DEPTH = 2e-3
/** The same of a cream or gel, through which water moves more freely, m (assumed). */
const CREAM_DEPTH = 5e-3

/**
 * Water at an open surface: of a batter or crumb as it boils there, of anything else as it freezes. Nothing where the
 * material tells of neither, as fat-continuous masses and those of fixed properties do.
 */
export function surfaceWater(material: Material): SurfaceWater | undefined {
  const { baking, freezes_C, density, composition_pct } = material
  if (baking !== undefined) {
    const activity = PRESSURE / saturationPressure(baking.boils_C)
    return { activity, boils_C: baking.boils_C, reserve: density * baking.boilsOut * CRUST_DEPTH, skins: false }
  }
  if (freezes_C === undefined) return undefined
  const activity = iceActivity(freezes_C)
  const water = (composition_pct?.water ?? 100) / 100
  return { activity, boils_C: boilingPoint(activity), reserve: density * water * CREAM_DEPTH, skins: true }
}
