import type { FaceCondition } from '../boundary/face.ts'
import { type Conduction, stageOf, sumLinks } from './conduction.ts'
import { addFilms, aimFilms, allocateFilms, type Films, renewFilms, type StageFace, stageFaces } from './film.ts'
import { lookUp, lookUpAlong, rate } from './stage.ts'
import type { Surround } from './surround.ts'
import { STRIDE } from './thermal-table.ts'

/*
 * Stabilised explicit steps of second order (RKL2: Meyer, Balsara, Aslam, J. Comput. Phys. 257, 2014, 594–626) on the
 * table places of all cells. No matrix and no iteration; whatever leaves one cell enters its neighbour, so heat is
 * conserved to round-off, and nothing special happens when a cell freezes or thaws.
 */

/** Margin on the spectral bound. */
const SAFETY = 1.05
/**
 * A step's error is the root mean square over the piece; a single cell may err ten times as much, since one that just
 * freezes or thaws does so for a moment and without effect on the rest.
 */
const LOCAL_SHARE = 0.1
/**
 * What a step throws a cell past all its causes counts so many times where cells remember the furthest they have been:
 * fat that melts in a throw stays molten.
 */
const THROW_COUNTS = 1000
/** More stages than this in one step never pay; the step is shortened instead. */
const MOST_STAGES = 401

/** Outcome of one tried step. */
export interface Attempt {
  /** Estimated error of the step, K; not finite when the fields are not. */
  readonly error_K: number
}

export interface Stepper {
  readonly conduction: Conduction
  /** Table places at the start of the step. Shape: padded */
  readonly y: () => Float64Array
  readonly films: () => Films
  /** Longest step that the most stages allow, s. */
  longest(): number
  /**
   * Takes `y` and the conditions at `t` seconds of the stage as the state from which steps are tried.
   * @param surround  of faces whose films follow laws, where there are any
   */
  begin(conditions: readonly FaceCondition[], source: number, t: number, surround?: Surround): void
  /** Tries a step of `dt` seconds; the state stays until `accept`. */
  attempt(dt: number): Attempt
  /** State and films at the end of the last attempt. */
  tried(): { readonly y: Float64Array; readonly films: Films }
  /**
   * Makes the last attempt the state; adds its heat to `through` [J], by elementary face.
   * @returns whether the surroundings jumped, so that it has to begin anew
   */
  accept(through: Float64Array): boolean
}

/** Stages for a step of `dt` at spectral radius `lambda`: stable while dt ≤ (s² + s − 2)/(2 λ); odd, at least 3. */
export function stagesFor(dt: number, lambda: number): number {
  const s = Math.max(3, Math.ceil((Math.sqrt(9 + 8 * dt * lambda) - 1) / 2))
  return s % 2 === 0 ? s + 1 : s
}

const b = (j: number): number => (j < 2 ? 1 / 3 : (j * j + j - 2) / (2 * j * (j + 1)))

/** Renewed links are foretold by this share of themselves at most. */
const FORETOLD_SHARE = 0.2

/**
 * Foretells renewed links for the middle of a step from how they changed over the step before, which keeps the step of
 * second order. A link that jumped with the change of its cell stays as it is.
 */
function foretell(links: Float64Array) {
  const atStart = links.slice()
  const rate = new Float64Array(links.length)
  return {
    /** Takes in the links at a step's start; `dt` is the length of the step that led there, 0 for none, s. */
    start(dt: number): void {
      for (let i = 0; i < links.length; i++) {
        const now = links[i]!
        const change = now - atStart[i]!
        rate[i] = dt > 0 && Math.abs(change) < FORETOLD_SHARE * Math.abs(now) ? change / dt : 0
        atStart[i] = now
      }
    },
    /** Sets the links for a step of `dt` seconds. */
    aim(dt: number): void {
      for (let i = 0; i < links.length; i++) {
        const most = FORETOLD_SHARE * Math.abs(atStart[i]!)
        links[i] = atStart[i]! + Math.min(Math.max((rate[i]! * dt) / 2, -most), most)
      }
    },
  }
}

/** All links that leave a group of cells, as direction and place. */
function outwardLinks(
  { fields }: Conduction,
  cells: Int32Array,
): { readonly direction: number; readonly at: number }[] {
  const own = new Set(cells)
  const found: { direction: number; at: number }[] = []
  for (const [direction, stride] of fields.strides.entries()) {
    for (const cell of cells) {
      if (!own.has(cell + stride)) found.push({ direction, at: cell })
      if (cell - stride >= fields.padding && !own.has(cell - stride)) found.push({ direction, at: cell - stride })
    }
  }
  return found
}

