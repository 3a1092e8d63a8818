import { z } from '../zod.ts'

const aw = z.number().gt(0).max(1)
const pH = z.number().min(0).max(14)

/** What of a mass decides what can grow in it: a file of shared/materials or a plan gives it, as a number or from-to. */
export const keepingSchema = z.strictObject({
  aw: z.union([aw, z.tuple([aw, aw])]).meta({ description: 'Water activity, 0 to 1; a number or from and to.' }),
  pH: z
    .union([pH, z.tuple([pH, pH])])
    .meta({ description: 'pH; a number or from and to.' })
    .exactOptional(),
  /** Which kind of raw egg it is made with, where there is any: decides which killing of Salmonella is asked. */
  egg: z
    .enum(['yolk', 'yolk-sugar', 'whole-egg-sugar'])
    .meta({ description: 'Made with raw egg: mostly yolk, yolk with sugar, or whole egg with sugar.' })
    .exactOptional(),
})

export type KeepingInput = z.infer<typeof keepingSchema>

/** Water activity and pH of a mass, each from lowest to highest. */
export interface Keeping {
  readonly aw: readonly [number, number]
  readonly pH?: readonly [number, number]
  readonly egg?: NonNullable<KeepingInput['egg']>
}

const range = (given: number | readonly [number, number]): readonly [number, number] =>
  typeof given === 'number' ? [given, given] : [Math.min(...given), Math.max(...given)]

export function keepingOf({ aw: given_aw, pH: given_pH, egg }: KeepingInput): Keeping {
  return {
    aw: range(given_aw),
    ...(given_pH === undefined ? {} : { pH: range(given_pH) }),
    ...(egg === undefined ? {} : { egg }),
  }
}
