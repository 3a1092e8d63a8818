import { substances } from './components.ts'
import { type FatKind, fats } from './fats.ts'
import { type Solution, solutionFreezingAt } from './freezing.ts'

export const sugarNames = ['sucrose', 'glucose', 'fructose', 'lactose', 'maltose', 'syrup_solids'] as const
export const polyolNames = ['sorbitol', 'xylitol', 'erythritol', 'mannitol', 'glycerol', 'isomalt'] as const
export type Sugar = (typeof sugarNames)[number]
export type Polyol = (typeof polyolNames)[number]

/** What 1 kg of a mass is made of, kg each; the shares add up to 1. Air is not part of it. */
export interface Composition {
  readonly water: number
  readonly protein: number
  readonly fat: number
  readonly sugars: Readonly<Partial<Record<Sugar, number>>>
  readonly starch: number
  readonly fibre: number
  /** Minerals, salt included. */
  readonly ash: number
  readonly alcohol: number
  readonly polyols: Readonly<Partial<Record<Polyol, number>>>
  /** Acids and what is left of the carbohydrate: warms like carbohydrate, holds no water, is no solute. */
  readonly other: number
  /** Common salt, part of `ash`. */
  readonly salt: number
  /** Sucrose that lies as crystals, part of `sugars.sucrose`. */
  readonly crystals: number
}

/** Whether the watery part (`OW`) or the fat (`WO`) is continuous. */
export type Structure = 'OW' | 'WO'

/** A mass: its composition, and what composition alone does not say. */
export interface Mass {
  readonly composition: Composition
  readonly structure: Structure
  /** kg of ash, salt left out, per mol of dissolved particles. */
  readonly ash_kg_mol: number
  /** Dextrose equivalent of `syrup_solids`. */
  readonly syrup_DE: number
  /** Shares of the fat by kind, adding up to 1; empty: the heat of fat crystals is left out. */
  readonly fat_kinds: Readonly<Partial<Record<FatKind, number>>>
  /**
   * `cooling`: cooled from the melt within hours, so that the fat sets late; `molten`: liquid at any temperature;
   * `rested` where not given.
   */
  readonly fat_state?: 'rested' | 'cooling' | 'molten'
  /** Measured freezing point, °C, where tables understate what is dissolved. */
  readonly measured_freezing_C?: number
  /** Share of the volume that is air, 0 to 1. */
  readonly porosity: number
  /** Water activity in the pores. */
  readonly pore_aw: number
}

/** kg/mol and Norrish's constant (positive). */
interface Solute {
  readonly kg_mol: number
  readonly K: number
}

/**
 * Source: `norrish-1966` (from memory) for sugars, `baeza-2010` for sugar alcohols; isomalt's K is that of a
 * disaccharide (estimate).
 */
export const solutes: Readonly<Record<Exclude<Sugar, 'syrup_solids'> | Polyol | 'ethanol', Solute>> = {
  sucrose: { kg_mol: 0.3423, K: 6.47 },
  lactose: { kg_mol: 0.3423, K: 10.2 },
  maltose: { kg_mol: 0.3423, K: 4.54 },
  glucose: { kg_mol: 0.18016, K: 2.25 },
  fructose: { kg_mol: 0.18016, K: 2.25 },
  sorbitol: { kg_mol: 0.18217, K: 1.65 },
  xylitol: { kg_mol: 0.15215, K: 1.66 },
  erythritol: { kg_mol: 0.12212, K: 1.34 },
  mannitol: { kg_mol: 0.18217, K: 0.906 },
  glycerol: { kg_mol: 0.09209, K: 1.16 },
  isomalt: { kg_mol: 0.3443, K: 4.5 },
  ethanol: { kg_mol: 0.04607, K: 0 },
}
/** Norrish's constant of glucose syrups of any DE (estimate). */
export const SYRUP_K = 4.5
/** kg/mol of a glucose syrup's solids. */
export const syrupMolarMass = (DE: number): number => 18 / DE

/** kg of common salt per mol of particles: 58.44 g/mol over 1.85. */
const SALT_KG_MOL = 0.05844 / 1.85

/** Water that protein and starch hold so firmly that it never freezes, kg per kg. */
const BOUND_BY_PROTEIN = 0.4
const BOUND_BY_STARCH = 0.3

const sum = (parts: Readonly<Partial<Record<string, number>>>): number =>
  Object.values(parts).reduce<number>((total, part) => total + (part ?? 0), 0)

/** Particles that even the purest water is given, mol/kg: its ice then forms within some mK instead of at one point. */
const TRACE_MOL_KG = 1e-3

