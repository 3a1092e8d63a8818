/* What keeps an appliance at its temperature, and how much of it there is. Heat in W, positive into the air. */

interface Thermostat {
  readonly set_C: number
  /** Switches this far above and below `set_C`, K; absent: gives just what is needed, up to what is there. */
  readonly band?: number
}

/** A compressor, a heater, or melting ice. */
export type Machine =
  | (Thermostat & {
      readonly kind: 'cooling'
      /** W taken from the air when it is at `rated_C`. */
      readonly rated: number
      readonly rated_C: number
      /** Share of the rating that a kelvin of warmer air adds, 1/K. */
      readonly slope: number
      /** Most that it ever takes, as a multiple of the rating. */
      readonly most: number
    })
  | (Thermostat & { readonly kind: 'heating'; readonly rated: number })
  /** Holds its temperature until `store` J have melted it. */
  | { readonly kind: 'ice'; readonly set_C: number; readonly store: number }
  | { readonly kind: 'off' }

type Cooling = Extract<Machine, { kind: 'cooling' }>

/**
 * Cooling capacity at an air temperature, W: Q_r min(r_max, 1 + s (T − T_r)), never below 0.
 * A slope of 4 % per kelvin follows from compressor laws with a coil 8 K colder than the air (computed); a cap of 2 is
 * assumed: overload and pressure limits.
 */
export function coolingCapacity({ rated, rated_C, slope, most }: Cooling, air_C: number): number {
  return rated * Math.min(most, Math.max(0, 1 + slope * (air_C - rated_C)))
}

/** Heat that reaches the air as a straight line of its temperature T, W: given − conductance T. */
export interface HeatLine {
  /** W/K */
  readonly conductance: number
  /** W */
  readonly given: number
}

/** Where the air comes to rest, and what the machine then gives, W. */
export interface Rest {
  readonly air_C: number
  readonly machine: number
}

/** How far a machine has come: what ice has melted, J, and whether one that switches is on. */
export interface Wear {
  readonly used: number
  readonly on: boolean
}

/**
 * Temperature at which the machine balances all other heat: its set point where it has enough, else where full power,
 * or none, leaves the air.
 */
export function restOf(machine: Machine, others: HeatLine, { used, on }: Wear): Rest {
  const { conductance, given } = others
  const idle: Rest = { air_C: given / conductance, machine: 0 }
  if (machine.kind === 'off' || (machine.kind === 'ice' && used >= machine.store)) return idle
  const needed = conductance * machine.set_C - given
  const hold: Rest = { air_C: machine.set_C, machine: needed }
  if (machine.kind === 'ice') return needed < 0 ? hold : idle
  const switches = machine.band !== undefined
  if (switches && !on) return idle
  if (machine.kind === 'heating') {
    if (!switches && needed <= 0) return idle
    if (!switches && needed <= machine.rated) return hold
    return { air_C: (given + machine.rated) / conductance, machine: machine.rated }
  }
  if (!switches && needed >= 0) return idle
  if (!switches && -needed <= coolingCapacity(machine, machine.set_C)) return hold
  return flatOut(machine, others, idle)
}

/** Capacity is a broken line of the air's temperature (nothing, sloping, most): the balance lies on one of its pieces. */
function flatOut({ rated, rated_C, slope, most }: Cooling, { conductance, given }: HeatLine, idle: Rest): Rest {
  const sloping_C = (given - rated * (1 - slope * rated_C)) / (conductance + rated * slope)
  const share = 1 + slope * (sloping_C - rated_C)
  if (share <= 0) return idle
  if (share <= most) return { air_C: sloping_C, machine: -rated * share }
  return { air_C: (given - rated * most) / conductance, machine: -rated * most }
}

/** A thermostat that switches, after it has felt a temperature. */
export function switched(machine: Machine, felt_C: number, on: boolean): boolean {
  if (!('band' in machine) || machine.band === undefined) return on
  const { kind, set_C, band } = machine
  const beyond = kind === 'cooling' ? felt_C - set_C : set_C - felt_C
  if (beyond >= band) return true
  return beyond <= -band ? false : on
}
