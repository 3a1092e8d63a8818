import type { Message } from '../messages.ts'
import type { Keeping } from './keeping.ts'
import type { Pouring } from './pouring.ts'
import type { SetsBy } from './sets-by.ts'
import type { StateLaw } from './state-law.ts'

/**
 * The thermal law of a material as a polyline with temperature, volumetric enthalpy and conductivity integral as
 * three columns: straight lines between the points, so that any curve is possible as long as enthalpy grows.
 * A change of phase at one temperature is two points of equal `T_C` and different `enthalpy`.
 */
export interface ThermalCurve {
  /** °C, never falling. Shape: points. */
  readonly T_C: Float64Array
  /** J/m³, strictly rising, any zero. Shape: points. */
  readonly enthalpy: Float64Array
  /** W/m, integral of k dT from any reference; never falling. Shape: points. */
  readonly conductivityIntegral: Float64Array
  /** Temperatures of the corners of the curve (freezing point, boiling point), °C; a table puts a node on the first. */
  readonly kinks_C: readonly number[]
  /** The curve of which this one is a multiple, so that work done on it need not be done again. */
  readonly scaledFrom?: { readonly curve: ThermalCurve; readonly k: number; readonly heat: number }
}

/** Properties at one temperature, for people and for tests. */
export interface Properties {
  readonly T_C: number
  /** W/(m K) */
  readonly k: number
  /** kg/m³, as the mass is at this temperature (the forecast books mass with `Material.density`). */
  readonly rho: number
  /** J/(kg K), apparent: latent parts included. */
  readonly c: number
  /** J/kg, zero at −40 °C for masses with a composition. */
  readonly enthalpy_J_kg: number
  /** Share of the mass's water that is ice, 0 to 1. */
  readonly ice_share: number
  /** Share of the fat that is solid, 0 to 1. */
  readonly solid_fat_share: number
}

/** How a material is drawn: a palette name known to the window. */
export type Look =
  | 'air'
  | 'batter'
  | 'biscuit'
  | 'chocolate'
  | 'cream'
  | 'custard'
  | 'fruit'
  | 'gel'
  | 'plain'
  | 'sponge'

/** An ingredient with its mass; counted where the recipe counts it. */
export interface IngredientMass {
  readonly ingredient: string
  readonly title: string
  readonly mass_kg: number
  /** How many of a unit. */
  readonly count?: number
  readonly unit?: string
}

/** What a recipe tells beside its thermal law. */
export interface RecipeFacts {
  /** What is put together, in the recipe's order. */
  readonly lines: readonly IngredientMass[]
  /** kg put together, and kg left after water was lost. */
  readonly massIn_kg: number
  readonly massOut_kg: number
  /** m³ of the finished mass at 20 °C, and the share of it that is air. */
  readonly volume: number
  readonly porosity: number
  /** Classes of Annex II of Regulation (EU) 1169/2011 that are in the ingredients: a note, never a claim of absence. */
  readonly allergens: readonly string[]
  /** Often present: the labels decide. */
  readonly allergensCheck: readonly string[]
}

/** How a mass bakes. Growth is volume over volume as poured; set is 0 for batter, 1 for crumb. */
export interface Baking {
  /** Where its water boils, °C. */
  readonly boils_C: number
  /** Water that boils out, kg per kg of the mass as poured. */
  readonly boilsOut: number
  /** Heat of evaporation there, J per kg of water. */
  readonly evaporation: number
  /** Whether it is laid in baked: then it neither rises nor sets. */
  readonly baked: boolean
  /** Share of what is still soft that sets in a second, 1/s. */
  settingRate(T_C: number): number
  /** Growth of the soft mass, 1 at 20 °C. */
  softGrowth(T_C: number): number
  /** Largest growth that `softGrowth` gives. */
  readonly mostGrowth: number
  /** W/(m K), water not boiled out. Linear in `set`. */
  moistConductivity(T_C: number, set: 0 | 1, growth: number): number
  /** W/(m K), water boiled out. */
  crustConductivity(T_C: number, growth: number): number
  /**
   * What is left when the water is gone. Its zero is such that at `boils_C` the moist mass holds more by the heat of
   * the liquid water that boils out, counted from 0 °C: vapour then leaves with what a steam table gives it.
   */
  readonly crust: CrustLaw
  /** Where it is another one with its conductivities multiplied: what is drawn from that serves for this one too. */
  readonly scaledFrom?: { readonly baking: Baking; readonly k: number }
}

export interface CrustLaw {
  /** J/m³ of the mass as poured. */
  curve(low_C: number, high_C: number): ThermalCurve
  /** J per kg of the mass as poured. */
  enthalpy(T_C: number): number
  /** J/K per kg of the mass as poured. */
  c(T_C: number): number
}

/** A material as the solver, the section drawing and the material card see it. */
export interface Material {
  readonly id: string
  readonly title: string
  readonly look: Look
  /** Nothing is there but air: no heat is held, and what crosses it is told by the solver's air rooms. */
  readonly empty?: true
  /** kg/m³, the one density with which mass and heat are booked, so that both are conserved. */
  readonly density: number
  /** Temperatures between which the law is supported by its sources, °C. */
  readonly validity_C: readonly [number, number]
  /** Start of freezing, °C; absent when nothing freezes above −40 °C or the law has no such notion. */
  readonly freezes_C?: number
  /** kg per 100 kg, by component name; absent for `fixed` and `table`. */
  readonly composition_pct?: Readonly<Record<string, number>>
  /**
   * The same mass with its fat undercooled, for what is cooled from the melt within hours; absent where that makes no
   * difference. Warming and resting go by the material itself.
   */
  readonly cooling?: Material
  /** The same mass with all of its fat liquid at any temperature; present where `cooling` is. */
  readonly molten?: Material
  /** How it bakes; absent where it is no batter or crumb. The curve then holds boiling at one temperature and crust above. */
  readonly baking?: Baking
  /** Values that places of it carry along and that change nothing of its law. */
  readonly states?: readonly StateLaw[]
  /** How thin it is while it pours; absent where it doesn't, or where nobody said. */
  readonly pours?: Pouring
  /** What decides what can grow in it; absent where nobody said. */
  readonly keeping?: Keeping
  /** The material of which this is one with other figures for heat: what hangs on neither stays the same. */
  readonly scaledFrom?: Material
  /** How it sets, by one law or several that must all have done their part; absent where nobody said. */
  readonly sets?: readonly SetsBy[]
  /** Only of a material made from a recipe. */
  readonly recipe?: RecipeFacts
  /** The law between two temperatures at least; may reach further. Throws nothing. */
  curve(low_C: number, high_C: number): ThermalCurve
  at(T_C: number): Properties
  /** What was assumed, and what is weak about this material. */
  readonly notes: readonly Message[]
  /** Keys into shared/reference/sources.json. */
  readonly sources: readonly string[]
}
