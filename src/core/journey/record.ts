import type { FaceName, Place } from '../geometry/body.ts'
import { cellAt, cellsThere, depthOf, locate, type Mesh, NOTHING, placeOf } from '../geometry/mesh.ts'
import { type Conduction, temperaturesOf } from '../solver/conduction.ts'
import type { Films } from '../solver/film.ts'
import type { AroundCourse } from './around.ts'
import type { Course, PlaceHistory, Segment, StageSpan } from './course.ts'
import { findExtreme } from './extremes.ts'
import { createFieldReader, type FieldReader, middleOf, type Sample } from './field-reader.ts'
import { createReel, type Reel } from './reel.ts'

/** One kept moment, read back. */
export interface Moment extends Sample {
  /** Seconds since the start of the plan. */
  readonly t: number
  readonly air_C: number
  /** Heat since the start through each elementary face, J of the whole piece. Shape: faces of the journey */
  readonly through: Float64Array
  /** Heat of the uniform source since the start, J of the whole piece. */
  readonly sourceHeat: number
  /** J and kg of the whole piece since the start, carried off by vapour. */
  readonly vapourHeat: number
  readonly waterLost: number
  /** m; NaN where the piece never rises. */
  readonly height: number
  /** Values carried by the cells, by name. Shape of each: cells */
  readonly states: Readonly<Record<string, Float64Array>>
}

/** What boiling has taken off since the start, of the whole piece, and how high the piece stands. */
export interface Lost {
  /** J */
  readonly vapourHeat: number
  /** kg */
  readonly water: number
  /** m; undefined where no batter can make the piece rise. */
  readonly height: number | undefined
}

/** What is kept beside the fields. */
export interface Facts {
  readonly t: number
  readonly air_C: number
  readonly sourceHeat: number
  readonly through: Float64Array
  readonly lost: Lost
  readonly insulated: ReadonlySet<FaceName>
}

/** Values that cells carry along, as they change. Shape of both: names */
export interface Carried {
  readonly names: readonly string[]
  /** Shape of each: cells */
  readonly values: readonly Float64Array[]
}

/** The moments between two changes of the piece. */
export interface Take {
  readonly mesh: Mesh
  /** Whether the piece lies upside down, as against the start. */
  readonly turned: boolean
  readonly reader: FieldReader
  /** Corners of the thermal law of every layer. Shape: mesh.layers */
  readonly kinks_C: readonly (readonly number[])[]
  keep(y: Float64Array, films: Films, facts: Facts): void
  moments(): readonly Moment[]
}

const FACTS = 6

/** @param faces  elementary faces of the whole journey */
export function startTake(
  conduction: Conduction,
  faces: readonly FaceName[],
  turned: boolean,
  { names, values }: Carried,
): Take {
  const { mesh, table, layers } = conduction
  const parts = layers.map(({ part }) => table.parts[part]!)
  const outer = mesh.boundary.length
  const surfaces = FACTS + faces.length
  const outsides = surfaces + outer
  const cells = outsides + outer
  const states = cells + mesh.cells
  const reel: Reel = createReel(states + names.length * mesh.cells)
  const idle: ReadonlySet<FaceName>[] = []
  const read = lazy(() =>
    Array.from(idle, (insulated, row): Moment => {
      const facts = reel.part(row, 0, FACTS)
      return {
        t: facts[0]!,
        air_C: facts[1]!,
        sourceHeat: facts[2]!,
        through: reel.part(row, FACTS, surfaces),
        surface_C: reel.part(row, surfaces, outsides),
        outside_C: reel.part(row, outsides, cells),
        T_C: reel.part(row, cells, states),
        vapourHeat: facts[3]!,
        waterLost: facts[4]!,
        height: facts[5]!,
        states: Object.fromEntries(
          names.map((name, index) => {
            const from = states + index * mesh.cells
            return [name, reel.part(row, from, from + mesh.cells)]
          }),
        ),
        insulated,
      }
    }),
  )
  return {
    mesh,
    turned,
    reader: createFieldReader(mesh, parts),
    kinks_C: parts.map((part) => part.kinks_C),
    keep(y, films, facts) {
      const at = reel.append()
      const data = reel.data()
      data[at] = facts.t
      data[at + 1] = facts.air_C
      data[at + 2] = facts.sourceHeat
      data[at + 3] = facts.lost.vapourHeat
      data[at + 4] = facts.lost.water
      data[at + 5] = facts.lost.height ?? Number.NaN
      data.set(facts.through, at + FACTS)
      data.set(films.surface_C, at + surfaces)
      data.set(films.airStart_C, at + outsides)
      temperaturesOf(conduction, y, data, at + cells)
      for (const [index, one] of values.entries()) data.set(one, at + states + index * mesh.cells)
      idle.push(facts.insulated)
    },
    moments: read,
  }
}

