import type { Body, FaceName, Place } from '../geometry/body.ts'
import { locate, type Mesh, placeOf } from '../geometry/mesh.ts'
import type { Conduction } from '../solver/conduction.ts'
import type { Films } from '../solver/film.ts'
import { STRIDE } from '../solver/thermal-table.ts'
import type { Course, PlaceHistory, Segment, StageSpan } from './course.ts'
import { findExtreme } from './extremes.ts'
import { createFieldReader, type FieldReader, middleOf, type Sample } from './field-reader.ts'
import { createReel, type Reel } from './reel.ts'

/** One kept moment, read back. */
export interface Moment extends Sample {
  /** Seconds since the start of the plan. */
  readonly t: number
  readonly air_C: number
  /** Heat since the start through each elementary face, J of the modelled section. Shape: facesOf(body) */
  readonly through: Float64Array
  /** Heat of the uniform source since the start, J of the modelled section. */
  readonly sourceHeat: number
}

/** What is kept beside the fields. */
export interface Facts {
  readonly t: number
  readonly air_C: number
  readonly sourceHeat: number
  readonly through: Float64Array
  readonly insulated: ReadonlySet<FaceName>
}

/** The moments on one mesh. */
export interface Take {
  readonly mesh: Mesh
  readonly reader: FieldReader
  /** Corners of the thermal law of every layer. Shape: mesh.layers */
  readonly kinks_C: readonly (readonly number[])[]
  keep(y: Float64Array, films: Films, facts: Facts): void
  moments(): readonly Moment[]
}

/** Elementary faces of a body in a fixed order. */
export function facesOf(body: Body): FaceName[] {
  return body.axes.flatMap((axis) => (axis.low === null ? [axis.high] : [axis.low, axis.high]))
}

const FACTS = 3

export function startTake(conduction: Conduction): Take {
  const { mesh, table, partOf } = conduction
  const parts = mesh.layers.map((_, layer) => table.parts[partOf[mesh.layerOf.indexOf(layer)]!]!)
  const faces = facesOf(mesh.body).length
  const outer = mesh.boundary.length
  const surfaces = FACTS + faces
  const outsides = surfaces + outer
  const cells = outsides + outer
  const reel: Reel = createReel(cells + mesh.cells)
  const idle: ReadonlySet<FaceName>[] = []
  const { padding } = conduction.fields
  const { values } = table
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
        T_C: reel.part(row, cells, reel.width),
        insulated,
      }
    }),
  )
  return {
    mesh,
    reader: createFieldReader(mesh, parts),
    kinks_C: parts.map((part) => part.kinks_C),
    keep(y, films, facts) {
      const at = reel.append()
      const data = reel.data()
      data[at] = facts.t
      data[at + 1] = facts.air_C
      data[at + 2] = facts.sourceHeat
      data.set(facts.through, at + FACTS)
      data.set(films.surface_C, at + surfaces)
      data.set(films.airStart_C, at + outsides)
      for (let cell = 0; cell < mesh.cells; cell++) {
        const u = y[padding + cell]!
        const interval = (u | 0) * STRIDE
        data[at + cells + cell] = values[interval + 2]! + values[interval + 3]! * u
      }
      idle.push(facts.insulated)
    },
    moments: read,
  }
}

function meanOf(values: Float64Array, weights: ArrayLike<number>): number {
  let sum = 0
  let total = 0
  for (let i = 0; i < values.length; i++) {
    sum += values[i]! * weights[i]!
    total += weights[i]!
  }
  return total === 0 ? Number.NaN : sum / total
}

/** Area mean over the faces that exchange heat; over all of them when none does. */
function surfaceMean(mesh: Mesh, moment: Moment): number {
  const open = mesh.boundary.map((link) => (moment.insulated.has(link.face) ? 0 : link.area))
  const mean = meanOf(moment.surface_C, open)
  if (!Number.isNaN(mean)) return mean
  return meanOf(
    moment.surface_C,
    mesh.boundary.map((link) => link.area),
  )
}

/** Depth below the nearest outer face, m. A mirrored axis counts from its high face alone. */
function depthOf(mesh: Mesh, coordinates: readonly number[]): number {
  let depth = Number.POSITIVE_INFINITY
  for (const [index, axis] of mesh.axes.entries()) {
    const x = coordinates[index]!
    if (axis.low !== null) depth = Math.min(depth, x - axis.borders[0]!)
    depth = Math.min(depth, axis.borders[axis.borders.length - 1]! - x)
  }
  return Math.max(0, depth)
}

