import type { Show } from '../../core/words/show.ts'
import { mass, shownNumber, type Units } from '../units.ts'

const KG_PER_LB = 0.45359237

/** As one weighs it: grams or ounces below the larger unit. */
export function weightWords(kg: number, units: Units, show: Show): string {
  const small = mass.units.find(({ name }) => name === (units.mass === 'lb' ? 'oz' : 'g'))
  if (small === undefined || kg >= (units.mass === 'lb' ? KG_PER_LB : 1)) return show.mass(kg)
  return `${shownNumber(kg, small)} ${small.name}`
}
