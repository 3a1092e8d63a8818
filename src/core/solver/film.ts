import type { FaceCondition } from '../boundary/face.ts'
import { STEFAN_BOLTZMANN } from '../boundary/radiation.ts'
import type { AirRooms } from './air-rooms.ts'
import { type Conduction, conductivityAt, type OuterLink, type RenewedLinks } from './conduction.ts'
import { integralAt, STRIDE } from './thermal-table.ts'

/*
 * Heat through outer faces and contacts. Within a step every outer face is q = G (T_air(t) − T_cell) + q_given(t),
 * with the series conductance G found from the surface temperature at the step's start and air running straight.
 */

const KELVIN = 273.15
/**
 * Below this share of a step of the table over temperature the mean conductivity is that of the cell: what the two
 * tables differ by would count for more than what lies between.
 */
const NEAR_STEPS = 0.1

/** What the outer faces do during one step. Shape of every array: outer links; `contact` and `contact…`: contacts. */
export interface Films {
  /** W/K */
  readonly G: Float64Array
  /** °C of air (or of a fixed surface) at the step's start and end. */
  readonly airStart_C: Float64Array
  readonly airEnd_C: Float64Array
  /** Given heat flow at the step's start and end, W. */
  readonly flowStart: Float64Array
  readonly flowEnd: Float64Array
  /** Surface temperature at the step's start, °C. */
  readonly surface_C: Float64Array
  /** Conductance of every contact, W/K. */
  readonly contact: Float64Array
  /** Conductance of every wall of a room of air, W/K. Shape: walls of all rooms */
  readonly room: Float64Array
}

export function allocateFilms(conduction: Conduction): Films {
  const outer = () => new Float64Array(conduction.outer.length)
  return {
    G: outer(),
    airStart_C: outer(),
    airEnd_C: outer(),
    flowStart: outer(),
    flowEnd: outer(),
    surface_C: outer(),
    contact: new Float64Array(conduction.contacts.length),
    room: new Float64Array(conduction.rooms?.cell.length ?? 0),
  }
}

/** A face condition with what doesn't change during a stage worked out. */
export interface StageFace {
  readonly condition: FaceCondition
  /** Sum of the series resistances, m² K/W. */
  readonly R: number
  /** Conductance from the mass's outer face to the air where there is no radiation, W/(m² K). */
  readonly U: number
}

export function stageFaces(conditions: readonly FaceCondition[]): StageFace[] {
  return conditions.map((condition) => {
    if (condition.kind !== 'convective') return { condition, R: 0, U: 0 }
    const R = condition.resistances.reduce((sum, layer) => sum + layer.R, 0)
    return { condition, R, U: condition.h === 0 ? 0 : 1 / (1 / condition.h + R) }
  })
}

/** Conductance of a convective face, and what it pulls towards: air, or air and walls together. */
const pull = { U: 0, air_C: 0 }

/** Sets `pull` for a convective face with the last known surface of the mass. */
function setPull({ condition, R, U }: StageFace, t: number, surface_C: number): void {
  if (condition.kind !== 'convective') return
  pull.U = U
  pull.air_C = condition.air_C.at(t)
  if (condition.radiation === undefined) return
  const walls_C = condition.radiation.walls_C.at(t)
  const { h } = condition
  // Outermost surface temperature from the surface of the mass, corrected once for the layers between.
  let outermost_C = surface_C
  let h_r = 0
  for (let pass = 0; pass < 2; pass++) {
    const Ts = outermost_C + KELVIN
    const Tw = walls_C + KELVIN
    h_r = condition.radiation.emissivity * STEFAN_BOLTZMANN * (Ts + Tw) * (Ts * Ts + Tw * Tw)
    if (R === 0) break
    outermost_C = (surface_C / R + h * pull.air_C + h_r * walls_C) / (1 / R + h + h_r)
  }
  if (h + h_r === 0) return
  pull.U = 1 / (1 / (h + h_r) + R)
  pull.air_C = (h * pull.air_C + h_r * walls_C) / (h + h_r)
}

const isNear = ({ part }: OuterLink, gap: number): boolean => Math.abs(gap) * part.overT.perK < NEAR_STEPS

/** Surface temperature with U (air − Ts) = (S(Ts) − S)/w: Kirchhoff's mean conductivity, three passes. */
function solveSurface(
  link: OuterLink,
  distance: number,
  U: number,
  air_C: number,
  T: number,
  S: number,
  kCell: number,
): number {
  let k = kCell
  let Ts = T
  for (let pass = 0; pass < 3; pass++) {
    const inner = k / distance
    Ts = (U * air_C + inner * T) / (U + inner)
    const gap = Ts - T
    if (isNear(link, gap)) break
    k = (integralAt(link.part, Ts) - S) / gap
  }
  return Ts
}