function cellAt(mesh: Mesh, coordinates: readonly number[]): number {
  let cell = 0
  let stride = 1
  for (const [index, axis] of mesh.axes.entries()) {
    let i = 0
    while (i < axis.middles.length - 1 && axis.borders[i + 1]! <= coordinates[index]!) i++
    cell += i * stride
    stride *= axis.middles.length
  }
  return cell
}

function within(mesh: Mesh, coordinates: readonly number[]): boolean {
  return mesh.axes.every((axis, index) => {
    const end = axis.borders[axis.borders.length - 1]!
    return coordinates[index]! <= end * (1 + 1e-9)
  })
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

/** Heat through each elementary face; of a mirrored axis the modelled face stands for both. */
function heatThrough(mesh: Mesh, column: (read: (entry: Entry) => number) => Float64Array) {
  const faces = facesOf(mesh.body)
  const through = (face: FaceName, share: number): Float64Array => {
    const index = faces.indexOf(face)
    return column(({ take, moment }) => moment.through[index]! * take.mesh.measure * share)
  }
  const entries = mesh.axes.flatMap((axis, index) => {
    const { low, high } = mesh.body.axes[index]!
    const share = axis.mirrored ? 0.5 : 1
    const own = [high, through(high, share)] as const
    return low === null ? [own] : [own, [low, through(axis.mirrored ? high : low, share)] as const]
  })
  return Object.fromEntries(entries)
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
  return Array.from({ length: mesh.cells }, (_, cell) => {
    const coordinates = middleOf(mesh, cell)
    const layer = mesh.layers[mesh.layerOf[cell]!]!
    // A wall grows with what is poured beside it: its upper part is not there before.
    const first = takes.findIndex((take) => take.mesh.layers.includes(layer) && within(take.mesh, coordinates))
    const t = clockFrom(first)
    const T_C = new Float64Array(t.length)
    let i = 0
    for (const take of takes.slice(first)) {
      const same = take === last ? cell : cellAt(take.mesh, coordinates)
      for (const moment of take.moments()) T_C[i++] = moment.T_C[same]!
    }
    return {
      where: placeOf(mesh, coordinates),
      layer: layer.name,
      volume: mesh.volume[cell]! * mesh.measure,
      t,
      T_C,
    }
  })
}

/** Everything about a finished journey, read from its moments when asked for. */
export function finishCourse(
  takes: readonly Take[],
  stages: readonly StageSpan[],
  facts: { readonly energyResidual: number; readonly steps: number },
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
    mean: lazy(() => column(({ take, moment }) => meanOf(moment.T_C, take.mesh.volume))),
    surface: lazy(() => column(({ take, moment }) => surfaceMean(take.mesh, moment))),
    air: lazy(() => column(({ moment }) => moment.air_C)),
    hottest: lazy(() => Float64Array.from(hottest(), (extreme) => extreme.T_C)),
    coldest: lazy(() => Float64Array.from(coldest(), (extreme) => extreme.T_C)),
    through: lazy(() => heatThrough(mesh, column)),
    heat: lazy(() =>
      column(
        ({ take, moment }) => moment.through.reduce((sum, heat) => sum + heat, moment.sourceHeat) * take.mesh.measure,
      ),
    ),
    places: lazy(() => placesOf(takes)),
    segments: lazy(() => {
      let first = 0
      return takes.map((take): Segment => {
        const moments = take.moments()
        const from = first
        first += moments.length
        return {
          mesh: take.mesh,
          first: from,
          last: first - 1,
          T_C: moments.map((moment) => moment.T_C),
          surface_C: moments.map((moment) => moment.surface_C),
        }
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
    hottestAt: (sample) => placeOf(mesh, hottest()[sample]!.coordinates),
    coldestAt: (sample) => placeOf(mesh, coldest()[sample]!.coordinates),
    follow: (place: Place) => {
      const coordinates = locate(mesh, place)
      const readers = new Map(
        takes.map((take) => [take, within(take.mesh, coordinates) ? take.reader.place(coordinates) : () => Number.NaN]),
      )
      return column(({ take, moment }) => readers.get(take)!(moment))
    },
    places: columns.places,
    describe: (place: Place) => {
      const coordinates = locate(mesh, place)
      return { layer: mesh.layers[mesh.layerOf[cellAt(mesh, coordinates)]!]!.name, depth: depthOf(mesh, coordinates) }
    },
    get heatThrough() {
      return columns.through()
    },
    get heat() {
      return columns.heat()
    },
    energyResidual: facts.energyResidual,
    steps: facts.steps,
    cells: mesh.cells,
  }
}
