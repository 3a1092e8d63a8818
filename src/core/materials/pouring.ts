import { z } from '../zod.ts'

/*
 * How thin a mass is while it still pours. What pours is moved by its own weight where cold lies on warm, and so passes
 * heat better than it conducts. Masses that keep the trace of a spoon don't flow under so small a stress and have no
 * class.
 */

export const pourClass = z.enum(['watery', 'thin', 'syrupy'])
export type PourClass = z.infer<typeof pourClass>

/** A mass that pours. */
export interface Pouring {
  readonly class: PourClass
  /** Pa s */
  viscosity(T_C: number): number
}

const AT_C = 60
/**
 * Viscosity in the middle of each class at 60 °C, Pa s. Watery: water itself, 0.47 mPa s (`iapws`), juices. Thin: milk, cream with gelatin, raw custard.
 * Syrupy: honey, melted chocolate, warm ganache. From memory; each spans a power of ten.
 */
const middle: Readonly<Record<PourClass, number>> = { watery: 1e-3, thin: 10e-3, syrupy: 0.3 }
/** How many times thinner than its middle the thin end of a class is. */
export const THINNEST = 3

/**
 * How steeply viscosity falls with temperature, K: mu ~ exp(B/T). Water itself 1800 K from 20 to 60 °C (`iapws`), sugar
 * solutions of 40 % 2600 K (from memory).
 */
const STEEP_K = 2200
const ZERO_C = 273.15

export function pouringOf(name: PourClass): Pouring {
  return {
    class: name,
    viscosity: (T_C) => middle[name] * Math.exp(STEEP_K * (1 / (T_C + ZERO_C) - 1 / (AT_C + ZERO_C))),
  }
}

/** The same mass, thinner by a factor. */
export function thinned(pouring: Pouring, factor: number): Pouring {
  return { ...pouring, viscosity: (T_C) => pouring.viscosity(T_C) / factor }
}
