/*
 * A recipe made into a mass. Sugar that is bought as crystals dissolves up to 2 kg per kg of free water and stays
 * dissolved when water is lost later; nothing crystallizes again. Gas, aroma and alcohol lost in baking stay booked.
 */

import { type Message, message } from '../messages.ts'
import {
  type Composition,
  condensedDensity,
  freeWater,
  type Mass,
  type Polyol,
  type Structure,
  type Sugar,
  structureOf,
} from './composition.ts'
import type { FatKind } from './fats.ts'
import type { Allergen, Ingredient } from './ingredient.ts'

/** Sucrose that 1 kg of free water dissolves, kg. Source: solubility near 20 °C, from memory. */
const SUCROSE_PER_WATER = 2
const DEFAULT_PORE_AW = 0.95
/** kg of ash per mol of particles when no line has any. */
const DEFAULT_ASH_KG_MOL = 0.045

/** How much of an ingredient: by mass, by volume, or by count of a unit. */
export type Amount =
  | { readonly kind: 'mass' /** kg */; readonly mass: number }
  | { readonly kind: 'volume' /** m³ */; readonly volume: number }
  | { readonly kind: 'count'; readonly count: number; readonly unit: string /** kg */; readonly unitMass?: number }

export interface RecipeLine {
  readonly ingredient: Ingredient
  readonly amount: Amount
}

/** How much air the finished mass holds. */
export type Air =
  | { readonly kind: 'none' }
  | { readonly kind: 'overrun' /** volume of air per volume without, 0.4 = 40 % */; readonly overrun: number }
  | { readonly kind: 'share' /** of the finished volume, 0 to 1 */; readonly porosity: number }
  | { readonly kind: 'density' /** kg/m³ of the finished mass, weighed */; readonly density: number }

export interface Recipe {
  readonly lines: readonly RecipeLine[]
  /** kg of water lost per kg put together. */
  readonly waterLoss: number
  readonly air: Air
  readonly structure?: Structure
  readonly pore_aw?: number
}

export interface RecipeResult {
  readonly mass: Mass
  /** kg put together and kg left after water was lost. */
  readonly massIn: number
  readonly massOut: number
  /** m³ of the finished mass at 20 °C. */
  readonly volume: number
  /** kg/m³ at 20 °C without air. */
  readonly condensedDensity: number
  readonly lines: readonly { readonly ingredient: Ingredient /** kg */; readonly mass: number }[]
  readonly allergens: readonly Allergen[]
  /** Often present: the labels decide. */
  readonly allergensCheck: readonly Allergen[]
  readonly notes: readonly Message[]
  readonly sources: readonly string[]
}

/** Mass of a line, kg. Throws: a plain error when the ingredient has no such unit or no density for a volume. */
export function lineMass({ ingredient, amount }: RecipeLine): number {
  switch (amount.kind) {
    case 'mass':
      return amount.mass
    case 'volume':
      if (ingredient.bulk_kg_m3 === undefined) throw new Error(`${ingredient.id} has no density for a volume`)
      return amount.volume * ingredient.bulk_kg_m3
    case 'count': {
      const grams = ingredient.units_g?.[amount.unit]
      const unitMass = amount.unitMass ?? (typeof grams === 'number' ? grams / 1000 : undefined)
      if (unitMass === undefined) throw new Error(`${ingredient.id} has no known weight of "${amount.unit}"`)
      return amount.count * unitMass
    }
  }
}

const parts = ['water', 'protein', 'fat', 'sugars', 'starch', 'fibre', 'ash', 'alcohol', 'polyols', 'other'] as const
type Part = (typeof parts)[number]

/** Sums over the lines, kg. */
interface Totals {
  readonly parts: Record<Part, number>
  readonly sugars: Partial<Record<Sugar, number>>
  readonly polyols: Partial<Record<Polyol, number>>
  readonly fats: Partial<Record<FatKind, number>>
  salt: number
  /** mol of particles out of the ash without salt. */
  ashMoles: number
  /** kg · DE of syrup solids. */
  syrup: number
  /** Sucrose bought as crystals, kg. */
  crystals: number
}

function addTo<Key extends string>(
  sum: Partial<Record<Key, number>>,
  of: Partial<Record<Key, number>>,
  kg: number,
): void {
  for (const key in of) sum[key] = (sum[key] ?? 0) + (of[key] ?? 0) * kg
}

function totalsOf(lines: RecipeResult['lines']): Totals {
  const totals: Totals = {
    parts: { water: 0, protein: 0, fat: 0, sugars: 0, starch: 0, fibre: 0, ash: 0, alcohol: 0, polyols: 0, other: 0 },
    sugars: {},
    polyols: {},
    fats: {},
    salt: 0,
    ashMoles: 0,
    syrup: 0,
    crystals: 0,
  }
  for (const { ingredient, mass } of lines) {
    const percent = mass / 100
    addTo(totals.parts, ingredient.composition_pct, percent)
    addTo(totals.sugars, ingredient.sugars_pct ?? {}, percent)
    addTo(totals.polyols, ingredient.polyols_pct ?? {}, percent)
    addTo(totals.fats, ingredient.fat_kinds ?? {}, (ingredient.composition_pct.fat ?? 0) * percent)
    const salt = ingredient.salt_pct ?? 0
    totals.salt += salt * percent
    totals.ashMoles += (((ingredient.composition_pct.ash ?? 0) - salt) * percent) / ingredient.ash_kg_mol
    totals.syrup += (ingredient.sugars_pct?.syrup_solids ?? 0) * percent * (ingredient.syrup_DE ?? 0)
    totals.crystals += (ingredient.sugars_pct?.sucrose ?? 0) * percent * (ingredient.crystal_share ?? 0)
  }
  return totals
}