/**
 * Films of the state `y` at `t` (seconds of the stage), as they hold at a step's start.
 * @param faces  one for every elementary face of the conduction. Shape: faces
 */
export function renewFilms(
  films: Films,
  conduction: Conduction,
  faces: readonly StageFace[],
  t: number,
  y: Float64Array,
): void {
  const { values } = conduction.table
  const { outer, contacts, renewed, gain } = conduction
  renewed?.look(y)
  for (let index = 0; index < outer.length; index++) {
    const link = outer[index]!
    const u = y[link.cell]!
    const at = (u | 0) * STRIDE
    const S = values[at]! + values[at + 1]! * u
    const T = values[at + 2]! + values[at + 3]! * u
    if (renewed?.holds(link.cell) === true) {
      renewOuter(films, index, link, faces[link.face]!, t, T, renewed)
      continue
    }
    const k = conductivityAt(values, u)
    const distance = link.distance / gain[link.cell]!
    const face = faces[link.face]!
    const { condition } = face
    films.flowStart[index] = 0
    films.airStart_C[index] = T
    switch (condition.kind) {
      case 'insulated':
        films.G[index] = 0
        films.surface_C[index] = T
        break
      case 'fixed': {
        const surface_C = condition.surface_C.at(t)
        const gap = surface_C - T
        const kMean = isNear(link, gap) ? k : (integralAt(link.part, surface_C) - S) / gap
        films.G[index] = (link.area * kMean) / distance
        films.airStart_C[index] = surface_C
        films.surface_C[index] = surface_C
        break
      }
      case 'convective': {
        setPull(face, t, films.surface_C[index]!)
        const { U, air_C } = pull
        const surface_C = solveSurface(link, distance, U, air_C, T, S, k)
        const gap = air_C - T
        const series = U / (1 + (U * distance) / k)
        films.G[index] = link.area * (Math.abs(gap) < 1e-6 ? series : (U * (air_C - surface_C)) / gap)
        films.airStart_C[index] = air_C
        films.surface_C[index] = surface_C
        break
      }
      case 'flux': {
        const q = condition.q.at(t)
        films.G[index] = 0
        films.flowStart[index] = link.area * q
        films.surface_C[index] = T + (q * distance) / k
        break
      }
      case 'law':
        // Filled in by the surround, which knows the air.
        break
    }
  }
  for (let index = 0; index < contacts.length; index++) {
    const contact = contacts[index]!
    const { low, high } = contact
    const lowR =
      renewed?.holds(low) === true
        ? renewed.contactResistance(low, contact)
        : contact.lowDistance / (gain[low]! * conductivityAt(values, y[low]!))
    const highR =
      renewed?.holds(high) === true
        ? renewed.contactResistance(high, contact)
        : contact.highDistance / (gain[high]! * conductivityAt(values, y[high]!))
    films.contact[index] = (renewed?.contactArea(contact) ?? contact.area) / (lowR + highR)
  }
  renewRooms(films, conduction, y)
}

/** What the walls of rooms of air pass. */
function renewRooms(films: Films, { rooms, table, renewed, gain }: Conduction, y: Float64Array): void {
  if (rooms === undefined) return
  const { values } = table
  const walls = rooms.rooms.flatMap((room) => room.walls)
  rooms.renew(
    (index) => {
      const { axis, distance } = walls[index]!
      const cell = rooms.cell[index]!
      return renewed?.holds(cell) === true
        ? renewed.outerResistance({ cell, axis, distance })
        : distance / (gain[cell]! * conductivityAt(values, y[cell]!))
    },
    (cell) => {
      const at = (y[cell]! | 0) * STRIDE
      return values[at + 2]! + values[at + 3]! * y[cell]!
    },
    films.room,
  )
}

/** The film of an outer face whose cell's resistance follows from its state. */
function renewOuter(
  films: Films,
  index: number,
  link: OuterLink,
  face: StageFace,
  t: number,
  T: number,
  renewed: RenewedLinks,
): void {
  const { condition } = face
  const R = renewed.outerResistance(link)
  const area = renewed.outerArea(link)
  films.flowStart[index] = 0
  films.airStart_C[index] = T
  films.G[index] = 0
  switch (condition.kind) {
    case 'insulated':
      films.surface_C[index] = T
      break
    case 'flux': {
      const q = condition.q.at(t)
      films.flowStart[index] = area * q
      films.surface_C[index] = T + q * R
      break
    }
    case 'fixed': {
      const surface_C = condition.surface_C.at(t)
      films.G[index] = area / R
      films.airStart_C[index] = surface_C
      films.surface_C[index] = surface_C
      break
    }
    case 'convective': {
      setPull(face, t, films.surface_C[index]!)
      const { U, air_C } = pull
      films.G[index] = (area * U) / (1 + U * R)
      films.airStart_C[index] = air_C
      films.surface_C[index] = T + ((air_C - T) * U * R) / (1 + U * R)
      break
    }
    case 'law':
      break
  }
}

