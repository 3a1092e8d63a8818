import type { IngredientMass } from '../../core/materials/material.ts'
import { metric } from '../../core/words/show.ts'

/** As one weighs it: grams below a kilogram. */
export function weightWords(mass_kg: number): string {
  return mass_kg < 1 ? `${metric.number(1000 * mass_kg)} g` : metric.mass(mass_kg)
}

/** An ingredient's line of a table: what, how much, how many. */
export function ingredientRow({ title, mass_kg, count, unit }: IngredientMass): string[] {
  const counted = count === undefined || unit === undefined ? '' : `${metric.number(count)} ${unit}`
  return [title, weightWords(mass_kg), counted]
}
