/*
 * What a batter or a crumb does in the oven: it rises while it is soft, sets, and where its water boils out it leaves a
 * dry crust. All heat is told per volume of the mass as poured, so that mass and heat stay with their cell however much
 * it rises.
 *
 * Left out: heat of setting (3 of some 200 kJ/kg, `zanoni-1995`), evaporation of a wet surface below the boiling point,
 * water that moves inside the crumb, and the warming of vapour on its way through the crust (4 % of its heat).
 */

import { POLYNOMIAL_RANGE_C, substances } from './components.ts'
import { condensedDensity, type Mass, solutionOf, totalSugars } from './composition.ts'
import { drawCurve, keptCurve } from './curve.ts'
import { waterActivity } from './freezing.ts'
import { type MassLaw, massLaw } from './mass-law.ts'
import type { Baking } from './material.ts'
import { maxwellEucken } from './mixing.ts'
import {
  airConductivity,
  boilingPoint,
  evaporationHeat,
  PRESSURE,
  saturationPressure,
  vapourConductivity,
} from './vapour.ts'

/** What composition alone does not say of a mass's baking. */
export interface BakingInput {
  readonly baked: boolean
  /** Growth at which bubbles open and the mass rises no more. */
  readonly mostGrowth: number
  /** Gas that leavening gives off, m³ at 20 °C per kg of mass. */
  readonly leavening: number
}

/** Water that stays in a crust, kg per kg of what is dry. Source: 0.03 to 0.05, estimate. */
const STAYS_IN_CRUST = 0.04
/** Leavening gives off its gas between these temperatures, °C (estimate). */
const LEAVENING_C = [30, 70] as const

const GAS_CONSTANT = 8.314462
/** Source: `zanoni-1995-starch` (from memory). */
const SETTING_PER_S = 2.8e18
const SETTING_J_MOL = 139_000
/** K that sugar delays setting, per per cent of sugar in the sugar and water (from memory; estimate). */
const SUGAR_DELAY_K = 0.6

/** Between these porosities the vapour's share in a set pore and its cap fall. Source: `zanoni-1995`. */
const LIGHT_POROSITY = [0.7, 0.8] as const
const VAPOUR_SHARE = [0.5, 0.3] as const
const PORE_CAP = [0.6, 0.4] as const

const STEFAN_BOLTZMANN = 5.670374419e-8
/** Width of a crust's pores, m, across which they radiate (estimate). */
const CRUST_PORE = 1e-3

/** Rate of the setting of starch in dough, 1/s, `delay_K` later than in lean dough. */
export function starchSettingRate(T_C: number, delay_K: number): number {
  return SETTING_PER_S * Math.exp(-SETTING_J_MOL / (GAS_CONSTANT * (T_C - delay_K + 273.15)))
}

/** How much warmer than lean dough a mass sets because of its sugar, K. */
export function sugarDelay(mass: Mass): number {
  const sugars = totalSugars(mass.composition)
  return sugars > 0 ? SUGAR_DELAY_K * ((100 * sugars) / (sugars + mass.composition.water)) : 0
}

/** Water activity of a mass whose water is all free to boil: what it dissolves, without what protein and starch hold. */
function boilingActivity(mass: Mass): number {
  const solution = solutionOf(mass)
  return solution === null ? mass.pore_aw : waterActivity({ ...solution, solvent: mass.composition.water })
}

const between = (x: number, [from, to]: readonly [number, number], [a, b]: readonly [number, number]): number =>
  a + (b - a) * Math.min(Math.max((x - from) / (to - from), 0), 1)

/** Conductivity of a humid pore of set crumb, W/(m K): in very light crumb vapour carries less than closed pores let it. */
function crumbPore(T_C: number, activity: number, porosity: number): number {
  const share = between(porosity, LIGHT_POROSITY, VAPOUR_SHARE)
  const cap = between(porosity, LIGHT_POROSITY, PORE_CAP)
  return Math.min(airConductivity(T_C) + (T_C < 0 ? 0 : share * vapourConductivity(T_C, activity)), cap)
}

/** Conductivity of a dry pore of crust, W/(m K): steam or air, which conduct alike, and radiation across the pore. */
function crustPore(T_C: number): number {
  return airConductivity(T_C) + 4 * STEFAN_BOLTZMANN * (T_C + 273.15) ** 3 * CRUST_PORE
}