/** Sets what air and given flow will be at the end of a step, `t` seconds into the stage. */
export function aimFilms(films: Films, conduction: Conduction, faces: readonly StageFace[], t: number): void {
  const { outer, renewed } = conduction
  for (let index = 0; index < outer.length; index++) {
    const link = outer[index]!
    const face = faces[link.face]!
    const { condition } = face
    films.airEnd_C[index] = films.airStart_C[index]!
    films.flowEnd[index] = 0
    if (condition.kind === 'fixed') films.airEnd_C[index] = condition.surface_C.at(t)
    if (condition.kind === 'convective') {
      setPull(face, t, films.surface_C[index]!)
      films.airEnd_C[index] = pull.air_C
    }
    if (condition.kind === 'flux') {
      const area = renewed?.holds(link.cell) === true ? renewed.outerArea(link) : link.area
      films.flowEnd[index] = area * condition.q.at(t)
    }
  }
}

/**
 * Adds to `target` what outer faces and contacts give within a stage, times `factor` (seconds); returns nothing but
 * sums the heat through each face into `through` [J when factor is in s].
 * @param along  share of the step at which the air is taken, 0 to 1
 */
export function addFilms(
  conduction: Conduction,
  films: Films,
  y: Float64Array,
  along: number,
  factor: number,
  target: Float64Array,
  through: Float64Array,
): void {
  const { values } = conduction.table
  const { weight } = conduction.fields
  const { outerCell, outerFace, contactLow, contactHigh } = conduction
  const { G, airStart_C, airEnd_C, flowStart, flowEnd, contact } = films
  for (let index = 0; index < outerCell.length; index++) {
    const cell = outerCell[index]!
    const u = y[cell]!
    const at = (u | 0) * STRIDE
    const start = airStart_C[index]!
    const given = flowStart[index]!
    const gap = start + along * (airEnd_C[index]! - start) - values[at + 2]! - values[at + 3]! * u
    const heat = factor * (G[index]! * gap + given + along * (flowEnd[index]! - given))
    target[cell] = target[cell]! + weight[cell]! * heat
    const face = outerFace[index]!
    through[face] = through[face]! + heat
  }
  for (let index = 0; index < contactLow.length; index++) {
    const low = contactLow[index]!
    const high = contactHigh[index]!
    const uLow = y[low]!
    const uHigh = y[high]!
    const atLow = (uLow | 0) * STRIDE
    const atHigh = (uHigh | 0) * STRIDE
    const TLow = values[atLow + 2]! + values[atLow + 3]! * uLow
    const THigh = values[atHigh + 2]! + values[atHigh + 3]! * uHigh
    const heat = factor * contact[index]! * (THigh - TLow)
    target[low] = target[low]! + weight[low]! * heat
    target[high] = target[high]! - weight[high]! * heat
  }
  if (conduction.rooms !== undefined) addRooms(conduction.rooms, films.room, weight, values, y, factor, target)
}

/** Adds what the walls of each room give each other: in sum nothing. */
function addRooms(
  { first, cell }: AirRooms,
  G: Float64Array,
  weight: Float64Array,
  values: Float64Array,
  y: Float64Array,
  factor: number,
  target: Float64Array,
): void {
  for (let room = 0; room + 1 < first.length; room++) {
    let pulled = 0
    let total = 0
    for (let wall = first[room]!; wall < first[room + 1]!; wall++) {
      const u = y[cell[wall]!]!
      const at = (u | 0) * STRIDE
      pulled += G[wall]! * (values[at + 2]! + values[at + 3]! * u)
      total += G[wall]!
    }
    const air_C = pulled / total
    for (let wall = first[room]!; wall < first[room + 1]!; wall++) {
      const own = cell[wall]!
      const u = y[own]!
      const at = (u | 0) * STRIDE
      const heat = factor * G[wall]! * (air_C - values[at + 2]! - values[at + 3]! * u)
      target[own] = target[own]! + weight[own]! * heat
    }
  }
}
