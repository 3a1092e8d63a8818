import type { Fault } from '../errors.ts'
import { type Message, message } from '../messages.ts'
import { didYouMean } from '../nearest.ts'
import type { PlanRecipe } from '../plan/schema/plan.ts'
import type { BakingInput } from './baking.ts'
import type { Ingredient } from './ingredient.ts'
import { findIngredient, ingredientIds } from './ingredients.ts'
import { lookOf, massMaterial } from './mass-material.ts'
import type { Material } from './material.ts'
import {
  type Air,
  type Amount,
  availableWater,
  makeRecipe,
  type Recipe,
  type RecipeLine,
  type RecipeResult,
} from './recipe.ts'

type PlanLine = PlanRecipe['recipe'][number]

/** What the schema can't see: unknown ingredients, lines without a weight, more water lost than there is. */
export function recipeFaults(given: PlanRecipe, path: string): readonly Fault[] {
  const faults: Fault[] = []
  for (const [index, line] of given.recipe.entries()) faults.push(...lineFaults(line, `${path}.recipe[${index}]`))
  const airs = (['overrun_pct', 'air_pct', 'density_kg_m3'] as const).filter((key) => given[key] !== undefined)
  if (airs.length > 1)
    faults.push({ path: `${path}.${airs[1]}`, problem: `is given beside ${airs[0]}`, remedy: 'give one of them' })
  if (faults.length > 0) return faults
  const recipe = recipeOf(given)
  const water_pct = 100 * availableWater(recipe.lines)
  if ((given.water_loss_pct ?? 0) >= water_pct)
    return [
      {
        path: `${path}.water_loss_pct`,
        problem: `takes ${given.water_loss_pct} % off, but only ${water_pct.toFixed(1)} % is water`,
        remedy: 'give kg of water lost per 100 kg put together',
      },
    ]
  const { condensedDensity } = makeRecipe(recipe)
  // 2 %: what the density without air is known to.
  if (given.density_kg_m3 !== undefined && given.density_kg_m3 > 1.02 * condensedDensity)
    return [
      {
        path: `${path}.density_kg_m3`,
        problem: `is above ${condensedDensity.toFixed(0)} kg/m³, the mass without any air`,
        remedy: 'weigh a known volume again, in kg per m³ (g per litre)',
      },
    ]
  return []
}

function lineFaults(line: PlanLine, path: string): readonly Fault[] {
  const ingredient = findIngredient(line.ingredient)
  if (ingredient === undefined)
    return [
      {
        path: `${path}.ingredient`,
        problem: `"${line.ingredient}" is not in the table`,
        remedy: didYouMean(line.ingredient, ingredientIds),
      },
    ]
  const amounts = (['mass_kg', 'volume_L', 'count'] as const).filter((key) => line[key] !== undefined)
  if (amounts.length !== 1)
    return [
      {
        path,
        problem: amounts.length === 0 ? 'has no amount' : `has ${amounts.join(' and ')}`,
        remedy: 'give one of mass_kg, volume_L, or count with unit',
      },
    ]
  if (line.volume_L !== undefined && ingredient.bulk_kg_m3 === undefined)
    return [
      { path: `${path}.volume_L`, problem: `${ingredient.title} can't be told by volume`, remedy: 'give mass_kg' },
    ]
  return line.count === undefined ? [] : unitFaults(line, ingredient, path)
}

function unitFaults(line: PlanLine, ingredient: Ingredient, path: string): readonly Fault[] {
  if (line.unit_g !== undefined) return []
  const known = Object.entries(ingredient.units_g ?? {}).flatMap(([unit, grams]) => (grams === null ? [] : [unit]))
  const remedy = known.length === 0 ? 'give unit_g, the grams of one' : `give unit_g, or a unit of: ${known.join(', ')}`
  if (line.unit === undefined) return [{ path: `${path}.unit`, problem: 'is missing', remedy }]
  if (known.includes(line.unit)) return []
  return [{ path: `${path}.unit`, problem: `the weight of one "${line.unit}" is not known`, remedy }]
}

