import { endWeight } from './held-heat.ts'
import { type HeatLine, type Machine, type Rest, restOf, switched, type Wear } from './machine.ts'
import type { Humidity } from './psychrometrics.ts'

/*
 * An oven, a cabinet, a bath as a lumped system: air (or water) between the piece, what else stores heat, a machine
 * and the room.
 *
 *   C_a dT_a/dt = Σ toAir_n (T_n − T_a) + (toRoom + door) (T_room − T_a) + fan + machine + piece
 *   C_n dT_n/dt = toAir_n (T_a − T_n) + toRoom_n (T_room − T_n) + what the piece radiates onto it
 *
 * The air of a cabinet holds next to nothing (0.4 kJ/K in 300 L), so its C_a is 0 and its balance algebraic. In an oven
 * air, liner and racks are one: C_a is that of the cavity, the shell is the one other store. Steps are of second order;
 * every joule that a step moves is told, and they add up to round-off.
 */

/** Something in an appliance that holds heat: liner and shelves, other goods, an oven's shell. */
export interface Store {
  readonly name: 'liner' | 'goods' | 'shell'
  /** J/K */
  readonly heat: number
  /** Conductance to the air, W/K. */
  readonly toAir: number
  /** Conductance to the room, W/K. */
  readonly toRoom: number
}

/** A stretch of time with the door open, s of the stage, and the conductance that it opens to the room, W/K. */
export interface Opening {
  readonly from: number
  readonly to: number
  readonly conductance: number
}

export interface Appliance {
  /** Two stages in appliances of one name are in the same one: its state goes on. */
  readonly name: string
  /** Heat of the air itself, of an oven's cavity or a bath's water, J/K. */
  readonly heat: number
  /** Conductance from the air straight to the room, W/K. */
  readonly toRoom: number
  readonly stores: readonly Store[]
  readonly machine: Machine
  /** Fans and lamps, W. */
  readonly fan: number
  readonly room_C: number
  readonly openings: readonly Opening[]
}

/** An appliance that a stage happens in. */
export interface StageAppliance {
  readonly appliance: Appliance
  readonly humidity?: Humidity
  /** How much warmer the walls are than the air, where they are not a store of their own. */
  readonly wallsShift_K: number
  /** Whether vapour settles on a coil and so loads the machine, or leaves. */
  readonly vapour: 'coil' | 'leaves'
  /** Air and stores at the start of the stage, unless it goes on from a stage before; at rest if left out. */
  readonly start_C?: number
  /** How many pieces alike are in it; one is followed. */
  readonly pieces?: number
}

/** Where an appliance stands. */
export interface ApplianceState extends Wear {
  readonly air_C: number
  /** Shape: stores */
  readonly stores_C: readonly number[]
  /** What the machine gives the air now, W. */
  readonly machine: number
}

/** Heat of one step, J; all but `stored` positive into the appliance. */
export interface StepHeat {
  readonly machine: number
  /** From the room, through walls and door. */
  readonly room: number
  readonly fan: number
  readonly piece: number
  readonly stored: number
}

/** What the piece gives in a step, J, and how it presses on the air at its end. */
export interface PieceHeat {
  readonly toAir: number
  /** Radiated onto the liner; where there is none, it goes to the air. */
  readonly radiated: number
  /** How that falls as the liner's end gets warmer than taken, W/K and °C: for passes that seek that end. */
  readonly radiative?: { readonly grip: number; readonly liner_C: number }
  /** At the end of the step; needed where the air holds nothing itself. */
  readonly after: HeatLine
}

const NO_GRIP = { grip: 0, liner_C: 0 } as const

/** The piece that isn't there. */
export const NO_LOAD: HeatLine = { conductance: 0, given: 0 }

/** Conductance through an open door at `t` s of the stage, W/K. */
export function doorAt({ openings }: Appliance, t: number): number {
  return openings.reduce((sum, { from, to, conductance }) => (t >= from && t < to ? sum + conductance : sum), 0)
}

/** Which store faces the piece; −1 where air and walls are one. */
export const linerOf = ({ stores }: Appliance): number => stores.findIndex(({ name }) => name === 'liner')

/** What a thermostat feels: the liner where the air holds nothing, as a sensor on the coil or the wall does. */
function feltBy(appliance: Appliance, air_C: number, stores_C: readonly number[]): number {
  const liner = linerOf(appliance)
  return appliance.heat === 0 && liner >= 0 ? stores_C[liner]! : air_C
}

/** Air without heat of its own at `t` s of the stage, balanced between stores, machine, room and piece. */
export function settledAir(appliance: Appliance, state: ApplianceState, load: HeatLine, t: number): Rest {
  const { stores, toRoom, room_C, fan, machine } = appliance
  const room = toRoom + doorAt(appliance, t)
  const line = stores.reduce(
    (sum, { toAir }, index) => ({
      conductance: sum.conductance + toAir,
      given: sum.given + toAir * state.stores_C[index]!,
    }),
    { conductance: load.conductance + room, given: load.given + room * room_C + fan },
  )
  return restOf(machine, line, state)
}

/** Lowest and highest temperature that an appliance can bring about, °C. */
export function applianceRange({ appliance, start_C }: StageAppliance): [number, number] {
  const { machine, room_C } = appliance
  const all = [room_C, ...(machine.kind === 'off' ? [] : [machine.set_C]), ...(start_C === undefined ? [] : [start_C])]
  const band = 'band' in machine && machine.band !== undefined ? 3 * machine.band : 0
  return [Math.min(...all) - band, Math.max(...all) + band]
}

