import { z } from '../../zod.ts'
import { agar } from './agar.ts'
import { batterStarch } from './batter-starch.ts'
import { carrageenan } from './carrageenan.ts'
import { crust } from './crust.ts'
import { doughStarch } from './dough-starch.ts'
import { egg } from './egg.ts'
import { gelatin } from './gelatin.ts'
import { ice } from './ice.ts'
import { type LawKind, type Level, type SettingLaw, valuesAt } from './law.ts'
import { milkFat } from './milk-fat.ts'
import { nutPaste } from './nut-paste.ts'
import { pectin } from './pectin.ts'
import { starchCream } from './starch-cream.ts'
import { temperedChocolate } from './tempered-chocolate.ts'
import { untemperedChocolate } from './untempered-chocolate.ts'
import { whey } from './whey.ts'
import { yolk } from './yolk.ts'

/** Every setting law; one more is one more file and its line here. A test compares this list with the folder. */
const kinds = [
  agar,
  batterStarch,
  carrageenan,
  crust,
  doughStarch,
  egg,
  gelatin,
  ice,
  milkFat,
  nutPaste,
  pectin,
  starchCream,
  temperedChocolate,
  untemperedChocolate,
  whey,
  yolk,
] as const

export const settingLaws: readonly LawKind[] = kinds as unknown as readonly LawKind[]

/** What a material may say of how it sets: one of the laws' inputs. */
export const setsBySchema = z.discriminatedUnion('by', [
  agar.inputs,
  batterStarch.inputs,
  carrageenan.inputs,
  crust.inputs,
  doughStarch.inputs,
  egg.inputs,
  gelatin.inputs,
  ice.inputs,
  milkFat.inputs,
  nutPaste.inputs,
  pectin.inputs,
  starchCream.inputs,
  temperedChocolate.inputs,
  untemperedChocolate.inputs,
  whey.inputs,
  yolk.inputs,
])

export type SetsBy = z.infer<typeof setsBySchema>

/** A kind of law. Throws: a plain error when there is none of this id. */
export function getLawKind(id: string): LawKind {
  const kind = settingLaws.find((one) => one.id === id)
  if (kind === undefined) throw new Error(`no setting law "${id}"`)
  return kind
}

/** The law that a material names, with its parameters at a level. */
export function settingLaw(by: SetsBy, level: Level): SettingLaw {
  const { id, title, parameters, make } = getLawKind(by.by)
  return { id, title, ...make(by, valuesAt(parameters, level), level) }
}
