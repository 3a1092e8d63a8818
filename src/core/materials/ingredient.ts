import { z } from '../zod.ts'
import { polyolNames, sugarNames } from './composition.ts'
import { fatKinds } from './fats.ts'

const percent = z.number().min(0).max(100)
const share = z.number().min(0).max(1)

/** The fourteen classes of Annex II. Source: `eu-1169-2011`. */
export const allergenClasses = [
  'gluten',
  'crustaceans',
  'egg',
  'fish',
  'peanut',
  'soy',
  'milk',
  'nuts',
  'celery',
  'mustard',
  'sesame',
  'sulphites',
  'lupin',
  'molluscs',
] as const
const allergen = z.enum(allergenClasses)
export type Allergen = z.infer<typeof allergen>

const ranged = z.strictObject({
  range: z.tuple([z.number(), z.number()]),
  certainty: z.enum(['seen in the source', 'from memory']),
  source: z.string().exactOptional(),
})

/** What a recipe line can be made of: a row of shared/ingredients. Shares are those of the ingredient as bought. */
export const ingredientSchema = z.strictObject({
  id: z.string().regex(/^[a-z0-9-]+$/),
  title: z.string().min(1),
  aliases: z.array(z.string()).exactOptional(),
  composition_pct: z.partialRecord(
    z.enum(['water', 'protein', 'fat', 'sugars', 'starch', 'fibre', 'ash', 'alcohol', 'polyols', 'other']),
    percent,
  ),
  /** Kinds of sugar, adding up to `sugars`. */
  sugars_pct: z.partialRecord(z.enum(sugarNames), percent).exactOptional(),
  polyols_pct: z.partialRecord(z.enum(polyolNames), percent).exactOptional(),
  /** Dextrose equivalent of `syrup_solids`. */
  syrup_DE: z.number().gt(0).exactOptional(),
  sugar_state: z.enum(['none', 'dissolved', 'crystals', 'part-crystals', 'amorphous', 'in-tissue']),
  /** Share of the sucrose that is crystals. */
  crystal_share: share.exactOptional(),
  /** Shares of the fat by kind, adding up to 1. */
  fat_kinds: z.partialRecord(z.enum(fatKinds), share).exactOptional(),
  /** kg of ash, salt left out, per mol of dissolved particles. */
  ash_kg_mol: z.number().gt(0),
  /** Common salt, part of `ash`. */
  salt_pct: percent.exactOptional(),
  /** Density by which a volume is weighed; absent where a volume says nothing. */
  bulk_kg_m3: z.number().gt(0).exactOptional(),
  bulk_from: z.string().exactOptional(),
  /** Grams of one unit; null where the user must state them. */
  units_g: z.record(z.string(), z.number().gt(0).nullable()).exactOptional(),
  units_from: z.string().exactOptional(),
  water_activity: ranged.exactOptional(),
  pH: ranged.exactOptional(),
  starch_kind: z.string().exactOptional(),
  gelling: z
    .strictObject({
      agent: z.enum(['gelatin', 'agar', 'pectin']),
      bloom: z.record(z.string(), z.number()).exactOptional(),
      bloom_ranges: z.record(z.string(), z.tuple([z.number(), z.number()])).exactOptional(),
      grade_SAG: z.number().exactOptional(),
      /** What only the packet can tell. */
      ask: z.array(z.string()),
    })
    .exactOptional(),
  gas: z.strictObject({ CO2_pct: percent, from: z.string() }).exactOptional(),
  /** Laws of setting that this ingredient feeds. */
  sets_as: z.array(z.string()).exactOptional(),
  allergens: z.array(allergen),
  /** Often present: the label decides. */
  allergens_check: z.array(allergen),
  sources: z.array(z.string()).min(1),
  source_note: z.string(),
  certainty: z.enum(['seen in the source', 'from memory', 'computed']),
  note: z.string().exactOptional(),
})

export type Ingredient = z.infer<typeof ingredientSchema>
