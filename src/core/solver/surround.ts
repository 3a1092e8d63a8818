import { R_VAPOUR, ZERO_C } from '../boundary/air.ts'
import { type AmbientMoment, vapourOf } from '../boundary/ambient.ts'
import {
  type ApplianceState,
  applianceStep,
  heatWithin,
  linerOf,
  longestApplianceStep,
  type StageAppliance,
  type StepHeat,
  settledAir,
} from '../boundary/appliance.ts'
import { vapourFilm } from '../boundary/evaporation.ts'
import type { FaceCondition, LawFace } from '../boundary/face.ts'
import { lidConductance, restConductance } from '../boundary/gap.ts'
import { drySurface, MELTING_TIME, type SurfaceState, settleWater, wetnessOf } from '../boundary/wet-surface.ts'
import { saturationAt } from '../materials/saturation-table.ts'
import { surfaceWater } from '../materials/surface-water.ts'
import { type Conduction, conductivityAt, type OuterLink } from './conduction.ts'
import type { Films } from './film.ts'
import { heatAt, type LinkAmbient, type LinkHeat, solveSurface } from './law-link.ts'
import { allocateMoment, type Moment, type Sums } from './law-moment.ts'
import { createSeeker } from './seeker.ts'
import { type ApplianceBook, emptyFaceBook, type FaceBook } from './surround-books.ts'
import { integralAt, STRIDE } from './thermal-table.ts'
import {
  acceptChain,
  type CarriedWalls,
  carriedFrom,
  carryInto,
  chainAstray,
  heldIn,
  reduceChain,
  settleChain,
  startChain,
  type WallChain,
} from './wall-chain.ts'

/*
 * Faces whose films follow laws, and the appliance around them. Within a step the piece sees each of them as a
 * conductance and a straight course of what it pulls towards, as it does any other film. At the step's end the heat
 * that passed is known; the appliance takes exactly that heat, so that both together conserve it whatever the step.
 * The air at the end is foreseen from its last trend; how far it was off counts as an error of the step.
 */

export interface Surround {
  /** Takes the films' moment as the start of steps: `t` s of the stage, table places `y`. */
  begin(films: Films, t: number, y: Float64Array): void
  /**
   * Sets what law faces pull towards at the end of a step.
   * @param shift  told of every cell and face whose heat flow at the step's start is another in a step of this length, W
   */
  aim(films: Films, dt: number, shift: (cell: number, face: number, flow: number) => void): void
  /** Adds to the pull on cells what their films may at most have more than they have now, W/K. Shape of `extra`: padded */
  stiffen(films: Films, extra: Float64Array): void
  /**
   * Films of the law faces at the end of a tried step.
   * @param through  J that passed each face of the conduction in it
   * @returns how far the air was foreseen wrongly, K
   */
  end(films: Films, dt: number, y: Float64Array, through: Float64Array): number
  /** Makes the tried step the start of the next; whether films have to be begun anew. */
  accept(): boolean
  /** Longest step that water and thermostat allow, s. */
  longest(): number
  readonly state: () => ApplianceState | undefined
  readonly book: () => ApplianceBook
  /** Shape: faces of the conduction */
  readonly faceBooks: readonly FaceBook[]
  /** Film coefficient of every law face, W/(m² K); NaN for others. Shape: faces of the conduction */
  readonly films: () => Float64Array
  /** Water of every outer link, to hand on to a stage on the same mesh. */
  readonly surfaces: readonly SurfaceState[]
  /** Heat in the appliance against 0 °C, J. */
  heatWithin(): number
  /** Heat in mould, boards and lids against 0 °C, J of the modelled body. */
  heldWithin(): number
  /** What mould, boards and lids of a face go on with in another stage. */
  carried(face: number): CarriedWalls | undefined
}

/** A skin halves what evaporates within ten minutes (assumed: 0.3 to 0.7 of it is left). */
const SKIN_FACTOR = 0.5
const SKIN_TIME = 600
/** Air and walls are found within this, K. */
const SETTLED_K = 1e-3
const MOST_PASSES = 12
/** Below this share of a step of the table over temperature the conductivity is that of the cell. */
const NEAR_STEPS = 0.1
/** A surface further than this from its cell was none yet, K; within this share it is found. */
const FURTHEST_GAP_K = 150
const GAP_SHARE = 0.01
/** Cells that stand still share what is left alike, K. */
const LEAST_MOVE_K = 1e-9
/** Steps shorter than this are not judged by how well they foresaw the air, s. */
const LEAST_FORESEEN = 2
/** Share of a surface's water that may go in one step. */
const WATER_SHARE = 0.2

