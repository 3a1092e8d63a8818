import type { Fault } from '../errors.ts'
import { type Composition, type Mass, solutionOf, totalPolyols, totalSugars } from '../materials/composition.ts'
import { freezingPoint, waterActivity } from '../materials/freezing.ts'
import { type MassLaw, massLaw } from '../materials/mass-law.ts'
import { makeRecipe, type RecipeResult } from '../materials/recipe.ts'
import { recipeFaults, recipeOf } from '../materials/recipe-from-plan.ts'
import type { PlanRecipe } from '../plan/schema/plan.ts'
import { z } from '../zod.ts'
import { type Row, summarize, type Verification } from './report.ts'
import { compared, leftOut, sameWords } from './vector-row.ts'

const line = z.strictObject({
  ingredient: z.string(),
  mass_kg: z.number().exactOptional(),
  volume_L: z.number().exactOptional(),
  count: z.number().exactOptional(),
  unit: z.string().exactOptional(),
  unit_g: z.number().exactOptional(),
})
const figures = z.record(
  z.string(),
  z.union([z.number(), z.string(), z.null(), z.array(z.string()), z.record(z.string(), z.number())]),
)
const given = z.looseObject({
  state: z.string().exactOptional(),
  water_loss_pct: z.number().exactOptional(),
  overrun_pct: z.number().exactOptional(),
  air_pct: z.number().exactOptional(),
  density_kg_m3: z.number().exactOptional(),
  structure: z.enum(['OW', 'WO']).exactOptional(),
  pore_aw: z.number().exactOptional(),
})
const fileSchema = z.looseObject({
  tolerances: z.record(z.string(), z.string()),
  testVectors: z.array(
    z.looseObject({
      id: z.string(),
      recipe: z.array(line).min(1),
      states: z.array(z.strictObject({ given, expect: figures })),
    }),
  ),
})

/** Whether a parsed file has the form of recipe vectors. */
export function isIngredientVectors(file: unknown): boolean {
  return fileSchema.safeParse(file).success
}

/** `rel 1e-3`, `abs 0.01`, `must be null` by key; a key may end in `*`. */
function toleranceFor(tolerances: Readonly<Record<string, string>>, key: string, size: number): number {
  const pattern = Object.keys(tolerances).find(
    (one) => one === key || (one.endsWith('*') && key.startsWith(one.slice(0, -1))),
  )
  const [kind, digits] = (pattern === undefined ? '' : (tolerances[pattern] ?? '')).split(' ')
  return kind === 'rel' ? Number(digits) * size : kind === 'abs' ? Number(digits) : 0
}

const kinds = ['protein', 'fat', 'starch', 'fibre', 'ash', 'alcohol', 'other', 'water'] as const

function shares(composition: Composition): Readonly<Record<string, number>> {
  const plain = Object.fromEntries(kinds.map((kind) => [kind, composition[kind]]))
  return { ...plain, sugars: totalSugars(composition), polyols: totalPolyols(composition) }
}

/** Figures of a mass by the keys of the file; `null` where a figure does not exist. */
function figuresOf(made: RecipeResult, law: MassLaw): Readonly<Record<string, () => number | null>> {
  const { mass } = made
  const solution = solutionOf(mass)
  const none = { mass: 0, slope: 0 }
  const at = (T_C: number) => law.ice(T_C)
  const heat = (from: number, to: number): number =>
    (law.enthalpyWithoutFatCrystals(from, at(from)) - law.enthalpyWithoutFatCrystals(to, at(to))) / 1000
  const frozen = <T>(value: () => T): T | null => (law.freezes_C === undefined ? null : value())
  const c = (T_C: number): number =>
    (law.enthalpyWithoutFatCrystals(T_C + 0.01, none) - law.enthalpyWithoutFatCrystals(T_C - 0.01, none)) / 0.02
  return {
    mass_kg: () => made.massOut,
    volume_L: () => 1000 * made.volume,
    crystals_pct: () => 100 * mass.composition.crystals,
    rho_airfree_kg_m3: () => made.condensedDensity,
    air_pct: () => 100 * mass.porosity,
    rho_kg_m3: () => (1 - mass.porosity) * made.condensedDensity,
    k20_airfree_W_mK: () => law.condensedConductivity(20, at(20)),
    cp20_J_kgK: () => c(20),
    k4_W_mK: () => law.k(4, at(4)),
    k20_W_mK: () => law.k(20, at(20)),
    k60_W_mK: () => law.k(60, at(60)),
    freezing_C: () => frozen(() => (solution === null ? Number.NaN : freezingPoint(solution))),
    water_activity: () => frozen(() => (solution === null ? Number.NaN : waterActivity(solution))),
    ice_at_minus18_kg_kg: () => frozen(() => at(-18).mass),
    k_minus18_W_mK: () => frozen(() => law.k(-18, at(-18))),
    heat_20_to_4_kJ_kg: () => heat(20, 4),
    heat_20_to_minus18_kJ_kg: () => frozen(() => heat(20, -18)),
  }
}

