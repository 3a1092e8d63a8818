import { type Message, message } from '../messages.ts'
import { type BakingInput, bakingOf } from './baking.ts'
import { POLYNOMIAL_RANGE_C } from './components.ts'
import { condensedDensity, type Mass, solutionOf, totalPolyols, totalSugars } from './composition.ts'
import { drawCurve, keptCurve } from './curve.ts'
import { borrowedFats, type FatKind, fatIn, fats, undercooling_K } from './fats.ts'
import { FREEZING_ENDS_C, waterActivity } from './freezing.ts'
import { type MassLaw, massLaw } from './mass-law.ts'
import type { Baking, Look, Material, Properties, RecipeFacts } from './material.ts'
import { boilingPoint } from './vapour.ts'

export interface MassMaterialInput {
  readonly id: string
  readonly title: string
  readonly look: Look
  readonly mass: Mass
  /** What is known to be weak or was assumed, beside what follows from the composition. */
  readonly notes?: readonly Message[]
  readonly sources: readonly string[]
  readonly recipe?: RecipeFacts
  /** For a batter or a crumb: how it bakes. */
  readonly baking?: BakingInput
}

/** Sources of the model itself. */
const MODEL_SOURCES = ['choi-okos-1986', 'ashrae-2006'] as const

/** What a mass is at a temperature whatever its fat has been through. */
interface Bare {
  /** J/kg without the heat of fat crystals. */
  readonly heat: number
  readonly k: number
}

/** More temperatures than a few ranges ask for are not worth their room. */
const MOST_BARE = 20_000

/** The same for a mass with its fat rested, cooling or molten: asked once for each temperature. */
function bareOf(law: MassLaw): (T_C: number) => Bare {
  const known = new Map<number, Bare>()
  return (T_C) => {
    const before = known.get(T_C)
    if (before !== undefined) return before
    const ice = law.ice(T_C)
    const made = { heat: law.enthalpyWithoutFatCrystals(T_C, ice), k: law.k(T_C, ice) }
    if (known.size >= MOST_BARE) known.clear()
    known.set(T_C, made)
    return made
  }
}

/** A material of known composition. */
export function massMaterial(input: MassMaterialInput): Material {
  return inFatState(input)
}

const FAT_STATES = ['rested', 'cooling', 'molten'] as const

/** @param shared  of the same mass in another state of its fat */
function inFatState(input: MassMaterialInput, shared?: (T_C: number) => Bare): Material {
  const { id, title, look, mass, notes = [], sources, recipe } = input
  const law = massLaw(mass)
  const late = shared === undefined && undercools(mass)
  const bare = shared ?? (late ? bareOf(law) : undefined)
  const density = (1 - mass.porosity) * condensedDensity(mass, 20, 0)
  const baking = input.baking === undefined ? undefined : bakingOf(mass, law, density, input.baking)
  const range = baking === undefined ? validRange(mass) : POLYNOMIAL_RANGE_C
  const corners_C = [
    ...(law.freezes_C === undefined ? [] : [law.freezes_C, FREEZING_ENDS_C]),
    // Those of all three states, so that their curves share their points.
    ...Object.keys(mass.fat_kinds).flatMap((kind) =>
      (bare === undefined ? [mass.fat_state] : FAT_STATES).flatMap((state) => fatIn(state, kind as FatKind).corners_C),
    ),
    0,
    ...(mass.structure === 'WO' ? [30, 35] : []),
    ...(mass.porosity > 0 ? [98] : []),
    ...POLYNOMIAL_RANGE_C,
  ]
  const draw = (low_C: number, high_C: number) =>
    drawCurve(
      {
        point(T_C) {
          if (baking !== undefined && T_C >= baking.boils_C) return crustPoint(law, baking, density, T_C)
          if (bare !== undefined) {
            const { heat, k } = bare(T_C)
            return { enthalpy: density * (heat + law.melted(T_C)), k }
          }
          const ice = law.ice(T_C)
          return { enthalpy: density * law.enthalpy(T_C, ice), k: law.k(T_C, ice) }
        },
        corners_C,
        jumps: baking === undefined ? [] : [{ T_C: baking.boils_C, latent: density * boilingHeat(baking) }],
        kinks_C: [
          ...(law.freezes_C === undefined ? [] : [law.freezes_C]),
          ...(baking === undefined ? [] : [baking.boils_C]),
        ],
      },
      low_C,
      high_C,
    )
  return {
    id,
    title,
    look,
    density,
    validity_C: range,
    ...(law.freezes_C === undefined ? {} : { freezes_C: law.freezes_C }),
    composition_pct: percent(mass),
    ...(recipe === undefined ? {} : { recipe }),
    curve: keptCurve(draw),
    at: (T_C) =>
      baking !== undefined && T_C >= baking.boils_C
        ? crustProperties(law, baking, density, T_C)
        : properties(mass, law, T_C),
    ...(late
      ? {
          cooling: inFatState({ ...input, mass: { ...mass, fat_state: 'cooling' } }, bare),
          molten: inFatState({ ...input, mass: { ...mass, fat_state: 'molten' } }, bare),
        }
      : {}),
    ...(baking === undefined ? {} : { baking }),
    notes: [...notes, ...ownNotes(mass, law, range, baking)],
    sources: [...new Set([...sources, ...MODEL_SOURCES])],
  }
}