/** Surfaces as they are when their layer has just been laid: what each link's material gives off. */
export function freshSurfaces({ mesh, outer, fields }: Conduction): SurfaceState[] {
  return outer.map(({ cell }) => {
    const layer = mesh.layers[mesh.layerOf[cell - fields.padding]!]
    const water = layer === undefined ? undefined : surfaceWater(layer.material)
    if (water === undefined) return drySurface()
    const { activity, boils_C, reserve, skins } = water
    return { activity, boils_C, reserve, fullReserve: reserve, skins, sealed: false, dew: 0, frost: 0 }
  })
}

const isLaw = (condition: FaceCondition): condition is LawFace => condition.kind === 'law'

/**
 * @param conditions  Shape: faces of the conduction
 * @param inside  the appliance and where it stands; undefined where there is none
 * @param surfaces  water of every outer link, taken over. Shape: outer links
 * @param carried  what mould, boards and lids of a face come with from the stage before
 */
export function createSurround(
  conduction: Conduction,
  conditions: readonly FaceCondition[],
  inside: { readonly stage: StageAppliance; readonly state: ApplianceState } | undefined,
  surfaces: readonly SurfaceState[],
  carried: (face: number) => CarriedWalls | undefined = () => undefined,
): Surround | undefined {
  const laws = conditions.map((condition) => (isLaw(condition) ? condition : undefined))
  if (laws.every((law) => law === undefined) && inside === undefined) return undefined
  const { outer, renewed, mesh, gain } = conduction
  const { values } = conduction.table
  const pieces = inside?.stage.pieces ?? 1
  /** Of all pieces that the appliance has to cope with. */
  const measure = mesh.measure * pieces
  const appliance = inside?.stage.appliance
  const links = outer.flatMap((link, index) => (laws[link.face] === undefined ? [] : [index]))
  // What lies on a face keeps the food's water in; dew settles on it all the same.
  for (const index of links) surfaces[index]!.sealed = laws[outer[index]!.face]?.open !== true
  const R = laws.map((law) => law?.resistances.reduce((sum, layer) => sum + layer.R, 0) ?? 0)
  /** The air under a face's lid, with the resistance that it has at rest, and that of all the rest. */
  const gaps = laws.map((law) =>
    law?.resistances.flatMap(({ gap, R: atRest }) => (gap === undefined ? [] : [{ gap, atRest }])).at(0),
  )
  const solid = R.map((all, face) => all - (gaps[face]?.atRest ?? 0))
  const liner = appliance === undefined ? -1 : linerOf(appliance)
  const faces = conditions.length
  let now = allocateMoment(outer.length, faces)
  let next = allocateMoment(outer.length, faces)
  const film = new Float64Array(faces).fill(Number.NaN)
  const faceBooks = conditions.map(emptyFaceBook)
  const book: ApplianceBook = { machine: 0, room: 0, fan: 0, piece: 0, stored: 0, latent: 0 }
  const ambients = conditions.map(
    (): LinkAmbient => ({
      air_C: 0,
      walls_C: 0,
      vapour: Number.NaN,
      film: 0,
      emissivity: 0,
      perPascal: 0,
      skin: 1,
    }),
  )
  const heat: LinkHeat = {
    T_C: 0,
    q: 0,
    slope: 0,
    convected: 0,
    radiated: 0,
    latent: 0,
    melting: 0,
    vapour: 0,
    radiative: 0,
  }
  let state = inside?.state
  let tried: { readonly state: ApplianceState; readonly heat: StepHeat; readonly latent: number } | undefined
  let t = 0
  let dtTried = 0
  /** J that passed each face of the conduction in the tried step, and that its walls drew from outside. */
  const passed = new Float64Array(faces)
  const drawn = new Float64Array(faces)
  /** K/s, of air and walls. */
  const trend = { air: 0, walls: 0 }
  const aimed: AmbientMoment = { air_C: 0, walls_C: 0, vapour: Number.NaN }

  const areaOf = (link: OuterLink): number => (renewed?.holds(link.cell) === true ? renewed.outerArea(link) : link.area)
  /** Walls that hold heat, by outer link and by face. */
  const chains = outer.map((link) => {
    const law = laws[link.face]
    if (law?.held === undefined) return undefined
    return startChain(law.held, areaOf(link), law.ambient?.air_C.at(0) ?? state?.air_C ?? 0)
  })
  const chainsOf: readonly WallChain[][] = laws.map((_, face) =>
    chains.flatMap((chain, at) => (chain === undefined || outer[at]!.face !== face ? [] : [chain])),
  )
  const chained = links.filter((index) => chains[index] !== undefined)
  for (const [face, own] of chainsOf.entries()) {
    const before = carried(face)
    if (before !== undefined) carryInto(own, before)
  }
  const gapOf = (face: number): number => R[face]! - solid[face]!
  const temperatureOf = (u: number): number => {
    const at = (u | 0) * STRIDE
    return values[at + 2]! + values[at + 3]! * u
  }

  const setAppliance = (moment: AmbientMoment, air_C: number, liner_C: number | undefined): void => {
    moment.air_C = air_C
    moment.walls_C = liner_C ?? air_C + (inside?.stage.wallsShift_K ?? 0)
    moment.vapour = vapourOf(inside?.stage.humidity, air_C)
  }
  const linerOfState = (one: ApplianceState | undefined): number | undefined =>
    liner < 0 ? undefined : one?.stores_C[liner]

  /** What a face meets at `time` s of the stage. */
  const meet = (face: number, law: LawFace, time: number, inAppliance: AmbientMoment): void => {
    const to = ambients[face]!
    const { ambient } = law
    if (ambient === undefined) {
      to.air_C = inAppliance.air_C
      to.walls_C = inAppliance.walls_C
      to.vapour = inAppliance.vapour
    } else {
      to.air_C = ambient.air_C.at(time)
      to.walls_C = ambient.walls_C.at(time)
      to.vapour = vapourOf(ambient.humidity, to.air_C)
    }
    to.emissivity = law.emissivity * law.spread
    to.skin = 1 - (1 - SKIN_FACTOR) * Math.min(1, time / SKIN_TIME)
  }

  /** Films of all faces from their last mean surface. */
  const renewFaces = (moment: Moment, time: number): void => {
    for (let face = 0; face < faces; face++) {
      const law = laws[face]
      if (law === undefined) continue
      meet(face, law, time, moment.appliance)
      const to = ambients[face]!
      const surface_C = moment.sums.surface_C[face]!
      const wet = !Number.isNaN(to.vapour)
      const surface = { T_C: surface_C, vapour: wet ? moment.sums.surfaceVapour[face]! : 0 }
      const h = law.film(surface, { T_C: to.air_C, vapour: wet ? to.vapour : 0 })
      film[face] = h
      const gap = gaps[face]
      if (gap !== undefined) {
        const { mass_C, activity } = moment.sums
        const conductance = lidConductance(gap.gap, mass_C[face]!, surface_C, activity[face]!)
        R[face] = solid[face]! + (gap.atRest * restConductance(gap.gap)) / conductance
      }
      to.film = h * law.spread
      const film_C = (surface_C + to.air_C) / 2
      to.perPascal = wet && h > 0 ? (law.spread * vapourFilm(h, film_C)) / (R_VAPOUR * (film_C + ZERO_C)) : 0
    }
  }

  /** Resistance from the middle of an outer cell to the piece's surface by Kirchhoff's mean, m² K/W. */
  const withinOf = (index: number, u: number, surface_C: number): number => {
    const link = outer[index]!
    if (renewed?.holds(link.cell) === true) return renewed.outerResistance(link)
    const distance = link.distance / gain[link.cell]!
    const gap = surface_C - temperatureOf(u)
    if (!(Math.abs(gap) * link.part.overT.perK > NEAR_STEPS && Math.abs(gap) < FURTHEST_GAP_K))
      return distance / conductivityAt(values, u)
    const at = (u | 0) * STRIDE
    return (distance * gap) / (integralAt(link.part, surface_C) - values[at]! - values[at + 1]! * u)
  }

  /** Solves every link for the state `y`; writes films and sums. */
  const solve = (films: Films, moment: Moment, y: Float64Array): void => {
    const { sums } = moment
    for (const values of Object.values(sums)) values.fill(0)
    const area = new Float64Array(faces)
    for (const index of links) {
      const link = outer[index]!
      const { face } = link
      const surface = surfaces[index]!
      const ambient = ambients[face]!
      const u = y[link.cell]!
      const at = (u | 0) * STRIDE
      const T = values[at + 2]! + values[at + 3]! * u
      const changing = renewed?.holds(link.cell) === true
      const chain = chains[index]
      const A = chain?.area ?? (changing ? renewed!.outerArea(link) : link.area)
      const distance = link.distance / gain[link.cell]!
      let within = changing ? renewed!.outerResistance(link) : distance / conductivityAt(values, u)
      let outer_C = moment.outer_C[index]!
      let inner = R[face]!
      if (chain !== undefined) {
        const { held } = chain
        const nodes = moment === now ? chain.T : chain.tried
        const last = held.nodes.length
        inner = held.R[last]! + (held.gapAt === last ? gapOf(face) : 0)
        solveSurface(ambient, surface, inner, nodes[last - 1]!, outer_C, heat)
        outer_C = heat.T_C
        within = 0
        const first = held.R[0]! + (held.gapAt === 0 ? gapOf(face) : 0)
        const own = withinOf(index, u, films.surface_C[index]!)
        const side = moment === now ? chain.start : chain.end
        const { slope } = heat
        side.cell_C = T
        side.within = own
        side.outward = slope < 1e-12 ? 0 : 1 / (inner + 1 / slope)
        side.outside_C = slope < 1e-12 ? outer_C : outer_C + heat.q / slope
        films.surface_C[index] = T + ((nodes[0]! - T) * own) / (own + first)
      } else if (changing || link.distance === 0) {
        solveSurface(ambient, surface, R[face]! + within, T, outer_C, heat)
        outer_C = heat.T_C
      } else {
        const S = values[at]! + values[at + 1]! * u
        // Kirchhoff's mean conductivity between the cell and the surface of the mass, from where that was last.
        let gap = films.surface_C[index]! - T
        for (let pass = 0; pass < 3; pass++) {
          if (Math.abs(gap) * link.part.overT.perK > NEAR_STEPS && Math.abs(gap) < FURTHEST_GAP_K)
            within = (distance * gap) / (integralAt(link.part, T + gap) - S)
          solveSurface(ambient, surface, R[face]! + within, T, outer_C, heat)
          outer_C = heat.T_C
          const found = heat.q * within
          const near = Math.abs(found - gap) < GAP_SHARE * Math.abs(found) + 1e-3
          gap = found
          if (near) break
        }
      }
      const { slope } = heat
      moment.outer_C[index] = outer_C
      moment.slope[index] = slope
      moment.vapour[index] = heat.vapour
      moment.melting[index] = heat.melting
      films.flowStart[index] = 0
      inner += within
      if (chain !== undefined) {
        // At a step's start what the nodes give then; at its end what the step was made with.
        const seen =
          moment === now
            ? 1 / (chain.start.within + chain.held.R[0]! + (chain.held.gapAt === 0 ? gapOf(face) : 0))
            : chain.seen
        films.G[index] = A * seen
        films.airStart_C[index] = moment === now ? chain.T[0]! : chain.seen_C + chain.drift_C
      } else if (slope < 1e-12) {
        films.G[index] = 0
        films.airStart_C[index] = T
      } else {
        films.G[index] = A / (inner + 1 / slope)
        films.airStart_C[index] = outer_C + heat.q / slope
      }
      if (chain === undefined) films.surface_C[index] = T + heat.q * within
      sums.convected[face] = sums.convected[face]! + A * heat.convected
      sums.radiated[face] = sums.radiated[face]! + A * heat.radiated
      sums.latent[face] = sums.latent[face]! + A * heat.latent
      sums.melting[face] = sums.melting[face]! + A * heat.melting
      const held = ambient.film + (liner < 0 ? heat.radiative : 0)
      const pull = slope + (inner > 0 ? 1 / inner : Number.POSITIVE_INFINITY)
      sums.grip[face] = sums.grip[face]! + A * held * (1 - held / pull)
      sums.wallGrip[face] = sums.wallGrip[face]! + A * heat.radiative * (1 - heat.radiative / pull)
      sums.surface_C[face] = sums.surface_C[face]! + A * outer_C
      sums.mass_C[face] = sums.mass_C[face]! + A * films.surface_C[index]!
      sums.activity[face] = sums.activity[face]! + A * surface.activity
      const wetness = surface.activity * wetnessOf(surface)
      const saturated = saturationAt(Math.min(outer_C, 99))
      const vapour = Math.max(wetness * saturated, Math.min(ambient.vapour || 0, saturated))
      sums.surfaceVapour[face] = sums.surfaceVapour[face]! + A * vapour
      area[face] = area[face]! + A
    }
    for (let face = 0; face < faces; face++) {
      if (area[face] === 0) continue
      sums.surface_C[face] = sums.surface_C[face]! / area[face]!
      sums.mass_C[face] = sums.mass_C[face]! / area[face]!
      sums.activity[face] = sums.activity[face]! / area[face]!
      sums.surfaceVapour[face] = sums.surfaceVapour[face]! / area[face]!
    }
  }

  /** Sum over the faces that are in the appliance, of the whole piece. */
  const inAppliance = (of: Float64Array): number => {
    let sum = 0
    for (let face = 0; face < faces; face++)
      if (laws[face] !== undefined && laws[face]!.ambient === undefined) sum += of[face]!
    return sum * measure
  }
  const onCoil = (latent: number): number => (inside?.stage.vapour === 'coil' ? Math.max(0, latent) : 0)
  /** What the piece gives to the air, as a line of the air's temperature, W of the whole piece. */
  const loadOf = ({ sums, appliance: at }: Moment) => {
    const grip = inAppliance(sums.grip)
    const given = -inAppliance(sums.convected) - (liner < 0 ? inAppliance(sums.radiated) : 0)
    return { conductance: grip, given: given + grip * at.air_C + onCoil(inAppliance(sums.latent)) }
  }

  /** Takes the heat that passed into the piece from the walls that hold some. Returns how far they went astray, K. */
  const settleWalls = (dt: number, y: Float64Array): number => {
    if (chained.length === 0) return 0
    // Face by face: what the ends of the step tell of each link, and what is left to the heat that passed them all. That
    // goes by how far their cells have moved: a cell that stays where it was has erred by nothing.
    const rest = passed.slice()
    const moved = new Float64Array(faces)
    const moves = (index: number): number => {
      const { start, area } = chains[index]!
      return area * (Math.abs(temperatureOf(y[outer[index]!.cell]!) - start.cell_C) + LEAST_MOVE_K)
    }
    const flow = (index: number): number => {
      const chain = chains[index]!
      return chain.seen * (chain.seen_C - (chain.start.cell_C + temperatureOf(y[outer[index]!.cell]!)) / 2)
    }
    for (const index of chained) {
      const { face } = outer[index]!
      rest[face] = rest[face]! - dt * chains[index]!.area * flow(index)
      moved[face] = moved[face]! + moves(index)
    }
    let astray = 0
    for (const index of chained) {
      const { face } = outer[index]!
      const chain = chains[index]!
      settleChain(chain, dt, flow(index) + (rest[face]! * moves(index)) / (moved[face]! * chain.area * dt))
      astray = Math.max(astray, chainAstray(chain, dt))
    }
    for (const face of new Set(chained.map((index) => outer[index]!.face))) drawn[face] = 0
    for (const index of chained) {
      const { face } = outer[index]!
      drawn[face] = drawn[face]! + chains[index]!.area * chains[index]!.drawn
    }
    return dt < LEAST_FORESEEN ? 0 : astray
  }

  const isMassless = appliance !== undefined && appliance.heat === 0

  return {
    begin(films, time, y) {
      t = time
      if (state !== undefined) setAppliance(now.appliance, state.air_C, linerOfState(state))
      for (const index of links) {
        // The first look at a surface: as the cell beneath.
        if (Number.isNaN(now.outer_C[index]!)) {
          const u = y[outer[index]!.cell]!
          const at = (u | 0) * STRIDE
          now.outer_C[index] = values[at + 2]! + values[at + 3]! * u
          now.sums.surface_C[outer[index]!.face] = now.outer_C[index]!
          now.sums.mass_C[outer[index]!.face] = now.outer_C[index]!
        }
      }
      const seek = createSeeker()
      for (let pass = 0; pass < MOST_PASSES; pass++) {
        const before_C = now.appliance.air_C
        renewFaces(now, t)
        solve(films, now, y)
        if (!isMassless || state === undefined) {
          if (pass > 1) break
          continue
        }
        const rest = settledAir(appliance!, state, loadOf(now), t)
        state = { ...state, air_C: rest.air_C, machine: rest.machine }
        if (pass > 1 && Math.abs(rest.air_C - before_C) < SETTLED_K) break
        setAppliance(now.appliance, seek(before_C, rest.air_C), linerOfState(state))
      }
      if (state !== undefined) setAppliance(now.appliance, state.air_C, linerOfState(state))
    },
    stiffen(films, extra) {
      for (const index of chained) {
        const { held, area, start } = chains[index]!
        const most = area / (start.within + held.R[0]! + (held.gapAt === 0 ? gapOf(outer[index]!.face) : 0))
        const { cell } = outer[index]!
        extra[cell] = extra[cell]! + Math.max(0, most - films.G[index]!) / 2
      }
    },
    aim(films, dt, shift) {
      dtTried = dt
      if (state !== undefined) {
        aimed.air_C = now.appliance.air_C + trend.air * dt
        aimed.walls_C = now.appliance.walls_C + trend.walls * dt
        aimed.vapour = vapourOf(inside?.stage.humidity, aimed.air_C)
      }
      for (let face = 0; face < faces; face++) if (laws[face] !== undefined) meet(face, laws[face]!, t + dt, aimed)
      for (const index of links) {
        const ambient = ambients[outer[index]!.face]!
        heat.T_C = now.outer_C[index]!
        heatAt(ambient, surfaces[index]!, heat)
        films.flowEnd[index] = 0
        const slope = now.slope[index]!
        const chain = chains[index]
        if (chain === undefined) {
          films.airEnd_C[index] = slope < 1e-12 ? films.airStart_C[index]! : now.outer_C[index]! + heat.q / slope
          continue
        }
        const outside_C = slope < 1e-12 ? chain.start.outside_C : now.outer_C[index]! + heat.q / slope
        chain.mean_C = (chain.start.outside_C + outside_C) / 2
        const { cell, face } = outer[index]!
        const before = films.G[index]! * (films.airStart_C[index]! - chain.start.cell_C)
        reduceChain(chain, dt, gapOf(face))
        films.G[index] = chain.area * chain.seen
        films.airStart_C[index] = chain.seen_C - chain.drift_C
        films.airEnd_C[index] = chain.seen_C + chain.drift_C
        shift(cell, face, films.G[index]! * (films.airStart_C[index]! - chain.start.cell_C) - before)
      }
    },
    end(films, dt, y, through) {
      next.outer_C.set(now.outer_C)
      next.sums.surface_C.set(now.sums.surface_C)
      next.sums.mass_C.set(now.sums.mass_C)
      next.sums.activity.set(now.sums.activity)
      next.sums.surfaceVapour.set(now.sums.surfaceVapour)
      Object.assign(next.appliance, state === undefined ? now.appliance : aimed)
      tried = undefined
      passed.set(through)
      drawn.set(through)
      const strayed = settleWalls(dt, y)
      if (state === undefined || appliance === undefined) {
        renewFaces(next, t + dt)
        solve(films, next, y)
        return strayed
      }
      const taken = inAppliance(drawn)
      const seek = createSeeker()
      for (let pass = 0; pass < MOST_PASSES; pass++) {
        const [air_C, walls_C] = [next.appliance.air_C, next.appliance.walls_C]
        renewFaces(next, t + dt)
        solve(films, next, y)
        const mean = (of: (sums: Sums) => Float64Array): number =>
          (dt * (inAppliance(of(now.sums)) + inAppliance(of(next.sums)))) / 2
        const radiated = mean((sums) => sums.radiated)
        const latent = mean((sums) => sums.latent)
        const melting = mean((sums) => sums.melting)
        const coil = onCoil(latent)
        const piece = { toAir: radiated - latent - melting - taken + coil, radiated: -radiated, after: loadOf(next) }
        const sought = { grip: inAppliance(next.sums.wallGrip), liner_C: walls_C }
        const seeking = applianceStep(appliance, state, liner < 0 ? piece : { ...piece, radiative: sought }, t, dt)
        setAppliance(next.appliance, seek(air_C, seeking.after.air_C), linerOfState(seeking.after))
        const moved = Math.abs(seeking.after.air_C - air_C) + Math.abs(next.appliance.walls_C - walls_C)
        if (!(moved > SETTLED_K) || pass === MOST_PASSES - 1) {
          // What is booked is what the sums say, to the last joule.
          const made = liner < 0 ? seeking : applianceStep(appliance, state, piece, t, dt)
          tried = { state: made.after, heat: made.heat, latent: coil }
          setAppliance(next.appliance, made.after.air_C, linerOfState(made.after))
          break
        }
      }
      const rise = (next.appliance.air_C - now.appliance.air_C) / dt
      // A step that went astray altogether tells nothing.
      if (!Number.isFinite(rise)) return Number.POSITIVE_INFINITY
      trend.air = rise
      trend.walls = (next.appliance.walls_C - now.appliance.walls_C) / dt
      // What jumps, as a machine does, no step is short enough for.
      if (dt < LEAST_FORESEEN) return 0
      const { air_C, walls_C } = next.appliance
      return Math.max(strayed, Math.abs(air_C - aimed.air_C), Math.abs(walls_C - aimed.walls_C))
    },
    accept() {
      const dt = dtTried
      for (let face = 0; face < faces; face++) {
        if (laws[face] === undefined) continue
        const own = faceBooks[face]!
        const mean = (of: (sums: Sums) => Float64Array): number =>
          (dt * (of(now.sums)[face]! + of(next.sums)[face]!)) / 2
        const radiated = mean((sums) => sums.radiated)
        const latent = mean((sums) => sums.latent)
        const melting = mean((sums) => sums.melting)
        own.radiated += radiated
        own.latent += latent
        own.melting += melting
        // What is left of the heat that passed: the parts add up to it.
        own.convected += drawn[face]! - radiated + latent + melting
        own.stored += drawn[face]! - passed[face]!
      }
      for (const index of links) {
        const link = outer[index]!
        const vapour = (now.vapour[index]! + next.vapour[index]!) / 2
        if (vapour === 0 && now.melting[index] === 0 && next.melting[index] === 0) continue
        const outer_C = (now.outer_C[index]! + next.outer_C[index]!) / 2
        settleWater(surfaces[index]!, outer_C, vapour, (now.melting[index]! + next.melting[index]!) / 2, dt)
        const A = renewed?.holds(link.cell) === true ? renewed.outerArea(link) : link.area
        const own = faceBooks[link.face]!
        if (vapour > 0) own.evaporated += A * vapour * dt
        else own.condensed -= A * vapour * dt
      }
      for (const index of chained) {
        const link = outer[index]!
        const chain = chains[index]!
        acceptChain(chain, dt)
        const area = areaOf(link)
        if (area === chain.area) continue
        // A mass that rises meets more of its mould, as warm as what it has met.
        const before = heldIn(chain)
        chain.area = area
        faceBooks[link.face]!.joined += heldIn(chain) - before
      }
      const wasOn = state?.on
      if (tried !== undefined) {
        for (const key of ['machine', 'room', 'fan', 'piece', 'stored'] as const) book[key] += tried.heat[key]
        book.latent += tried.latent
        state = tried.state
        tried = undefined
      }
      t += dt
      const spare = now
      now = next
      next = spare
      return state !== undefined && state.on !== wasOn
    },
    longest() {
      let longest =
        appliance === undefined || state === undefined
          ? Number.POSITIVE_INFINITY
          : longestApplianceStep(appliance, state)
      for (const index of links) {
        const surface = surfaces[index]!
        const vapour = now.vapour[index]!
        const left = surface.reserve + Math.max(surface.dew, 0) + Math.max(surface.frost, 0)
        if (vapour > 1e-9 && left > 1e-4) longest = Math.min(longest, Math.max(1, (WATER_SHARE * left) / vapour))
        if (Math.abs(now.melting[index]!) > 1) longest = Math.min(longest, MELTING_TIME / 3)
      }
      return longest
    },
    state: () => state,
    book: () => book,
    faceBooks,
    films: () => film,
    surfaces,
    heldWithin: () => chained.reduce((sum, index) => sum + heldIn(chains[index]!), 0),
    carried: (face) => carriedFrom(chainsOf[face]!),
    heatWithin: () => (state === undefined || appliance === undefined ? 0 : heatWithin(appliance, state)),
  }
}
