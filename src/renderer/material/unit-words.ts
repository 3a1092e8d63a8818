import type { Ingredient } from '../../core/materials/ingredient.ts'
import type { AmountKind } from '../edits/amounts.ts'

/** Units of the ingredient table in words, many of them. */
const words: Readonly<Record<string, string>> = {
  mass: 'by weight',
  volume: 'by volume',
  own: 'pieces of my own weight',
  piece: 'pieces',
  'piece-S': 'small',
  'piece-M': 'medium',
  'piece-L': 'large',
  'piece-XL': 'extra large',
  'piece-us-large': 'US large',
  'sheet-bronze': 'bronze sheets',
  'sheet-silver': 'silver sheets',
  'sheet-gold': 'gold sheets',
  'sheet-platinum': 'platinum sheets',
  'tbsp-us': 'US tablespoons',
  'tsp-us': 'US teaspoons',
  'envelope-us': 'US envelopes',
  packet: 'packets',
  sachet: 'sachets',
  can: 'cans',
}

/** A unit in words. */
export function unitWords(unit: string): string {
  const known = words[unit]
  if (known !== undefined) return known
  const [cup, country, ...how] = unit.split('-')
  return cup === 'cup' && country === 'us' ? `US cups${how.length > 0 ? `, ${how.join(' ')}` : ''}` : unit
}

/** A kind of amount with what one of it weighs, and how strong a sheet is. */
export function kindWords(kind: AmountKind, { units_g, gelling }: Ingredient): string {
  const grams = units_g?.[kind]
  if (typeof grams !== 'number') return unitWords(kind)
  const bloom = gelling?.bloom?.[kind.replace(/^sheet-/, '')]
  return `${unitWords(kind)}, ${grams} g${bloom === undefined ? '' : `, ${bloom} Bloom`}`
}
