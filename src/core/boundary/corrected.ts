import type { Ambient } from './ambient.ts'
import type { StageAppliance } from './appliance.ts'
import type { FaceCondition } from './face.ts'
import type { Machine } from './machine.ts'
import type { Profile } from './profile.ts'

/* Surroundings as they are once measured, or as they may be: films multiplied, air warmer or colder, other power. */

/** A face with its film multiplied. */
export function filmTimes(condition: FaceCondition, times: number): FaceCondition {
  if (times === 1) return condition
  if (condition.kind === 'convective') return { ...condition, h: condition.h * times }
  if (condition.kind !== 'law') return condition
  const law = condition.film
  return { ...condition, film: (surface, air) => times * law(surface, air), key: `${condition.key} × ${times}` }
}

/** Makes courses, faces and appliances warmer by some kelvin; what several faces share stays shared. */
export interface Warmer {
  profile(given: Profile): Profile
  face(condition: FaceCondition): FaceCondition
  appliance(inside: StageAppliance): StageAppliance
}

const machineWarmer = (machine: Machine, by_K: number): Machine =>
  'set_C' in machine ? { ...machine, set_C: machine.set_C + by_K } : machine

/** All of one stage warmer by some kelvin. */
export function warmerBy(by_K: number): Warmer {
  const profiles = new Map<Profile, Profile>()
  const ambients = new Map<Ambient, Ambient>()
  const profile = (given: Profile): Profile => {
    if (by_K === 0) return given
    const made = profiles.get(given) ?? {
      ...given,
      at: (t: number) => given.at(t) + by_K,
      range: [given.range[0] + by_K, given.range[1] + by_K] as const,
    }
    profiles.set(given, made)
    return made
  }
  const ambient = (given: Ambient): Ambient => {
    if (by_K === 0) return given
    const made = ambients.get(given) ?? { ...given, air_C: profile(given.air_C), walls_C: profile(given.walls_C) }
    ambients.set(given, made)
    return made
  }
  return {
    profile,
    face(condition) {
      if (condition.kind === 'fixed') return { ...condition, surface_C: profile(condition.surface_C) }
      if (condition.kind === 'law')
        return condition.ambient === undefined ? condition : { ...condition, ambient: ambient(condition.ambient) }
      if (condition.kind !== 'convective') return condition
      const { radiation } = condition
      return {
        ...condition,
        air_C: profile(condition.air_C),
        ...(radiation === undefined ? {} : { radiation: { ...radiation, walls_C: profile(radiation.walls_C) } }),
      }
    },
    appliance(inside) {
      const { appliance, start_C } = inside
      return {
        ...inside,
        appliance: { ...appliance, machine: machineWarmer(appliance.machine, by_K) },
        ...(start_C === undefined ? {} : { start_C: start_C + by_K }),
      }
    },
  }
}

/** An appliance whose machine has so many times the power. */
export function powerTimes(inside: StageAppliance, times: number): StageAppliance {
  const { machine } = inside.appliance
  if (times === 1 || !('rated' in machine)) return inside
  return { ...inside, appliance: { ...inside.appliance, machine: { ...machine, rated: times * machine.rated } } }
}
