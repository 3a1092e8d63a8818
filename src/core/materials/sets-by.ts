import { z } from '../zod.ts'

/**
 * What a material says of how it sets: a setting law by its id, with the law's own inputs. Which laws there are, and
 * what each wants to know, is not the materials' business: outcomes/kinetics has them, and a test holds the built-in
 * materials against them.
 */
export interface SetsBy {
  readonly by: string
  readonly [input: string]: unknown
}

/** Form of it in a file of shared/materials. */
export const setsByFile = z.looseObject({
  by: z.string(),
  /** Where the figures come from. */
  source: z.string(),
})
