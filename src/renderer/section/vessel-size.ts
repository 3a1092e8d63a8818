import type { PlanShape } from '../../core/plan/schema.ts'

type Vessel = Extract<PlanShape, { kind: 'stirred' }>

/** How wide and how high a mass stands in its vessel, mm; as high as it is wide where no diameter is given. */
export function vesselSize({ volume_L, diameter_mm }: Omit<Vessel, 'kind'>): { diameter: number; height: number } {
  const volume = volume_L * 1e6
  const diameter = diameter_mm ?? Math.cbrt((4 * volume) / Math.PI)
  return { diameter, height: volume / ((Math.PI / 4) * diameter * diameter) }
}