/** Mean by weight; what has no weight doesn't count. NaN when nothing has. */
function meanOf(values: Float64Array, weights: ArrayLike<number>): number {
  let sum = 0
  let total = 0
  for (let i = 0; i < values.length; i++) {
    if (weights[i] === 0) continue
    sum += values[i]! * weights[i]!
    total += weights[i]!
  }
  return total === 0 ? Number.NaN : sum / total
}

/** Mean over the volume, °C. */
export const meanTemperature = (mesh: Mesh, sample: Sample): number => meanOf(sample.T_C, mesh.volume)

/** Area mean over the faces that exchange heat; over all of them when none does. */
export function surfaceTemperature(mesh: Mesh, sample: Sample): number {
  const open = mesh.boundary.map((link) => (sample.insulated.has(link.face) ? 0 : link.area))
  const mean = meanOf(sample.surface_C, open)
  if (!Number.isNaN(mean)) return mean
  return meanOf(
    sample.surface_C,
    mesh.boundary.map((link) => link.area),
  )
}

/** Whether something of the piece is at these coordinates. */
function holds(mesh: Mesh, coordinates: readonly number[]): boolean {
  const inside = mesh.axes.every((axis, index) => {
    const at = coordinates[index]!
    const slack = 1e-9 * (axis.to - axis.from)
    return at >= axis.borders[0]! - slack && at <= axis.borders[axis.borders.length - 1]! + slack
  })
  return inside && mesh.layerOf[cellAt(mesh, coordinates)] !== NOTHING
}

function lazy<T>(make: () => T): () => T {
  let made: { readonly value: T } | undefined
  return () => {
    made ??= { value: make() }
    return made.value
  }
}

interface Entry {
  readonly take: Take
  readonly moment: Moment
}

/** Cells of a layer stay the same when another comes beside it, so a cell is followed by where its middle lies. */
function placesOf(takes: readonly Take[]): PlaceHistory[] {
  const last = takes[takes.length - 1]!
  const { mesh } = last
  const clocks = new Map<number, Float64Array>()
  /** Times of all moments from a take on: shared by the places that begin with it. */
  const clockFrom = (first: number): Float64Array => {
    const known = clocks.get(first)
    if (known !== undefined) return known
    const made = Float64Array.from(takes.slice(first).flatMap((take) => take.moments().map((moment) => moment.t)))
    clocks.set(first, made)
    return made
  }
  return cellsThere(mesh).map((cell) => {
    const coordinates = middleOf(mesh, cell)
    const layer = mesh.layers[mesh.layerOf[cell]!]!
    // A wall grows with what is poured beside it: its upper part is not there before.
    const first = takes.findIndex((take) => take.mesh.layers.includes(layer) && holds(take.mesh, coordinates))
    const t = clockFrom(first)
    const T_C = new Float64Array(t.length)
    const there = takes.slice(first).map((take) => ({
      take,
      same: take === last ? cell : cellAt(take.mesh, coordinates),
    }))
    let i = 0
    for (const { take, same } of there) for (const moment of take.moments()) T_C[i++] = moment.T_C[same]!
    const carried = lazy(() => carriedBy(there))
    return {
      where: placeOf(mesh, coordinates),
      layer: layer.name,
      volume: mesh.volume[cell]! * mesh.measure,
      t,
      T_C,
      get states() {
        return carried()
      },
    }
  })
}

/** Values that a place carries along through the takes, by name: those that it has at the end. */
function carriedBy(there: readonly { readonly take: Take; readonly same: number }[]): Record<string, Float64Array> {
  const { take, same } = there[there.length - 1]!
  const states = take.moments()[0]?.states ?? {}
  const names = Object.keys(states).filter((name) => !Number.isNaN(states[name]![same]!))
  const history = (name: string): Float64Array =>
    Float64Array.from(
      there.flatMap((one) => one.take.moments().map((moment) => moment.states[name]?.[one.same] ?? Number.NaN)),
    )
  return Object.fromEntries(names.map((name) => [name, history(name)]))
}

