import type { MaterialCard } from '../materials/card.ts'
import { sourceWords } from '../sources.ts'
import { say } from './sentences.ts'
import { metric } from './show.ts'

/** The document that `material --json` prints: columns over temperature, then all that is known beside them. */
export function materialDocument({ material, curves, boils_C, measured }: MaterialCard) {
  const { id, title, density, validity_C, freezes_C, composition_pct, recipe, notes, sources } = material
  const keys = [...new Set([...sources, ...measured.map(({ source }) => source)])]
  return {
    format: 'thickset-material',
    version: 1,
    id,
    title,
    density_kg_m3: density,
    valid_C: validity_C,
    freezes_C: freezes_C ?? null,
    boils_C: boils_C ?? null,
    ...curves,
    composition_pct: composition_pct ?? null,
    ...(recipe === undefined
      ? {}
      : {
          recipe: {
            put_together_kg: recipe.massIn_kg,
            mass_kg: recipe.massOut_kg,
            volume_m3: recipe.volume,
            air_pct: 100 * recipe.porosity,
            ingredients: recipe.lines,
            allergens: recipe.allergens,
            allergens_check: recipe.allergensCheck,
          },
        }),
    measured,
    notes: [...new Set(notes.map((note) => say(note, metric)))],
    sources: keys,
    references: Object.fromEntries(keys.map((key) => [key, sourceWords(key)])),
  }
}
