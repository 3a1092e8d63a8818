import type { Material } from '../materials/material.ts'
import type { StateLaw } from '../materials/state-law.ts'
import { settingLaw } from '../outcomes/kinetics/index.ts'
import type { SettingLaw } from '../outcomes/kinetics/law.ts'
import { setsOf } from '../outcomes/layer-laws.ts'
import { POURS } from '../solver/currents.ts'

/* Until when a mass pours: until its own setting laws have begun, cooled or heated at an ordinary pace. */

/** Paces at which the laws are asked, K/h: a thick mass in the cold, and one in the oven (assumed). */
const COOLING = 10
const HEATING = 60
const HOT_C = 90
const COLD_C = -5
const BOILING_C = 100
const ROOM_C = 20
const STEP_K = 0.25
/** A mass that has set by this share no longer gives way to its own small weight (assumed). */
const STIFF_EXTENT = 0.05

/** Where a mass stops to pour: below one temperature, above another, °C. */
export interface PoursWithin {
  readonly above_C: number
  readonly below_C: number
}

/** First temperature on the way at which every law has begun to hold, °C; undefined where they never do. */
function stiffFrom(laws: readonly SettingLaw[], from_C: number, to_C: number, pace_K_h: number): number | undefined {
  const states = laws.map((law) => Float64Array.from(law.start(from_C)))
  const steps = Math.round(Math.abs(to_C - from_C) / STEP_K)
  const move = (to_C - from_C) / steps
  for (let step = 0; step <= steps; step++) {
    const T_C = from_C + step * move
    if (laws.every((law, index) => law.extent(states[index]!, T_C) >= STIFF_EXTENT)) return T_C
    for (const [index, law] of laws.entries())
      law.advance(states[index]!, T_C, T_C + move, (3600 * Math.abs(move)) / pace_K_h)
  }
  return undefined
}

/** Between which temperatures a mass pours, as poured; ice stops it too. */
export function poursWithin(material: Material): PoursWithin {
  const laws = setsOf(material)
    .filter((one) => one.by !== 'ice')
    .map((one) => settingLaw(one, 'typical'))
  const freezes_C = material.freezes_C ?? Number.NEGATIVE_INFINITY
  const open = { above_C: freezes_C, below_C: Number.POSITIVE_INFINITY }
  if (laws.length === 0) return open
  const heated_C = stiffFrom(laws, ROOM_C, BOILING_C, HEATING)
  if (heated_C !== undefined && heated_C > ROOM_C) return { above_C: freezes_C, below_C: heated_C }
  const cooled_C = stiffFrom(laws, HOT_C, COLD_C, COOLING)
  return cooled_C === undefined ? open : { ...open, above_C: Math.max(freezes_C, cooled_C) }
}

/** A mass that has set once stays so, whatever comes. */
function poursLaw({ above_C, below_C }: PoursWithin): StateLaw {
  const pours = (T_C: number): boolean => T_C > above_C && T_C < below_C
  return {
    names: [POURS],
    start: (T_C) => [pours(T_C) ? 1 : 0],
    advance(values, _from_C, to_C) {
      if (!pours(to_C)) values[0] = 0
    },
  }
}

const known = new WeakMap<Material, Material>()

/** The material with the law that says how long it pours; itself where it doesn't. */
export function withPouring(material: Material): Material {
  if (material.pours === undefined) return material
  const made = known.get(material) ?? {
    ...material,
    states: [...(material.states ?? []), poursLaw(poursWithin(material))],
  }
  known.set(material, made)
  return made
}
