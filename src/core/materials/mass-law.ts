/*
 * The thermal law of a mass of known composition: enthalpy by exact integration of the components' heat capacities
 * with ice and fat crystals at each temperature, conductivity by the structure of the mass.
 */

import { FUSION_J_KG, type Substance, substances } from './components.ts'
import { type Composition, carbohydrate, condensedDensity, fatVolumeOf, type Mass, solutionOf } from './composition.ts'
import { type Fat, type FatKind, fatIn } from './fats.ts'
import { freezingPoint, type Unfrozen, unfrozenWater } from './freezing.ts'
import { levy, maxwellEucken, maxwellMulti } from './mixing.ts'
import { poreConductivity } from './vapour.ts'

/** Ice of 1 kg of mass at a temperature, kg, and its slope, kg/K. */
export interface Ice {
  readonly mass: number
  readonly slope: number
}

const NO_ICE: Ice = { mass: 0, slope: 0 }

export interface MassLaw {
  /** °C; nothing when no ice forms above −40 °C. */
  readonly freezes_C: number | undefined
  ice(T_C: number): Ice
  /** Share of the fat that is solid, 0 to 1. */
  solidFat(T_C: number): number
  /** J/kg, zero at −40 °C. */
  enthalpy(T_C: number, ice: Ice): number
  /** J/kg without the heat of fat crystals, zero at −40 °C. */
  enthalpyWithoutFatCrystals(T_C: number, ice: Ice): number
  /** Heat of melting of the fat that is molten, J/kg: what `enthalpy` has more than the one without fat crystals. */
  melted(T_C: number): number
  /** Slope of `enthalpy`, J/(kg K). */
  c(T_C: number, ice: Ice): number
  /** W/(m K), air left out. */
  condensedConductivity(T_C: number, ice: Ice): number
  /** W/(m K) */
  k(T_C: number, ice: Ice): number
  /** kg/m³ */
  rho(T_C: number, ice: Ice): number
}

interface Share {
  readonly kg: number
  readonly of: Substance
}

/** What neither freezes nor is fat nor crystals. */
function dryShares(composition: Composition): readonly Share[] {
  const all: Share[] = [
    { kg: composition.protein, of: substances.protein },
    { kg: carbohydrate(composition), of: substances.carbohydrate },
    { kg: composition.fibre, of: substances.fibre },
    { kg: composition.ash, of: substances.ash },
    { kg: composition.alcohol, of: substances.ethanol },
  ]
  return all.filter((share) => share.kg > 0)
}

export function massLaw(mass: Mass): MassLaw {
  const { composition, structure, porosity, pore_aw } = mass
  const { water, ice: frozen, fat, sucroseCrystal } = substances
  const solution = solutionOf(mass)
  const starts = solution === null ? undefined : freezingPoint(solution)
  const freezes_C = starts === undefined || starts < -40 ? undefined : starts
  const dry = dryShares(composition)
  const fatParts: { readonly share: number; readonly fat: Fat }[] = Object.entries(mass.fat_kinds).map(
    ([kind, share]) => ({ share, fat: fatIn(mass.fat_state, kind as FatKind) }),
  )
  const fatVolume = fatVolumeOf(mass)
  const waterAtZero = water.heat(0)
  const iceAtZero = frozen.heat(0)

  const ice = (T_C: number): Ice => {
    if (solution === null || freezes_C === undefined || T_C >= freezes_C) return NO_ICE
    const left: Unfrozen = unfrozenWater(solution, T_C, freezes_C)
    return { mass: solution.solvent - left.water, slope: -left.slope }
  }
  /** Heat of 1 kg of water less that of 1 kg of ice, both from ice at −40 °C. */
  const liquidHeat = (T_C: number): number => iceAtZero + FUSION_J_KG + water.heat(T_C) - waterAtZero
  const solidFat = (T_C: number): number =>
    fatParts.reduce((total, part) => total + part.share * part.fat.solid(T_C), 0)

  const sensible = (T_C: number, { mass: iceMass }: Ice): number => {
    let heat = composition.fat * fat.heat(T_C) + composition.crystals * sucroseCrystal.heat(T_C)
    for (const share of dry) heat += share.kg * share.of.heat(T_C)
    const liquid = composition.water - iceMass
    return heat + iceMass * frozen.heat(T_C) + liquid * liquidHeat(T_C)
  }
  // Water that never freezes carries its heat of fusion at −40 °C already.
  const atReference = sensible(-40, ice(-40))
  const enthalpyWithoutFatCrystals = (T_C: number, at: Ice): number => sensible(T_C, at) - atReference
  const fusion = (T_C: number): number =>
    fatParts.reduce((total, part) => total + part.share * part.fat.fusion * (1 - part.fat.solid(T_C)), 0)
  const melted = (T_C: number): number => composition.fat * fusion(T_C)

  const condensedConductivity = (T_C: number, { mass: iceMass }: Ice): number => {
    let volume = (composition.water - iceMass) / water.rho(T_C)
    let flow = volume * water.k(T_C)
    for (const share of dry) {
      const part = share.kg / share.of.rho(T_C)
      volume += part
      flow += part * share.of.k(T_C)
    }
    const ofFat = composition.fat * fatVolume(T_C)
    const ofCrystals = composition.crystals / sucroseCrystal.rho(T_C)
    const ofIce = iceMass / frozen.rho(Math.min(T_C, 0))
    const rest = volume + ofFat + ofCrystals
    const mean = volume > 0 ? flow / volume : fat.k(T_C)
    const crystals = { k: sucroseCrystal.k(T_C), share: ofCrystals / rest }
    const unfrozen =
      structure === 'OW'
        ? maxwellMulti(mean, [{ k: fat.k(T_C), share: ofFat / rest }, crystals])
        : maxwellMulti(fat.k(T_C), [{ k: mean, share: volume / rest }, crystals])
    return ofIce > 0 ? levy(frozen.k(T_C), unfrozen, ofIce / (rest + ofIce)) : unfrozen
  }

  return {
    freezes_C,
    ice,
    solidFat,
    enthalpyWithoutFatCrystals,
    enthalpy: (T_C, at) => enthalpyWithoutFatCrystals(T_C, at) + melted(T_C),
    melted,
    c(T_C, { mass: iceMass, slope }) {
      let c = composition.fat * fat.c(T_C) + composition.crystals * sucroseCrystal.c(T_C)
      for (const share of dry) c += share.kg * share.of.c(T_C)
      c += iceMass * frozen.c(T_C) + (composition.water - iceMass) * water.c(T_C)
      c += slope * (frozen.heat(T_C) - liquidHeat(T_C))
      for (const part of fatParts) c -= composition.fat * part.share * part.fat.fusion * part.fat.slope(T_C)
      return c
    },
    condensedConductivity,
    k(T_C, at) {
      const condensed = condensedConductivity(T_C, at)
      return porosity > 0 ? maxwellEucken(condensed, poreConductivity(T_C, pore_aw), porosity) : condensed
    },
    rho: (T_C, at) => (1 - porosity) * condensedDensity(mass, T_C, at.mass),
  }
}