/** What is left of 1 kg of a mass when `boilsOut` kg of its water are gone, without its pores. */
function driedMass(mass: Mass, boilsOut: number): Mass {
  const { composition } = mass
  const left = 1 - boilsOut
  const per = (share: number): number => share / left
  const perEach = <Kinds extends Readonly<Partial<Record<string, number>>>>(kinds: Kinds): Kinds =>
    Object.fromEntries(Object.entries(kinds).map(([kind, share]) => [kind, per(share ?? 0)])) as Kinds
  return {
    ...mass,
    porosity: 0,
    composition: {
      water: per(composition.water - boilsOut),
      protein: per(composition.protein),
      fat: per(composition.fat),
      sugars: perEach(composition.sugars),
      starch: per(composition.starch),
      fibre: per(composition.fibre),
      ash: per(composition.ash),
      alcohol: per(composition.alcohol),
      polyols: perEach(composition.polyols),
      other: per(composition.other),
      salt: per(composition.salt),
      crystals: per(composition.crystals),
    },
  }
}

const NO_ICE = { mass: 0, slope: 0 }

/** Growth of soft mass: gas that warms and takes up vapour, in bubbles that stay closed (ideal gas). */
function growthLaw(mass: Mass, density: number, activity: number, input: BakingInput): (T_C: number) => number {
  if (input.baked) return () => 1
  const { porosity } = mass
  const vapour = (T_C: number): number => activity * saturationPressure(T_C)
  const dry = (PRESSURE - vapour(20)) / 293.15
  return (T_C) => {
    const left = PRESSURE - vapour(T_C)
    if (left <= 0) return input.mostGrowth
    const gas = porosity + density * input.leavening * between(T_C, LEAVENING_C, [0, 1])
    return Math.min(input.mostGrowth, 1 - porosity + (gas * dry * (T_C + 273.15)) / left)
  }
}

/** How a mass of known composition bakes; nothing when it has too little water to boil out. */
export function bakingOf(mass: Mass, law: MassLaw, density: number, input: BakingInput): Baking | undefined {
  const { composition, porosity } = mass
  const boilsOut = composition.water - STAYS_IN_CRUST * (1 - composition.water)
  if (boilsOut <= 0.02) return undefined
  const activity = boilingActivity(mass)
  const boils_C = boilingPoint(activity)
  const dried = massLaw(driedMass(mass, boilsOut))
  const left = 1 - boilsOut
  /** Volume without pores of what is left of 1 m³ as poured, m³. */
  const solid = (density * left) / condensedDensity(driedMass(mass, boilsOut), 100, 0)
  const delay_K = sugarDelay(mass)
  const liquid = boilsOut * (substances.water.heat(boils_C) - substances.water.heat(0))
  const zero = law.enthalpy(boils_C, NO_ICE) - liquid - left * dried.enthalpy(boils_C, NO_ICE)
  const crust = {
    enthalpy: (T_C: number) => zero + left * dried.enthalpy(T_C, dried.ice(T_C)),
    c: (T_C: number) => left * dried.c(T_C, dried.ice(T_C)),
  }
  const moistPorosity = (growth: number): number => 1 - (1 - porosity) / growth
  const crustConductivity = (T_C: number, growth: number): number =>
    maxwellEucken(dried.condensedConductivity(T_C, NO_ICE), crustPore(T_C), 1 - solid / growth)
  return {
    boils_C,
    boilsOut,
    evaporation: evaporationHeat(boils_C),
    baked: input.baked,
    mostGrowth: input.baked ? 1 : input.mostGrowth,
    settingRate: (T_C) => starchSettingRate(T_C, delay_K),
    softGrowth: growthLaw(mass, density, activity, input),
    moistConductivity(T_C, set, growth) {
      const ice = law.ice(T_C)
      // What is laid in baked was judged as it is: its own porosity, the plain law.
      if (input.baked || (set === 0 && growth === 1)) return law.k(T_C, ice)
      const condensed = law.condensedConductivity(T_C, ice)
      const pores = moistPorosity(growth)
      const closed = set === 0 ? 0 : pores
      return maxwellEucken(condensed, crumbPore(T_C, mass.pore_aw, closed), pores)
    },
    crustConductivity,
    crust: {
      ...crust,
      curve: keptCurve((low_C, high_C) =>
        drawCurve(
          {
            point: (T_C) => ({ enthalpy: density * crust.enthalpy(T_C), k: crustConductivity(T_C, 1) }),
            corners_C: [0, ...POLYNOMIAL_RANGE_C],
            jumps: [],
            kinks_C: [],
          },
          low_C,
          high_C,
        ),
      ),
    },
  }
}