const scaled = <Key extends string>(sum: Partial<Record<Key, number>>, by: number): Partial<Record<Key, number>> => {
  const result: Partial<Record<Key, number>> = {}
  addTo(result, sum, by)
  return result
}

/** Water that can be lost at most, kg per kg put together. */
export function availableWater(lines: readonly RecipeLine[]): number {
  let water = 0
  let total = 0
  for (const line of lines) {
    const mass = lineMass(line)
    total += mass
    water += (mass * (line.ingredient.composition_pct.water ?? 0)) / 100
  }
  return total > 0 ? water / total : 0
}

/** Makes a recipe into a mass. Throws: a plain error on lines without a weight; the plan's check finds those first. */
export function makeRecipe(recipe: Recipe): RecipeResult {
  const lines = recipe.lines.map((line) => ({ ingredient: line.ingredient, mass: lineMass(line) }))
  const massIn = lines.reduce((sum, line) => sum + line.mass, 0)
  const totals = totalsOf(lines)
  const sucrose = totals.sugars.sucrose ?? 0
  const crystals = Math.min(Math.max(0, sucrose - SUCROSE_PER_WATER * freeWater(totals.parts)), totals.crystals)
  const water = totals.parts.water - recipe.waterLoss * massIn
  const sum = parts.reduce((all, part) => all + (part === 'water' ? water : totals.parts[part]), 0)
  const composition: Composition = {
    water: water / sum,
    protein: totals.parts.protein / sum,
    fat: totals.parts.fat / sum,
    sugars: scaled(totals.sugars, 1 / sum),
    starch: totals.parts.starch / sum,
    fibre: totals.parts.fibre / sum,
    ash: totals.parts.ash / sum,
    alcohol: totals.parts.alcohol / sum,
    polyols: scaled(totals.polyols, 1 / sum),
    other: totals.parts.other / sum,
    salt: totals.salt / sum,
    crystals: crystals / sum,
  }
  const ashWithoutSalt = totals.parts.ash - totals.salt
  const solid: Mass = {
    composition,
    structure: recipe.structure ?? structureOf(composition),
    ash_kg_mol: totals.ashMoles > 0 ? ashWithoutSalt / totals.ashMoles : DEFAULT_ASH_KG_MOL,
    syrup_DE: totals.syrup > 0 ? totals.syrup / (totals.sugars.syrup_solids ?? 1) : 42,
    fat_kinds: totals.parts.fat > 0 ? scaled(totals.fats, 1 / totals.parts.fat) : {},
    porosity: 0,
    pore_aw: recipe.pore_aw ?? DEFAULT_PORE_AW,
  }
  const withoutAir = condensedDensity(solid, 20, 0)
  const mass: Mass = { ...solid, porosity: porosityOf(recipe.air, withoutAir) }
  const allergens = union(lines.map((line) => line.ingredient.allergens))
  const massOut = massIn * (1 - recipe.waterLoss)
  return {
    mass,
    massIn,
    massOut,
    volume: massOut / ((1 - mass.porosity) * withoutAir),
    condensedDensity: withoutAir,
    lines,
    allergens,
    allergensCheck: union(lines.map((line) => line.ingredient.allergens_check)).filter(
      (one) => !allergens.includes(one),
    ),
    notes: notesOf(recipe, mass),
    sources: [...new Set(lines.flatMap((line) => line.ingredient.sources))],
  }
}

function porosityOf(air: Air, withoutAir: number): number {
  switch (air.kind) {
    case 'none':
      return 0
    case 'overrun':
      return air.overrun / (1 + air.overrun)
    case 'share':
      return air.porosity
    case 'density':
      return Math.max(0, 1 - air.density / withoutAir)
  }
}

const union = (lists: readonly (readonly Allergen[])[]): readonly Allergen[] => [...new Set(lists.flat())].sort()

function notesOf(recipe: Recipe, mass: Mass): readonly Message[] {
  const notes: Message[] = []
  const { composition } = mass
  const poured = recipe.lines.filter(
    (line) => line.amount.kind === 'volume' && line.ingredient.sugar_state !== 'dissolved',
  )
  const powders = poured.filter((line) => (line.ingredient.composition_pct.water ?? 0) < 20)
  for (const { ingredient } of powders) notes.push(message('powder-by-volume', { title: ingredient.title }))
  if (recipe.structure === undefined && mass.structure === 'WO') notes.push(message('fat-continuous'))
  if (composition.crystals > 0.001) notes.push(message('crystals-stay', { share_pct: 100 * composition.crystals }))
  if (recipe.waterLoss > 0) notes.push(message('water-loss-given', { share_pct: 100 * recipe.waterLoss }))
  if (mass.porosity > 0 && recipe.pore_aw === undefined) notes.push(message('pore-aw-default', { aw: DEFAULT_PORE_AW }))
  if (recipe.air.kind === 'none') notes.push(message('no-air-given'))
  if (composition.alcohol > 0.002) notes.push(message('alcohol-stays', { share_pct: 100 * composition.alcohol }))
  if (composition.other > 0.01) notes.push(message('acids-no-solutes'))
  const remembered = recipe.lines.filter((line) => line.ingredient.certainty === 'from memory')
  if (remembered.length > 0)
    notes.push(
      message('ingredient-from-memory', { titles: remembered.map((line) => line.ingredient.title).join('; ') }),
    )
  return notes
}

/**
 * How much of each ingredient a piece needs.
 * @param massOut  kg of the finished mass
 * @returns kg a line, in the recipe's order
 */
export function amountsFor(result: RecipeResult, massOut: number): readonly number[] {
  const factor = massOut / result.massOut
  return result.lines.map((line) => line.mass * factor)
}