function amountOf(line: PlanLine): Amount {
  if (line.mass_kg !== undefined) return { kind: 'mass', mass: line.mass_kg }
  if (line.volume_L !== undefined) return { kind: 'volume', volume: line.volume_L / 1000 }
  return {
    kind: 'count',
    count: line.count ?? 0,
    unit: line.unit ?? '',
    ...(line.unit_g === undefined ? {} : { unitMass: line.unit_g / 1000 }),
  }
}

function airOf(given: PlanRecipe): Air {
  if (given.overrun_pct !== undefined) return { kind: 'overrun', overrun: given.overrun_pct / 100 }
  if (given.air_pct !== undefined) return { kind: 'share', porosity: given.air_pct / 100 }
  if (given.density_kg_m3 !== undefined) return { kind: 'density', density: given.density_kg_m3 }
  return { kind: 'none' }
}

/** A plan's recipe with its ingredients looked up; lines of unknown ingredients are left out. */
export function recipeOf(given: PlanRecipe): Recipe {
  const lines = given.recipe.flatMap((line): RecipeLine[] => {
    const ingredient = findIngredient(line.ingredient)
    return ingredient === undefined ? [] : [{ ingredient, amount: amountOf(line) }]
  })
  return {
    lines,
    waterLoss: (given.water_loss_pct ?? 0) / 100,
    air: airOf(given),
    ...(given.structure === undefined ? {} : { structure: given.structure }),
    ...(given.pore_aw === undefined ? {} : { pore_aw: given.pore_aw }),
  }
}

/** Share of flour from which on a mass is a batter or a dough, kg/kg: what has less is thickened by it. */
const LEAST_FLOUR = 0.12
/** Growth in the oven where the plan does not tell, without and with leavening: 1.2 to 2, from memory. */
const USUAL_GROWTH = { foam: 1.4, leavened: 1.6 } as const
/** m³ at 20 °C of 1 kg of carbon dioxide: ideal gas. */
const CO2_VOLUME = (8.314462 * 293.15) / (101_325 * 0.04401)

/** How a recipe bakes: with flour as a batter, with flour and water lost as what came out of the oven. */
function bakingOfRecipe(
  given: PlanRecipe,
  { lines, massIn }: RecipeResult,
): { readonly baking?: BakingInput; readonly notes: readonly Message[] } {
  const share = (of: (ingredient: Ingredient) => number): number =>
    lines.reduce((sum, { ingredient, mass }) => sum + mass * of(ingredient), 0) / massIn
  const flour = share((ingredient) => (ingredient.sets_as?.includes('sugar_batter_starch') === true ? 1 : 0))
  if (flour < LEAST_FLOUR && given.rises_to === undefined) return { notes: [] }
  if ((given.water_loss_pct ?? 0) > 0) return { baking: { baked: true, mostGrowth: 1, leavening: 0 }, notes: [] }
  const leavening = CO2_VOLUME * share((ingredient) => (ingredient.gas?.CO2_pct ?? 0) / 100)
  const mostGrowth = given.rises_to ?? (leavening > 0 ? USUAL_GROWTH.leavened : USUAL_GROWTH.foam)
  return {
    baking: { baked: false, mostGrowth, leavening },
    notes: given.rises_to === undefined ? [message('growth-guessed', { growth: mostGrowth })] : [],
  }
}

/** How many of a unit, where a line says that. */
function countOf(line: PlanLine | undefined): { readonly count?: number; readonly unit?: string } {
  if (line?.count === undefined || line.unit === undefined) return {}
  return { count: line.count, unit: line.unit }
}

/** The material that a plan's recipe makes; the recipe is without faults. */
export function recipeMaterial(id: string, given: PlanRecipe): Material {
  const made = makeRecipe(recipeOf(given))
  const { notes, ...baking } = bakingOfRecipe(given, made)
  return massMaterial({
    id,
    title: id,
    look: lookOf(made.mass),
    mass: made.mass,
    ...baking,
    notes: [...made.notes, ...notes],
    sources: made.sources,
    recipe: {
      lines: made.lines.map(({ ingredient, mass }, index) => ({
        ingredient: ingredient.id,
        title: ingredient.title,
        mass_kg: mass,
        ...countOf(given.recipe[index]),
      })),
      massIn_kg: made.massIn,
      massOut_kg: made.massOut,
      volume: made.volume,
      porosity: made.mass.porosity,
      allergens: made.allergens,
      allergensCheck: made.allergensCheck,
    },
  })
}