/** Heat taken up at the boiling point, J per kg of the mass as poured. */
const boilingHeat = ({ boilsOut, evaporation }: Baking): number => boilsOut * evaporation

const NO_ICE = { mass: 0, slope: 0 }

/** Above the boiling point, without the heat taken up there: the crust goes on from the moist mass. */
function crustPoint(law: MassLaw, baking: Baking, density: number, T_C: number) {
  const { boils_C, crust } = baking
  const heat = law.enthalpy(boils_C, NO_ICE) + crust.enthalpy(T_C) - crust.enthalpy(boils_C)
  return { enthalpy: density * heat, k: baking.crustConductivity(T_C, 1) }
}

/** Heat and its slope are those of 1 kg as poured, of which the crust is what is left. */
function crustProperties(law: MassLaw, baking: Baking, density: number, T_C: number): Properties {
  const { enthalpy, k } = crustPoint(law, baking, density, T_C)
  return {
    T_C,
    k,
    rho: density * (1 - baking.boilsOut),
    c: baking.crust.c(T_C),
    enthalpy_J_kg: enthalpy / density + boilingHeat(baking),
    ice_share: 0,
    solid_fat_share: law.solidFat(T_C),
  }
}

/** Heat of fat that comes late, J/kg, from which on it is worth a curve of its own. */
const LATE_HEAT = 500

function undercools(mass: Mass): boolean {
  if (mass.fat_state !== undefined && mass.fat_state !== 'rested') return false
  const late = (Object.entries(mass.fat_kinds) as [FatKind, number][]).filter(([kind]) => undercooling_K[kind] > 0)
  return mass.composition.fat * late.reduce((sum, [kind, share]) => sum + share * fats[kind].fusion, 0) > LATE_HEAT
}

function properties(mass: Mass, law: MassLaw, T_C: number): Properties {
  const ice = law.ice(T_C)
  const { water } = mass.composition
  return {
    T_C,
    k: law.k(T_C, ice),
    rho: law.rho(T_C, ice),
    c: law.c(T_C, ice),
    enthalpy_J_kg: law.enthalpy(T_C, ice),
    ice_share: water > 0 ? ice.mass / water : 0,
    solid_fat_share: law.solidFat(T_C),
  }
}

/** Supported up to where the mass's water would boil; a mass with next to no free water, up to the polynomials' end. */
function validRange(mass: Mass): readonly [number, number] {
  const [low, high] = POLYNOMIAL_RANGE_C
  const solution = solutionOf(mass)
  if (mass.composition.water < 0.03) return [low, high]
  return [low, Math.min(high, boilingPoint(solution === null ? 1 : waterActivity(solution)))]
}

function percent(mass: Mass): Readonly<Record<string, number>> {
  const { composition } = mass
  const shares: Record<string, number> = {
    water: composition.water,
    protein: composition.protein,
    fat: composition.fat,
    sugars: totalSugars(composition),
    starch: composition.starch,
    fibre: composition.fibre,
    ash: composition.ash,
    alcohol: composition.alcohol,
    polyols: totalPolyols(composition),
    other: composition.other,
  }
  return Object.fromEntries(Object.entries(shares).map(([name, share]) => [name, 100 * share]))
}

function ownNotes(
  mass: Mass,
  law: MassLaw,
  [low_C, high_C]: readonly [number, number],
  baking: Baking | undefined,
): readonly Message[] {
  const notes: Message[] =
    baking === undefined ? [message('law-range', { low_C, high_C })] : bakingNotes(baking, low_C, high_C)
  const { composition } = mass
  const kinds = Object.keys(mass.fat_kinds) as FatKind[]
  if (composition.fat >= 0.02 && kinds.length === 0) notes.push(message('fat-crystals-left-out'))
  const borrowed = kinds.filter(
    (kind) => borrowedFats.includes(kind) && composition.fat * (mass.fat_kinds[kind] ?? 0) > 0.02,
  )
  if (borrowed.length > 0) notes.push(message('fat-curve-borrowed', { kinds: borrowed.join(', ') }))
  if (law.freezes_C === undefined && composition.water > 0.02) notes.push(message('no-freezing-point'))
  if (mass.porosity > 0.05) notes.push(message('air-weighs', { air_pct: 100 * mass.porosity }))
  return notes
}

function bakingNotes(baking: Baking, low_C: number, high_C: number): Message[] {
  const { boils_C, boilsOut, mostGrowth } = baking
  return [
    message('law-range-baking', { low_C, high_C }),
    message('boils-out', { boils_C, water_pct: 100 * boilsOut }),
    ...(baking.baked ? [] : [message('rises-and-sets', { growth: mostGrowth })]),
  ]
}

/** A guess at how a mass of this composition looks. */
export function lookOf({ composition, structure, porosity }: Mass): Look {
  if (structure === 'WO') return composition.water > 0.05 ? 'cream' : 'chocolate'
  if (porosity > 0.55) return 'sponge'
  if (composition.fat < 0.01) return 'gel'
  return composition.fat > 0.15 || porosity > 0.2 ? 'cream' : 'custard'
}
