import type { FaceCondition } from '../../src/core/boundary/face.ts'
import { steady } from '../../src/core/boundary/profile.ts'
import type { Course, Segment } from '../../src/core/journey/course.ts'
import { analyticMaterial } from '../../src/core/materials/analytic.ts'
import { starchSettingRate } from '../../src/core/materials/baking.ts'
import type { Material } from '../../src/core/materials/material.ts'

/** Oven air and walls of one temperature; `h` is the convective part, as the surroundings' data have it. */
export const oven = (h: number, air_C: number): FaceCondition => ({
  kind: 'convective',
  h,
  air_C: steady(air_C),
  resistances: [],
  radiation: { emissivity: 0.9, walls_C: steady(air_C) },
})

/** Values of a name in every cell of the last segment at a sample of the course. */
export function stateAt(course: Course, name: string, sample: number): Float64Array {
  const segment: Segment = course.segments.find(({ first, last }) => first <= sample && sample <= last)!
  return segment.states[name]![sample - segment.first]!
}

/** Moist mass and crust of constant properties that boil at 100 °C: what has an exact solution. */
export function twoPhases(given: {
  readonly rho: number
  readonly latent: number
  readonly moist: { readonly k: number; readonly c: number }
  readonly crust: { readonly k: number; readonly c: number }
}): Material {
  const { rho, latent, moist, crust } = given
  const evaporation = 2.257e6
  const material = analyticMaterial({
    id: 'two-phases',
    title: 'Two phases',
    density: rho,
    k: (T_C) => (T_C < 100 ? moist.k : crust.k),
    storage: { kind: 'capacity', rho_c: (T_C) => rho * (T_C < 100 ? moist.c : crust.c) },
    corners_C: [100],
    jumps: [{ T_C: 100, latent: rho * latent }],
  })
  const dry = analyticMaterial({
    id: 'dry',
    title: 'Dry',
    density: rho,
    k: () => crust.k,
    storage: { kind: 'capacity', rho_c: () => rho * crust.c },
  })
  return {
    ...material,
    baking: {
      boils_C: 100,
      boilsOut: latent / evaporation,
      evaporation,
      baked: true,
      settingRate: () => 0,
      softGrowth: () => 1,
      mostGrowth: 1,
      moistConductivity: () => moist.k,
      crustConductivity: () => crust.k,
      crust: { curve: dry.curve, enthalpy: (T_C) => crust.c * T_C, c: () => crust.c },
    },
  }
}

const KELVIN = 273.15
/** kg of solids per m³ of crumb and of crust. */
const CRUMB = 180.61
const CRUST = 321.31
/** kg of water per kg of solids, at first and in the crust. */
const WATER = 0.65
const LEFT = 0.04
const FRONT_C = 100
const solids = (T: number): number => 5 * T + 25
const water = (T: number): number => (5.207 - 73.17e-4 * T + 1.35e-5 * T * T) * 1e3
const moistConductivity = (T_C: number): number => 0.9 / (1 + Math.exp(-0.1 * (T_C + KELVIN - 353.16))) + 0.2
const CRUST_CONDUCTIVITY = 0.2
const moistCapacity = (T_C: number): number => CRUMB * (solids(T_C + KELVIN) + WATER * water(T_C + KELVIN))
const crustCapacity = (T_C: number): number => CRUST * solids(T_C + KELVIN)

/**
 * Bread by the parameters of Purlis and Salvadori (2009), Bread baking as a moving boundary problem, J. Food Eng. 91,
 * 428-442: from memory; that there is a front at 100 °C is confirmed by Zanoni and others (1994), J. Food Eng. 23,
 * 321-336 (abstract seen). Their densities are taken as those of dry solids, since heat capacity is told per kg of
 * them; the water of their dough, 0.65, and what stays in a crust, 0.04 kg per kg of solids, are from memory too.
 */
export const publishedBread = ((): Material => {
  const density = CRUMB * (1 + WATER)
  const boilsOut = (CRUMB * (WATER - LEFT)) / density
  const evaporation = 2.257e6
  const moist = analyticMaterial({
    id: 'published-bread',
    title: 'Bread, published parameters',
    density,
    k: (T_C) => (T_C < FRONT_C ? moistConductivity(T_C) : CRUST_CONDUCTIVITY),
    storage: { kind: 'capacity', rho_c: (T_C) => (T_C < FRONT_C ? moistCapacity(T_C) : crustCapacity(T_C)) },
    corners_C: [FRONT_C],
    jumps: [{ T_C: FRONT_C, latent: density * boilsOut * evaporation }],
  })
  const crust = analyticMaterial({
    id: 'published-crust',
    title: 'Crust, published parameters',
    density,
    k: () => CRUST_CONDUCTIVITY,
    storage: { kind: 'capacity', rho_c: crustCapacity },
  })
  return {
    ...moist,
    baking: {
      boils_C: FRONT_C,
      boilsOut,
      evaporation,
      baked: false,
      settingRate: (T_C) => starchSettingRate(T_C, 0),
      softGrowth: () => 1,
      mostGrowth: 1,
      moistConductivity,
      crustConductivity: () => CRUST_CONDUCTIVITY,
      crust: {
        curve: crust.curve,
        enthalpy: (T_C) => crust.at(T_C).enthalpy_J_kg,
        c: (T_C) => crustCapacity(T_C) / density,
      },
    },
  }
})()