/** All sugars, crystals included, kg/kg. */
export const totalSugars = (composition: Composition): number => sum(composition.sugars)
export const totalPolyols = (composition: Composition): number => sum(composition.polyols)

/**
 * Water free to dissolve and to freeze, kg/kg.
 * Source: `schwartzberg-1976` (protein, by way of `ashrae-2006`); starch from memory.
 */
export function freeWater({ water, protein, starch }: Pick<Composition, 'water' | 'protein' | 'starch'>): number {
  return Math.max(0, water - BOUND_BY_PROTEIN * protein - BOUND_BY_STARCH * starch)
}

/** The watery solution of a mass, or nothing when there is too little free water or crystals lie in it. */
export function solutionOf(mass: Mass): Solution | null {
  const { composition } = mass
  const solvent = freeWater(composition)
  if (solvent <= 0.02 || composition.crystals > 0.01 * totalSugars(composition)) return null
  let particles = 0
  let norrish = 0
  const add = (kg: number, { kg_mol, K }: Solute): void => {
    particles += kg / kg_mol
    norrish += (Math.sqrt(K) * kg) / kg_mol
  }
  const { syrup_solids = 0, ...plain } = composition.sugars
  for (const [name, kg] of Object.entries({ ...plain, ...composition.polyols })) {
    const dissolved = name === 'sucrose' ? kg - composition.crystals : kg
    add(dissolved, solutes[name as keyof typeof solutes])
  }
  if (syrup_solids > 0) add(syrup_solids, { kg_mol: syrupMolarMass(mass.syrup_DE), K: SYRUP_K })
  particles += composition.alcohol / solutes.ethanol.kg_mol
  particles += composition.salt / SALT_KG_MOL + (composition.ash - composition.salt) / mass.ash_kg_mol
  const solution = { solvent, solutes: Math.max(particles, TRACE_MOL_KG * solvent), norrish }
  return mass.measured_freezing_C === undefined ? solution : solutionFreezingAt(solution, mass.measured_freezing_C)
}

/** Everything that warms and conducts like carbohydrate, crystals left out, kg/kg. */
export function carbohydrate(composition: Composition): number {
  const dissolved = totalSugars(composition) - composition.crystals
  return dissolved + composition.starch + totalPolyols(composition) + composition.other
}

/**
 * Fat is taken as continuous when it fills more than 0.55 of the volume without air and crystals at 20 °C; a rule of
 * thumb that sorts the usual masses right. Whipping cream to the edge of butter, or a butter creamed with much egg,
 * must be told.
 */
export function structureOf(composition: Composition): Structure {
  const fat = composition.fat / substances.fat.rho(20)
  const rest =
    composition.water / substances.water.rho(20) +
    composition.protein / substances.protein.rho(20) +
    carbohydrate(composition) / substances.carbohydrate.rho(20) +
    composition.fibre / substances.fibre.rho(20) +
    composition.ash / substances.ash.rho(20) +
    composition.alcohol / substances.ethanol.rho(20)
  return fat > 0.55 * (fat + rest) ? 'WO' : 'OW'
}

/** Specific volume of the fat, m³/kg: set fats count as solid up to 30 °C where the fat is continuous. */
export function fatVolumeOf({ structure, fat_kinds }: Mass): (T_C: number) => number {
  let setShare = 0
  let setVolume = 0
  for (const [kind, share] of Object.entries(fat_kinds)) {
    const { solidDensity } = fats[kind as FatKind]
    if (structure === 'OW' || solidDensity === undefined) continue
    setShare += share
    setVolume += share / solidDensity
  }
  return (T_C) => {
    const liquid = 1 / substances.fat.rho(T_C)
    // The reference rule switches at 30 °C; a ramp up to the end of melting keeps conductivity free of a jump.
    const set = Math.min(Math.max((35 - T_C) / 5, 0), 1)
    return liquid + set * (setVolume - setShare * liquid)
  }
}

/** Density without air, kg/m³, with `ice` kg/kg of the water frozen. */
export function condensedDensity(mass: Mass, T_C: number, ice: number): number {
  const { composition } = mass
  return (
    1 /
    ((composition.water - ice) / substances.water.rho(T_C) +
      ice / substances.ice.rho(Math.min(T_C, 0)) +
      composition.protein / substances.protein.rho(T_C) +
      composition.fat * fatVolumeOf(mass)(T_C) +
      carbohydrate(composition) / substances.carbohydrate.rho(T_C) +
      composition.crystals / substances.sucroseCrystal.rho(T_C) +
      composition.fibre / substances.fibre.rho(T_C) +
      composition.ash / substances.ash.rho(T_C) +
      composition.alcohol / substances.ethanol.rho(T_C))
  )
}
