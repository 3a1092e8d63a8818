import { z } from '../zod.ts'
import { keptMaterial, keptSurroundings } from './schema/plan.ts'

/** The version of files of what was measured. */
export const KEPT_VERSION = 1

/** A file of what was measured, for later plans. */
export const keptSchema = z.strictObject({
  format: z.literal('thickset-measured'),
  version: z.literal(KEPT_VERSION),
  surroundings: z.array(keptSurroundings).max(200),
  materials: z.array(keptMaterial).max(200),
})
