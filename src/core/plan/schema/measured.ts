import { z } from '../../zod.ts'
import { finite, name, percent } from './values.ts'

/* What readings made of a material and of surroundings, as a plan keeps it. */

const times = finite.min(0.05).max(20)
const within_pct = percent.meta({ description: 'Doubt that is left, ± per cent (5 to 95 %).' }).exactOptional()
const within_K = finite.min(0).max(50).meta({ description: 'Doubt that is left, ± K (5 to 95 %).' }).exactOptional()
const measuredOn = z.string().max(200).meta({ description: 'What it was measured on.' }).exactOptional()
export const measuredMaterial = z.strictObject({
  k_times: times.meta({ description: 'Conductivity over that of the table.' }).exactOptional(),
  k_within_pct: within_pct,
  heat_times: times.meta({ description: 'Stored heat over that of the table.' }).exactOptional(),
  heat_within_pct: within_pct,
  on: measuredOn,
})
export const measuredSurroundings = z.strictObject({
  film_times: times.meta({ description: 'Heat passed by the air over what is taken, all faces.' }).exactOptional(),
  film_within_pct: within_pct,
  faces: z
    .record(name, z.strictObject({ times, within_pct }))
    .meta({ description: 'The same of single faces, on top of that.' })
    .exactOptional(),
  air_plus_K: finite.min(-50).max(50).meta({ description: 'So much warmer than said, K.' }).exactOptional(),
  air_within_K: within_K,
  power_times: times.meta({ description: 'Power over what is taken.' }).exactOptional(),
  power_within_pct: within_pct,
  on: measuredOn,
})