function sharesOf(mass: Mass, key: string): Readonly<Record<string, number>> {
  const { composition } = mass
  if (key === 'composition_pct') return shares(composition)
  if (key === 'sugars_pct') return composition.sugars
  return Object.fromEntries(Object.entries(mass.fat_kinds).map(([kind, share]) => [kind, share * composition.fat]))
}

const unitOf = (key: string): string =>
  key.endsWith('_pct')
    ? '%'
    : key.endsWith('_C')
      ? 'degC'
      : key.replace(/^.*?_(?=W_mK|J_kgK|kJ_kg|kg_m3|kg_kg|kg$|L$)/, '')

function stateRows(
  name: string,
  recipe: PlanRecipe,
  expect: z.infer<typeof figures>,
  tolerances: Record<string, string>,
): Row[] {
  const made = makeRecipe(recipeOf(recipe))
  const law = massLaw(made.mass)
  const computed = figuresOf(made, law)
  return Object.entries(expect).flatMap(([key, expected]): Row[] => {
    const unit = unitOf(key)
    if (Array.isArray(expected)) {
      const found = key === 'allergens' ? made.allergens : made.allergensCheck
      return [sameWords(name, key, [...found].sort().join(', '), [...expected].sort().join(', '))]
    }
    if (typeof expected === 'string') return [sameWords(name, key, made.mass.structure, expected)]
    if (expected !== null && typeof expected === 'object') {
      const found = sharesOf(made.mass, key)
      const tolerance = toleranceFor(tolerances, key, 100)
      return Object.entries(expected).map(([part, share]) =>
        compared({
          case: name,
          output: `${key} ${part}`,
          unit,
          computed: 100 * (found[part] ?? 0),
          expected: share,
          tolerance,
        }),
      )
    }
    const value = computed[key]
    if (value === undefined) return [leftOut(name, key, 'no such figure is known here')]
    const tolerance = toleranceFor(tolerances, key, Math.abs(expected ?? 0))
    return [compared({ case: name, output: key, unit, computed: value(), expected, tolerance })]
  })
}

/**
 * Recipes with the figures that follow from them, compared with what the recipe model makes of the same lines.
 * Ingredients are looked up in the built-in table.
 */
export function verifyIngredientVectors(file: unknown): Verification & { readonly faults: readonly Fault[] } {
  const { tolerances, testVectors } = fileSchema.parse(file)
  const faults: Fault[] = []
  const rows = testVectors.flatMap((vector, index) =>
    vector.states.flatMap(({ given: { state = '', ...state_given }, expect }, at): Row[] => {
      const name = state === '' ? vector.id : `${vector.id}, ${state}`
      const { water_loss_pct, overrun_pct, air_pct, density_kg_m3, structure, pore_aw } = state_given
      const recipe: PlanRecipe = {
        recipe: vector.recipe,
        ...(water_loss_pct === undefined ? {} : { water_loss_pct }),
        ...(overrun_pct === undefined ? {} : { overrun_pct }),
        ...(air_pct === undefined ? {} : { air_pct }),
        ...(density_kg_m3 === undefined ? {} : { density_kg_m3 }),
        ...(structure === undefined ? {} : { structure }),
        ...(pore_aw === undefined ? {} : { pore_aw }),
      }
      const found = recipeFaults(recipe, `testVectors[${index}].states[${at}]`)
      faults.push(...found)
      return found.length > 0 ? [] : stateRows(name, recipe, expect, tolerances)
    }),
  )
  return { rows, summary: summarize(testVectors.length, rows), faults }
}
