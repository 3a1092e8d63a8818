import type { Ingredient } from '../../core/materials/ingredient.ts'
import { lineMass } from '../../core/materials/recipe.ts'
import type { PlanRecipe } from '../../core/plan/schema/plan.ts'

/** A line of a plan's recipe. */
export type RecipeLine = PlanRecipe['recipe'][number]

/** How an amount is told: `mass`, `volume`, a unit of the table by its name, or `own`: pieces of a weight that is given. */
export type AmountKind = string

/** Whether a kind of amount asks for the weight of one. */
export const asksWeight = (kind: AmountKind, { units_g }: Ingredient): boolean =>
  kind === 'own' || (kind !== 'mass' && kind !== 'volume' && typeof units_g?.[kind] !== 'number')

/** Kinds of amount that an ingredient can be told by. */
export function amountKinds({ bulk_kg_m3, units_g }: Ingredient): readonly AmountKind[] {
  return ['mass', ...(bulk_kg_m3 === undefined ? [] : ['volume']), ...Object.keys(units_g ?? {}), 'own']
}

/** How a line tells its amount. */
export function kindOf(line: RecipeLine, ingredient: Ingredient | undefined): AmountKind {
  if (line.mass_kg !== undefined) return 'mass'
  if (line.volume_L !== undefined) return 'volume'
  if (line.count === undefined) return 'mass'
  const listed = line.unit !== undefined && Object.hasOwn(ingredient?.units_g ?? {}, line.unit)
  const stated = listed && typeof ingredient?.units_g?.[line.unit ?? ''] === 'number' && line.unit_g !== undefined
  return listed && !stated ? (line.unit ?? 'own') : 'own'
}

/** How an ingredient is usually bought: eggs and sheets are counted. */
export function usualKind({ units_g }: Ingredient): AmountKind {
  const counted = ['piece-L', 'sheet-gold'].find((unit) => typeof units_g?.[unit] === 'number')
  return counted ?? 'mass'
}

/** A line of so much of an ingredient; kg, litres or a number of pieces by its kind. */
export function lineOf(ingredient: Ingredient, kind: AmountKind, value: number, unit_g?: number): RecipeLine {
  const { id } = ingredient
  if (kind === 'mass') return { ingredient: id, mass_kg: value }
  if (kind === 'volume') return { ingredient: id, volume_L: value }
  const weight = unit_g === undefined ? {} : { unit_g }
  return { ingredient: id, count: value, unit: kind === 'own' ? 'piece' : kind, ...weight }
}

/** kg of a line; nothing where its weight isn't known. */
export function massOfLine(line: RecipeLine, ingredient: Ingredient): number | undefined {
  if (line.mass_kg !== undefined) return line.mass_kg
  if (line.volume_L !== undefined)
    return ingredient.bulk_kg_m3 === undefined
      ? undefined
      : lineMass({ ingredient, amount: { kind: 'volume', volume: line.volume_L / 1000 } })
  const grams = line.unit_g ?? ingredient.units_g?.[line.unit ?? '']
  return line.count === undefined || typeof grams !== 'number' ? undefined : (line.count * grams) / 1000
}

/** As many digits as a scale shows. */
const tidy = (value: number): number => Number(value.toPrecision(5))

/** The same weight told in another way. */
export function withKind(line: RecipeLine, ingredient: Ingredient, kind: AmountKind): RecipeLine {
  const mass = massOfLine(line, ingredient) ?? 1
  if (kind === 'mass') return lineOf(ingredient, kind, tidy(mass))
  if (kind === 'volume') return lineOf(ingredient, kind, tidy((mass / (ingredient.bulk_kg_m3 ?? 1000)) * 1000))
  const grams = ingredient.units_g?.[kind]
  if (typeof grams === 'number') return lineOf(ingredient, kind, tidy((mass * 1000) / grams))
  return lineOf(ingredient, kind, line.count ?? 1, tidy((mass * 1000) / (line.count ?? 1)))
}

/** The same amount of another ingredient, told as before where that can be, else by weight. */
export function withIngredient(line: RecipeLine, before: Ingredient | undefined, next: Ingredient): RecipeLine {
  const kind = kindOf(line, before)
  if (amountKinds(next).includes(kind)) return { ...line, ingredient: next.id }
  const mass = before === undefined ? undefined : massOfLine(line, before)
  return lineOf(next, 'mass', tidy(mass ?? 1))
}

/** A line of so many times as much. */
export function scaledLine(line: RecipeLine, factor: number): RecipeLine {
  const times = (value: number): number => tidy(value * factor)
  return {
    ...line,
    ...(line.mass_kg === undefined ? {} : { mass_kg: times(line.mass_kg) }),
    ...(line.volume_L === undefined ? {} : { volume_L: times(line.volume_L) }),
    ...(line.count === undefined ? {} : { count: times(line.count) }),
  }
}