/** An empty appliance after long at its set point; one that is off is at `start_C` through and through. */
export function restingState(appliance: Appliance, start_C?: number): ApplianceState {
  const { machine, stores, room_C } = appliance
  const air_C = start_C ?? (machine.kind === 'off' ? room_C : machine.set_C)
  const stores_C = stores.map(({ toAir, toRoom }) =>
    toAir + toRoom === 0 ? air_C : (toAir * air_C + toRoom * room_C) / (toAir + toRoom),
  )
  const on = switched(machine, feltBy(appliance, air_C, stores_C), true)
  return { air_C, stores_C, machine: 0, used: 0, on }
}

/** Heat in stores and air above 0 °C, J. */
export function heatWithin({ heat, stores }: Appliance, { air_C, stores_C }: ApplianceState): number {
  return stores.reduce((sum, store, index) => sum + store.heat * stores_C[index]!, heat * air_C)
}

/** A step of `dt` s from `t` s of the stage on. */
export function applianceStep(
  appliance: Appliance,
  before: ApplianceState,
  piece: PieceHeat,
  t: number,
  dt: number,
): { readonly after: ApplianceState; readonly heat: StepHeat } {
  const { stores, room_C, fan, machine } = appliance
  const toRoom = appliance.toRoom + doorAt(appliance, t + dt / 2)
  const liner = linerOf(appliance)
  const radiated = (index: number): number => (index === liner ? piece.radiated : 0)
  const toAir = piece.toAir + (liner < 0 ? piece.radiated : 0)
  const massless = appliance.heat === 0
  const outward = stores.reduce((sum, store) => sum + store.toAir, toRoom)
  const airWeight = massless ? 0.5 : endWeight((dt * outward) / appliance.heat)
  const airStart = (1 - airWeight) * before.air_C
  // Each store at the end, and its mean, as base + share T_a.
  const ends = stores.map((store, index) => {
    const T = before.stores_C[index]!
    const pull = store.toAir + store.toRoom
    const weight = endWeight((dt * pull) / store.heat)
    const { grip, liner_C } = index === liner && piece.radiative !== undefined ? piece.radiative : NO_GRIP
    const own = store.heat / dt + weight * pull + grip / 2
    const flow = store.toAir * airStart + store.toRoom * room_C - (1 - weight) * pull * T + (grip / 2) * liner_C
    const base = ((store.heat * T + radiated(index)) / dt + flow) / own
    const share = (store.toAir * airWeight) / own
    return { base, share, meanBase: (1 - weight) * T + weight * base, meanShare: weight * share }
  })
  // All but the machine, as a line of the air at the end: its balance at that moment, or over the step.
  let conductance = massless ? toRoom + piece.after.conductance : appliance.heat / dt + airWeight * toRoom
  let given = toRoom * room_C + fan
  given += massless ? piece.after.given : (appliance.heat * before.air_C + toAir) / dt - toRoom * airStart
  for (const [index, { toAir: link }] of stores.entries()) {
    const { base, share, meanBase, meanShare } = ends[index]!
    conductance += massless ? link * (1 - share) : link * (airWeight - meanShare)
    given += massless ? link * base : link * (meanBase - airStart)
  }
  const { air_C, machine: power } = restOf(machine, { conductance, given }, before)
  const stores_C = ends.map(({ base, share }) => base + share * air_C)

  const mean_C = airStart + airWeight * air_C
  const airToRoom = dt * toRoom * (room_C - mean_C)
  let machineHeat = dt * (massless ? (before.machine + power) / 2 : power)
  let storesToRoom = 0
  let airToStores = 0
  for (const [index, store] of stores.entries()) {
    const { meanBase, meanShare } = ends[index]!
    const store_C = meanBase + meanShare * air_C
    storesToRoom += dt * store.toRoom * (room_C - store_C)
    airToStores += dt * store.toAir * (mean_C - store_C)
  }
  let roomHeat = airToRoom + storesToRoom
  if (massless) {
    // Air passes on all that it gets. What the rule of the step leaves over (third order) the machine takes; where
    // there is none, liner or room do. Given to the liner always, it would swing what little that holds.
    const left = toAir + dt * fan + airToRoom + machineHeat - airToStores
    if (machine.kind !== 'off') machineHeat -= left
    else if (liner >= 0) stores_C[liner] = stores_C[liner]! + left / stores[liner]!.heat
    else roomHeat -= left
  }
  const after: ApplianceState = {
    air_C,
    stores_C,
    machine: power,
    used: machine.kind === 'ice' ? before.used - machineHeat : before.used,
    on: switched(machine, feltBy(appliance, air_C, stores_C), before.on),
  }
  return {
    after,
    heat: {
      machine: machineHeat,
      room: roomHeat,
      fan: dt * fan,
      piece: piece.toAir + piece.radiated,
      stored: heatWithin(appliance, after) - heatWithin(appliance, before),
    },
  }
}

/**
 * Longest step, s, in which a machine that switches moves what its thermostat feels by a quarter of its band, or ice
 * loses half of what is left of it; no limit for a machine that gives just what is needed.
 */
export function longestApplianceStep(appliance: Appliance, { machine: power, used }: ApplianceState): number {
  const { machine, heat, stores } = appliance
  if (machine.kind === 'ice') {
    const left = machine.store - used
    return left > 0 && power < 0 ? Math.max(1, left / (-2 * power)) : Number.POSITIVE_INFINITY
  }
  if (!('band' in machine) || machine.band === undefined) return Number.POSITIVE_INFINITY
  const felt = heat === 0 ? (stores[linerOf(appliance)]?.heat ?? 0) : heat
  return Math.max(1, (0.25 * machine.band * felt) / machine.rated)
}
