import { z } from '../zod.ts'
import { keptMaterial, keptSurroundings } from './schema.ts'

/** A file of what was measured, for later plans. */
export const keptSchema = z.strictObject({
  format: z.literal('thickset-measured'),
  version: z.literal(1),
  surroundings: z.array(keptSurroundings).max(200),
  materials: z.array(keptMaterial).max(200),
})
