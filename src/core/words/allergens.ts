import type { RecipeFacts } from '../materials/material.ts'

/** How the classes of Annex II are written out. */
const classWords: Readonly<Record<string, string>> = {
  gluten: 'cereals containing gluten',
  egg: 'eggs',
  nuts: 'tree nuts',
  peanut: 'peanuts',
  soy: 'soybeans',
  sulphites: 'sulphur dioxide and sulphites',
}

const listed = (classes: readonly string[]): string => classes.map((one) => classWords[one] ?? one).join(', ')

/** What a recipe says of allergens, in sentences: a note, never a claim of absence. */
export function allergenSentences({ allergens, allergensCheck }: RecipeFacts): readonly string[] {
  return [
    allergens.length === 0 ? 'none of the fourteen classes is in the ingredients by their nature' : listed(allergens),
    ...(allergensCheck.length === 0 ? [] : [`often present, so read the label: ${listed(allergensCheck)}`]),
    'by kind of ingredient (Regulation (EU) 1169/2011, Annex II); labels, traces and your own kitchen decide',
  ]
}
