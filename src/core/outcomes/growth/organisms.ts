import data from '../../../../shared/growth/organisms.json'
import { z } from '../../zod.ts'

const certainty = z.enum(['seen in the source', 'partly seen', 'from memory', 'estimate'])
const range = z.tuple([z.number(), z.number()])
const cardinal = z.strictObject({ min: z.number(), opt: z.number(), max: z.number() })

/** An organism that may grow: a row of shared/growth/organisms.json. */
const organismSchema = z.strictObject({
  id: z.string(),
  name: z.string(),
  /** Where it comes from: spores that outlive cooking are everywhere, what hands bring sits on faces and between masses. */
  comes: z.enum(['spores', 'hands', 'egg']),
  /** Rate at the best temperature, natural logarithm, 1/h. */
  mu_opt_per_h: z.number().gt(0),
  T_C: cardinal,
  aw: z.strictObject({ min: z.number(), opt: z.number(), form: z.enum(['linear', 'cardinal']) }),
  pH: z.strictObject({ min: z.number(), opt: z.number(), max: z.number(), ref: z.number() }),
  /** Work that lag costs: rate times lag. */
  h0: z.strictObject({ low: z.number(), likely: z.number(), high: z.number() }),
  /** Growth that authorities or outbreaks speak of, powers of ten: a yardstick, no limit. */
  yardstick_log10: z.number(),
  /** Room for growth, powers of ten. */
  room_log10: z.number(),
  /** Where the figures were measured. */
  validity: z.strictObject({ T_C: range, aw: range, pH: range, medium: z.string() }),
  note: z.string(),
  source: z.string(),
  certainty: z.record(z.string(), certainty),
})

export type Organism = z.infer<typeof organismSchema>

/** Every organism that is computed. */
export const organisms: readonly Organism[] = z.array(organismSchema).parse(data.organisms)

/** An organism; nothing when there is none of this id. */
export function findOrganism(id: string): Organism | undefined {
  return organisms.find((organism) => organism.id === id)
}
