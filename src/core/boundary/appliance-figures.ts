import { z } from '../zod.ts'
import type { Appliance, Opening, Store } from './appliance.ts'
import type { Machine } from './machine.ts'

/* An appliance by the figures that its maker, a file or a plan tells; what they leave out is taken from its kind. */

const finite = z.number()
const estimate = z.strictObject({ low: finite, typical: finite, high: finite })

/** The appliance of a file of shared/surroundings. */
export const applianceFileSchema = z.strictObject({
  /** Stages in one appliance share its name. */
  name: z.string().regex(/^[A-Za-z0-9-]+$/),
  title: z.string().min(1),
  kind: z.enum(['cold', 'oven', 'bath']),
  set_C: finite,
  UA_W_K: estimate,
  liner_kJ_K: estimate.exactOptional(),
  liner_W_K: finite.gt(0).exactOptional(),
  capacity_W: estimate.exactOptional(),
  rated_C: finite.exactOptional(),
  slope_per_K: finite.min(0).exactOptional(),
  most: finite.min(1).exactOptional(),
  fan_W: estimate.exactOptional(),
  cavity_kJ_K: estimate.exactOptional(),
  shell_kJ_K: estimate.exactOptional(),
  heater_W: estimate.exactOptional(),
  water_kg: estimate.exactOptional(),
  ice_kg: estimate.exactOptional(),
  off: z.boolean().exactOptional(),
  start_C: finite.exactOptional(),
  /** Through a door that stands open all the time. */
  door_W_K: estimate.exactOptional(),
  /** Warmest that what else lies in it should have. */
  limit_C: finite.exactOptional(),
  rating_kg_24h: finite.gt(0).exactOptional(),
})

/** What an appliance is; everything but its kind and set point may be left out. */
export interface ApplianceFigures {
  readonly name: string
  readonly title: string
  readonly kind: 'cold' | 'oven' | 'bath'
  readonly set_C: number
  readonly room_C?: number
  /** W/K from within to the room. */
  readonly UA?: number
  /** J/K and W/K */
  readonly liner?: number
  readonly linerFilm?: number
  /** W at `rated_C`, 1/K, and the most as a multiple. */
  readonly capacity?: number
  readonly rated_C?: number
  readonly slope?: number
  readonly most?: number
  readonly fan?: number
  /** J/K */
  readonly cavity?: number
  readonly shell?: number
  /** W */
  readonly heater?: number
  /** kg */
  readonly water?: number
  readonly ice?: number
  readonly off?: boolean
  /** Switches this far around its set point, K. */
  readonly band?: number
  readonly goods?: { readonly heat: number; readonly film: number }
  /** W/K of a door that stands open all the time, and openings. */
  readonly door?: number
  readonly openings?: readonly Opening[]
  readonly start_C?: number
  readonly limit_C?: number
  readonly rating_kg_24h?: number
  /** How many pieces alike it has to cope with. */
  readonly pieces?: number
  /** Whether its power was told, not taken from its kind. */
  readonly powerTold?: boolean
}

/** Room that an appliance stands in unless told otherwise, °C. Common practice, no source. */
export const ROOM_C = 22
/** Share of its rating that a compressor gains per kelvin of warmer air, and the most; see `coolingCapacity`. */
const SLOPE = 0.04
const MOST = 2
/** Heat capacity of water, J/(kg K), and heat of melting of ice, J/kg. Source: `iapws`. */
const WATER = 4186
export const MELTING = 333_600
/** How an oven loses heat: straight from the cavity, from cavity to shell, from shell to room, over the whole (assumed). */
const OVEN_SHARES = { direct: 0.27, toShell: 8 / 3, shellToRoom: 1 } as const

function machineOf(figures: ApplianceFigures): Machine {
  const { kind, set_C, off, band, heater, capacity, ice } = figures
  if (off === true) return { kind: 'off' }
  const switches = band === undefined ? {} : { band }
  if (kind === 'bath' && ice !== undefined) return { kind: 'ice', set_C, store: ice * MELTING }
  if (heater !== undefined) return { kind: 'heating', set_C, rated: heater, ...switches }
  if (capacity === undefined) return { kind: 'off' }
  const { rated_C = set_C, slope = SLOPE, most = MOST } = figures
  return { kind: 'cooling', set_C, rated: capacity, rated_C, slope, most, ...switches }
}

/** The network of an appliance from its figures. */
export function applianceOf(figures: ApplianceFigures): Appliance {
  const { name, kind, room_C = ROOM_C, UA = 0, fan = 0, door = 0, openings = [], goods } = figures
  const stored: Store[] = goods === undefined ? [] : [{ name: 'goods', heat: goods.heat, toAir: goods.film, toRoom: 0 }]
  const common = { name, machine: machineOf(figures), fan, room_C, openings }
  if (kind === 'oven') {
    const { direct, toShell, shellToRoom } = OVEN_SHARES
    const { cavity = 5500, shell = 20_000 } = figures
    const wall: Store = { name: 'shell', heat: shell, toAir: toShell * UA, toRoom: shellToRoom * UA }
    return { ...common, heat: cavity, toRoom: direct * UA + door, stores: [...(UA > 0 ? [wall] : []), ...stored] }
  }
  if (kind === 'bath') {
    const { water = 0, ice = 0 } = figures
    return { ...common, heat: (water + ice) * WATER, toRoom: UA + door, stores: stored }
  }
  const { liner = 0, linerFilm = 0 } = figures
  if (liner === 0 || linerFilm === 0) return { ...common, heat: 0, toRoom: UA + door, stores: stored }
  const inside: Store = { name: 'liner', heat: liner, toAir: linerFilm, toRoom: UA }
  return { ...common, heat: 0, toRoom: door, stores: [inside, ...stored] }
}

type File = z.infer<typeof applianceFileSchema>
type Named = Pick<ApplianceFigures, 'name' | 'title' | 'kind' | 'set_C'>

/** The typical figures of a file. */
export function figuresOfFile(file: File): ApplianceFigures {
  const { name, title, kind, set_C, rated_C, slope_per_K, most, off, start_C, limit_C, rating_kg_24h } = file
  const kilo = (of: { readonly typical: number } | undefined) => (of === undefined ? undefined : 1000 * of.typical)
  const figures: { [Key in Exclude<keyof ApplianceFigures, keyof Named>]?: ApplianceFigures[Key] | undefined } = {
    UA: file.UA_W_K.typical,
    liner: kilo(file.liner_kJ_K),
    linerFilm: file.liner_W_K,
    capacity: file.capacity_W?.typical,
    rated_C,
    slope: slope_per_K,
    most,
    fan: file.fan_W?.typical,
    cavity: kilo(file.cavity_kJ_K),
    shell: kilo(file.shell_kJ_K),
    heater: file.heater_W?.typical,
    water: file.water_kg?.typical,
    ice: file.ice_kg?.typical,
    off,
    door: file.door_W_K?.typical,
    start_C,
    limit_C,
    rating_kg_24h,
  }
  const known = Object.fromEntries(Object.entries(figures).filter(([, value]) => value !== undefined))
  return { name, title, kind, set_C, ...known }
}