/** @param initial  table places of all cells, padded; taken over, not copied */
export function createStepper(conduction: Conduction, initial: Float64Array): Stepper {
  const { fields, special, outerCell, contactLow, contactHigh, joined } = conduction
  const { values, padding, weight } = { ...fields, values: conduction.table.values }
  const end = padding + conduction.mesh.cells
  const stage = stageOf(conduction)
  const faces = conduction.faces.length
  let y0 = initial
  let y1 = conduction.allocate()
  /** What is less than the last digit of a place, at the step's start and at its end. */
  let rest0 = conduction.allocate()
  let rest1 = conduction.allocate()
  /** How far the cells have come since the step's start, in the last stage and the one before. */
  let d1 = conduction.allocate()
  let d2 = conduction.allocate()
  /** Places of the special cells in the last stage. Shape: padded */
  const here = conduction.allocate()
  let f0 = conduction.allocate()
  let fNew = conduction.allocate()
  let S0 = conduction.allocate()
  let S1 = conduction.allocate()
  let S2 = conduction.allocate()
  let films = allocateFilms(conduction)
  let filmsNew = allocateFilms(conduction)
  let flow0: Float64Array = new Float64Array(faces)
  let flowNew: Float64Array = new Float64Array(faces)
  let Q1: Float64Array = new Float64Array(faces)
  let Q2: Float64Array = new Float64Array(faces)
  const weights = new Float64Array(4)
  const extra = conduction.allocate()
  let conditions: readonly StageFace[] = []
  let surround: Surround | undefined
  let source = 0
  let t = 0
  let dtTried = 0
  let lambda = 0
  let measured = false
  const { renewed } = conduction
  const foretold = renewed === undefined ? [] : fields.links.map((links) => foretell(links))
  /** Whether the state of the step's start is what an accepted step has left. */
  let follows = false

  const sumOutward = (): void => {
    for (const [group, links] of leaving.entries()) outward[group] = outwardOf(links)
  }
  const renewLinks = (): void => {
    if (renewed === undefined) return
    renewed.write(fields.links)
    sumLinks(conduction)
    sumOutward()
  }

  const repair = (d: Float64Array, S: Float64Array): void => {
    for (let index = 0; index < special.length; index++) {
      const cell = special[index]!
      const u = y0[cell]! + d[cell]!
      here[cell] = u
      const at = (u | 0) * STRIDE
      S[cell] = values[at]! + values[at + 1]! * u
    }
  }

  /** Gives the cells of every group near a pole their mean by volume: what one gains, all share. */
  const unite = (target: Float64Array): void => {
    const { volume } = conduction.mesh
    for (let group = 0; group < joined.length; group++) {
      const cells = joined[group]!
      let sum = 0
      let total = 0
      for (let index = 0; index < cells.length; index++) {
        const own = volume[cells[index]! - padding]!
        sum += own * target[cells[index]!]!
        total += own
      }
      const mean = sum / total
      for (let index = 0; index < cells.length; index++) target[cells[index]!] = mean
    }
  }
  const lookUpJoined = (d: Float64Array, S: Float64Array): void => {
    for (let group = 0; group < joined.length; group++) {
      const cells = joined[group]!
      const u = y0[cells[0]!]! + d[cells[0]!]!
      const at = (u | 0) * STRIDE
      const value = values[at]! + values[at + 1]! * u
      for (let index = 0; index < cells.length; index++) S[cells[index]!] = value
    }
  }
  const leaving = joined.map((cells) => outwardLinks(conduction, cells))
  const outwardOf = (links: (typeof leaving)[number]): number =>
    links.reduce((sum, { direction, at }) => sum + Math.abs(fields.links[direction]![at]!), 0)
  /** Conductance of all links that leave a group, m. Shape: joined */
  const outward = leaving.map(outwardOf)

  /** Heat of the uniform source, as a rate of table places. */
  const addSource = (target: Float64Array, factor: number): void => {
    for (let cell = 0; cell < conduction.mesh.cells; cell++) {
      const i = padding + cell
      target[i] = target[i]! + factor * source * weight[i]! * conduction.mesh.volume[cell]!
    }
  }

  const temperatureOf = (u: number): number => {
    const at = (u | 0) * STRIDE
    return values[at + 2]! + values[at + 3]! * u
  }
  /** Lowest and highest temperature of the cells at the step's start, °C. */
  const extent = { low_C: 0, high_C: 0 }
  const measureExtent = (): void => {
    extent.low_C = Number.POSITIVE_INFINITY
    extent.high_C = Number.NEGATIVE_INFINITY
    for (let i = padding; i < end; i++) {
      if (weight[i] === 0) continue
      const T_C = temperatureOf(y0[i]!)
      if (T_C < extent.low_C) extent.low_C = T_C
      if (T_C > extent.high_C) extent.high_C = T_C
    }
  }
  /** How far a state lies past what the step started from and meets, K. */
  const thrown = (y: Float64Array): number => {
    let { low_C, high_C } = extent
    for (let index = 0; index < outerCell.length; index++) {
      if (films.G[index] === 0) continue
      low_C = Math.min(low_C, films.airStart_C[index]!, films.airEnd_C[index]!)
      high_C = Math.max(high_C, films.airStart_C[index]!, films.airEnd_C[index]!)
    }
    let furthest = 0
    for (let i = padding; i < end; i++) {
      if (weight[i] === 0) continue
      const T_C = temperatureOf(y[i]!)
      furthest = Math.max(furthest, low_C - T_C, T_C - high_C)
    }
    return furthest
  }
  /** A given heat has no temperature that it could be measured by. */
  const isMeasured = (): boolean =>
    conduction.remembers && source === 0 && conditions.every(({ condition }) => condition.kind !== 'flux')

  const derive = (y: Float64Array, S: Float64Array, F: Float64Array, flows: Float64Array, by: Films): void => {
    rate(fields, S, F)
    flows.fill(0)
    addFilms(conduction, by, y, 0, 1, F, flows)
    if (source !== 0) addSource(F, 1)
    if (joined.length > 0) unite(F)
  }

  /** Largest eigenvalue of the linearised system, by columns (Gershgorin), 1/s. */
  const spectralRadius = (y: Float64Array): number => {
    for (let index = 0; index < special.length; index++) extra[special[index]!] = 0
    for (let index = 0; index < outerCell.length; index++) {
      const cell = outerCell[index]!
      extra[cell] = extra[cell]! + films.G[index]! / 2
    }
    for (let index = 0; index < contactLow.length; index++) {
      const low = contactLow[index]!
      const high = contactHigh[index]!
      extra[low] = extra[low]! + films.contact[index]!
      extra[high] = extra[high]! + films.contact[index]!
    }
    surround?.stiffen(films, extra)
    const { linkSum, mesh, rooms } = conduction
    if (rooms !== undefined)
      for (let wall = 0; wall < rooms.cell.length; wall++) {
        const cell = rooms.cell[wall]!
        extra[cell] = extra[cell]! + films.room[wall]!
      }
    let largest = 0
    for (let group = 0; group < joined.length; group++) {
      const cells = joined[group]!
      let films = 0
      let total = 0
      for (let index = 0; index < cells.length; index++) {
        films += extra[cells[index]!]!
        // Counted here, not again below.
        extra[cells[index]!] = 0
        total += mesh.volume[cells[index]! - padding]!
      }
      const first = cells[0]!
      const at = (y[first]! | 0) * STRIDE
      const perVolume = (weight[first]! * mesh.volume[first - padding]!) / total
      const pull = perVolume * (outward[group]! * values[at + 1]! + films * values[at + 3]!)
      if (pull > largest) largest = pull
    }
    for (let i = padding; i < end; i++) {
      const at = (y[i]! | 0) * STRIDE
      const pull = weight[i]! * (linkSum[i]! * values[at + 1]! + extra[i]! * values[at + 3]!)
      if (pull > largest) largest = pull
    }
    if (renewed !== undefined) {
      const { leastSlope } = renewed
      for (let i = padding; i < end; i++) {
        const pull = weight[i]! * leastSlope[i]! * (linkSum[i]! + extra[i]!)
        if (pull > largest) largest = pull
      }
    }
    return 2 * SAFETY * largest
  }

  let shifted = false
  /** Takes in that a cell's heat flow through a face at the step's start is another, W. */
  const shiftFlow = (cell: number, face: number, flow: number): void => {
    f0[cell] = f0[cell]! + weight[cell]! * flow
    flow0[face] = flow0[face]! + flow
    shifted = true
  }

  return {
    conduction,
    y: () => y0,
    films: () => films,
    longest: () => (MOST_STAGES * MOST_STAGES + MOST_STAGES - 2) / (2 * lambda),
    begin(faceConditions, uniformSource, time, around) {
      conditions = stageFaces(faceConditions)
      surround = around
      source = uniformSource
      t = time
      lookUp(fields, y0, S0)
      renewFilms(films, conduction, conditions, t, y0)
      surround?.begin(films, t, y0)
      renewLinks()
      // Currents may have changed the links since.
      sumOutward()
      for (const links of foretold) links.start(follows ? dtTried : 0)
      follows = false
      derive(y0, S0, f0, flow0, films)
      lambda = spectralRadius(y0)
      measured = isMeasured()
    },
    attempt(dt) {
      dtTried = dt
      if (measured) measureExtent()
      for (const links of foretold) links.aim(dt)
      aimFilms(films, conduction, conditions, t + dt)
      if (surround !== undefined) {
        shifted = false
        surround.aim(films, dt, shiftFlow)
        if (shifted && joined.length > 0) unite(f0)
      }
      const s = stagesFor(dt, lambda)
      const w = 4 / (s * s + s - 2)
      let along1 = w / 3
      let along2 = 0
      for (let i = padding; i < end; i++) d1[i] = (w / 3) * dt * f0[i]!
      lookUpAlong(fields, y0, d1, S1)
      repair(d1, S1)
      d2.fill(0)
      for (let face = 0; face < faces; face++) {
        Q1[face] = (w / 3) * dt * flow0[face]!
        Q2[face] = 0
      }
      for (let j = 2; j <= s; j++) {
        const mu = ((2 * j - 1) / j) * (b(j) / b(j - 1))
        const nu = (-(j - 1) / j) * (b(j) / b(j - 2))
        const mt = mu * w
        const ga = -(1 - b(j - 1)) * mt
        weights[0] = mu
        weights[1] = nu
        weights[2] = mt * dt
        weights[3] = ga * dt
        stage(fields, weights, y0, f0, d1, S1, d2, S2)
        for (let face = 0; face < faces; face++) {
          Q2[face] = mu * Q1[face]! + nu * Q2[face]! + ga * dt * flow0[face]!
        }
        addFilms(conduction, films, here, along1, mt * dt, d2, Q2)
        if (source !== 0) addSource(d2, mt * dt)
        if (joined.length > 0) unite(d2)
        // The source moves every cell, so every look-up of the stage is stale.
        if (source !== 0) lookUpAlong(fields, y0, d2, S2)
        repair(d2, S2)
        if (joined.length > 0) lookUpJoined(d2, S2)
        const along = mu * along1 + nu * along2 + mt + ga
        along2 = along1
        along1 = along
        let spare = d1
        d1 = d2
        d2 = spare
        spare = S1
        S1 = S2
        S2 = spare
        spare = Q1
        Q1 = Q2
        Q2 = spare
      }
      for (let i = padding; i < end; i++) {
        const from = y0[i]!
        const moved = d1[i]! + rest0[i]!
        const to = from + moved
        y1[i] = to
        rest1[i] = moved - (to - from)
      }
      filmsNew.surface_C.set(films.surface_C)
      renewFilms(filmsNew, conduction, conditions, t + dt, y1)
      const astray = surround?.end(filmsNew, dt, y1, Q1) ?? 0
      renewLinks()
      derive(y1, S1, fNew, flowNew, filmsNew)
      let sum = 0
      let largest = 0
      const { parts } = conduction.table
      const { volume } = conduction.mesh
      for (let i = padding; i < end; i++) {
        const u = y1[i]!
        const part = parts[conduction.partOf[i - padding]!]!
        if (!(u >= part.offset && u < part.offset + part.intervals)) return { error_K: Number.POSITIVE_INFINITY }
        const slope = values[(u | 0) * STRIDE + 3]!
        let e = Math.abs(-0.8 * d1[i]! + 0.4 * dt * (f0[i]! + fNew[i]!)) * slope
        if (renewed !== undefined) e *= renewed.errorShare[i]!
        sum += e * e * volume[i - padding]!
        if (e > largest) largest = e
      }
      // NaN compares false: a field that isn't finite must not pass.
      if (!(sum < Number.POSITIVE_INFINITY)) return { error_K: Number.POSITIVE_INFINITY }
      const overshoot = renewed?.overshoot(y1) ?? 0
      const local = Math.max(largest, overshoot, astray)
      const far = measured ? THROW_COUNTS * thrown(y1) : 0
      return { error_K: Math.max(Math.sqrt(sum / conduction.volume), LOCAL_SHARE * local, far) }
    },
    tried: () => ({ y: y1, films: filmsNew }),
    accept(through) {
      for (let face = 0; face < faces; face++) through[face] = through[face]! + Q1[face]!
      const yOld = y0
      y0 = y1
      y1 = yOld
      const restOld = rest0
      rest0 = rest1
      rest1 = restOld
      const fOld = f0
      f0 = fNew
      fNew = fOld
      const SOld = S0
      S0 = S1
      S1 = SOld
      const filmsOld = films
      films = filmsNew
      filmsNew = filmsOld
      const flowOld = flow0
      flow0 = flowNew
      flowNew = flowOld
      t += dtTried
      follows = true
      lambda = spectralRadius(y0)
      return surround?.accept() ?? false
    },
  }
}