/** What a journey leaves behind. */
export interface Finished {
  readonly takes: readonly Take[]
  readonly faces: readonly FaceName[]
  lost(): Lost
  residual(): number
}

/** Everything about a finished journey, read from its moments when asked for. */
export function finishCourse(
  { takes, faces, lost, residual }: Finished,
  stages: readonly StageSpan[],
  steps: number,
  around: AroundCourse | undefined,
): Course {
  const last = takes[takes.length - 1]!
  const { mesh } = last
  const all = lazy(() => takes.flatMap((take) => take.moments().map((moment): Entry => ({ take, moment }))))
  const column = (read: (entry: Entry) => number): Float64Array => Float64Array.from(all(), read)
  const extremes = (sign: 1 | -1) =>
    lazy(() => all().map(({ take, moment }) => findExtreme(take.mesh, moment, sign, take.kinks_C)))
  const hottest = extremes(1)
  const coldest = extremes(-1)
  const columns = {
    t: lazy(() => column(({ moment }) => moment.t)),
    mean: lazy(() => column(({ take, moment }) => meanTemperature(take.mesh, moment))),
    surface: lazy(() => column(({ take, moment }) => surfaceTemperature(take.mesh, moment))),
    air: lazy(() => column(({ moment }) => moment.air_C)),
    hottest: lazy(() => Float64Array.from(hottest(), (extreme) => extreme.T_C)),
    coldest: lazy(() => Float64Array.from(coldest(), (extreme) => extreme.T_C)),
    through: lazy(() =>
      Object.fromEntries(faces.map((face, index) => [face, column(({ moment }) => moment.through[index]!)])),
    ),
    heat: lazy(() =>
      column(({ moment }) => moment.through.reduce((sum, heat) => sum + heat, moment.sourceHeat - moment.vapourHeat)),
    ),
    vapourHeat: lazy(() => column(({ moment }) => moment.vapourHeat)),
    waterLost: lazy(() => column(({ moment }) => moment.waterLost)),
    height: lazy(() => column(({ moment }) => moment.height)),
    places: lazy(() => placesOf(takes)),
    segments: lazy(() => {
      let first = 0
      return takes.flatMap((take): Segment[] => {
        const moments = take.moments()
        const from = first
        first += moments.length
        // A take without moments: several things were done at once, the last take shows them.
        if (moments.length === 0) return []
        return [
          {
            mesh: take.mesh,
            turned: take.turned,
            first: from,
            last: first - 1,
            T_C: moments.map((moment) => moment.T_C),
            surface_C: moments.map((moment) => moment.surface_C),
            states: Object.fromEntries(
              Object.keys(moments[0]!.states).map((name) => [name, moments.map((moment) => moment.states[name]!)]),
            ),
          },
        ]
      })
    }),
  }
  return {
    get t() {
      return columns.t()
    },
    stages,
    get segments() {
      return columns.segments()
    },
    get mean_C() {
      return columns.mean()
    },
    get surface_C() {
      return columns.surface()
    },
    get air_C() {
      return columns.air()
    },
    get hottest_C() {
      return columns.hottest()
    },
    get coldest_C() {
      return columns.coldest()
    },
    hottestAt: (sample) => placeOf(all()[sample]!.take.mesh, hottest()[sample]!.coordinates),
    coldestAt: (sample) => placeOf(all()[sample]!.take.mesh, coldest()[sample]!.coordinates),
    follow: (place: Place) => {
      const coordinates = locate(mesh, place)
      const readers = new Map(
        takes.map((take) => [take, holds(take.mesh, coordinates) ? take.reader.place(coordinates) : () => Number.NaN]),
      )
      return column(({ take, moment }) => readers.get(take)!(moment))
    },
    places: columns.places,
    describe: (place: Place) => {
      const coordinates = locate(mesh, place)
      const layer = mesh.layerOf[cellAt(mesh, coordinates)]!
      return { layer: layer === NOTHING ? '' : mesh.layers[layer]!.name, depth: depthOf(mesh, coordinates) }
    },
    get heatThrough() {
      return columns.through()
    },
    get heat() {
      return columns.heat()
    },
    get vapourHeat() {
      return columns.vapourHeat()
    },
    get waterLost() {
      return columns.waterLost()
    },
    ...(lost().height === undefined ? {} : { height: columns.height() }),
    ...(around === undefined ? {} : { around }),
    energyResidual: Math.max(residual(), around?.residual ?? 0),
    steps,
    cells: mesh.cells,
  }
}
