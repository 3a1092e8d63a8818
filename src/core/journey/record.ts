import type { FaceName, Place } from '../geometry/body.ts'
import { cellAt, cellsThere, depthOf, locate, type Mesh, NOTHING, placeOf } from '../geometry/mesh.ts'
import { type Conduction, temperaturesOf } from '../solver/conduction.ts'
import type { Films } from '../solver/film.ts'
import type { TablePart } from '../solver/thermal-table.ts'
import type { AroundCourse } from './around.ts'
import type { Course, PlaceHistory, Segment, StageSpan } from './course.ts'
import { findExtreme } from './extremes.ts'
import { type FieldReader, fieldReader, middleOf, type Sample } from './field-reader.ts'
import { createReel, type Reel } from './reel.ts'

/** One kept moment, read back; the same object for one moment after the other. */
export interface Row extends Sample {
  /** Where it begins in `data`. */
  readonly at: number
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
  /** Table of every layer. Shape: mesh.layers */
  readonly parts: readonly TablePart[]
  readonly layout: Layout
  keep(y: Float64Array, films: Films, facts: Facts): void
  /** Number of moments. */
  rows(): number
  /** Whether another moment would take more memory than a course may have. */
  full(): boolean
  /** Goes through the moments in order. */
  each(visit: (row: Row) => void): void
  /** Part of one moment as an array of its own place in the buffer. */
  part(row: number, from: number, to: number): Float64Array
}

/** Where each fact of a moment stands in its row, from the row's beginning. */
const AT = { t: 0, air_C: 1, sourceHeat: 2, vapourHeat: 3, waterLost: 4, height: 5, through: 6 } as const

/** Where the fields of a moment begin in its row. */
interface Layout {
  readonly surfaces: number
  readonly outsides: number
  readonly cells: number
  /** Of every value carried by the cells, by name. */
  readonly states: ReadonlyMap<string, number>
}

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
  const surfaces = AT.through + faces.length
  const outsides = surfaces + outer
  const cells = outsides + outer
  const states = cells + mesh.cells
  const width = states + names.length * mesh.cells
  const layout = {
    surfaces,
    outsides,
    cells,
    states: new Map(names.map((name, index) => [name, states + index * mesh.cells])),
  }
  const reel: Reel = createReel(width)
  const idle: ReadonlySet<FaceName>[] = []
  return {
    mesh,
    turned,
    reader: fieldReader(mesh),
    parts,
    layout,
    keep(y, films, facts) {
      const at = reel.append()
      const data = reel.data()
      data[at + AT.t] = facts.t
      data[at + AT.air_C] = facts.air_C
      data[at + AT.sourceHeat] = facts.sourceHeat
      data[at + AT.vapourHeat] = facts.lost.vapourHeat
      data[at + AT.waterLost] = facts.lost.water
      data[at + AT.height] = facts.lost.height ?? Number.NaN
      data.set(facts.through, at + AT.through)
      data.set(films.surface_C, at + surfaces)
      data.set(films.airStart_C, at + outsides)
      temperaturesOf(conduction, y, data, at + cells)
      for (const [index, one] of values.entries()) data.set(one, at + states + index * mesh.cells)
      idle.push(facts.insulated)
    },
    rows: () => idle.length,
    full: () => reel.full(),
    each(visit) {
      const data = reel.data()
      const row = { data, at: 0, surfaces, outsides, cells, insulated: idle[0]!, parts }
      for (const [index, insulated] of idle.entries()) {
        const at = index * width
        row.at = at
        row.surfaces = at + surfaces
        row.outsides = at + outsides
        row.cells = at + cells
        row.insulated = insulated
        visit(row)
      }
    },
    part: reel.part,
  }
}

/** Mean of what begins at `first` by weight; what has no weight doesn't count. NaN when nothing has. */
function meanOf(data: Float64Array, first: number, weights: ArrayLike<number>): number {
  let sum = 0
  let total = 0
  for (let i = 0; i < weights.length; i++) {
    const weight = weights[i]!
    if (weight === 0) continue
    sum += data[first + i]! * weight
    total += weight
  }
  return total === 0 ? Number.NaN : sum / total
}

/** Mean over the volume, °C. */
export const meanTemperature = (mesh: Mesh, { data, cells }: Sample): number => meanOf(data, cells, mesh.volume)

const weightsOfSurfaces = new WeakMap<ReadonlySet<FaceName>, { readonly mesh: Mesh; readonly weights: Float64Array }>()

/** Areas of the faces that exchange heat, of all of them when none does; a journey has few sets of idle ones. Shape: mesh.boundary */
function surfaceWeights(mesh: Mesh, idle: ReadonlySet<FaceName>): Float64Array {
  const known = weightsOfSurfaces.get(idle)
  if (known?.mesh === mesh) return known.weights
  const own = Float64Array.from(mesh.boundary, ({ face, area }) => (idle.has(face) ? 0 : area))
  const weights = own.some((area) => area > 0) ? own : Float64Array.from(mesh.boundary, ({ area }) => area)
  weightsOfSurfaces.set(idle, { mesh, weights })
  return weights
}

/** Area mean over the faces that exchange heat; over all of them when none does. */
export const surfaceTemperature = (mesh: Mesh, { data, surfaces, insulated }: Sample): number =>
  meanOf(data, surfaces, surfaceWeights(mesh, insulated))

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

/** A cell of the finished piece through the takes in which it is there. */
interface Followed {
  readonly cell: number
  readonly coordinates: readonly number[]
  readonly layer: string
  /** The first take that it is in. */
  readonly first: number
}

/** So many cells are read together: what lies side by side in a row comes into reach at once. */
const TOGETHER = 8

/** Temperatures of several cells that begin with one take, and which cell each is in every take. Shape: cells × samples, takes × cells */
function fillTogether(
  takes: readonly Take[],
  cells: readonly Followed[],
  samples: number,
): { readonly filled: readonly Float64Array[]; readonly sameIn: readonly Int32Array[] } {
  const last = takes[takes.length - 1]!
  const filled = cells.map(() => new Float64Array(samples))
  const sameIn = takes.map((take) =>
    Int32Array.from(cells, ({ cell, coordinates }) => (take === last ? cell : cellAt(take.mesh, coordinates))),
  )
  let i = 0
  for (const [index, take] of takes.entries()) {
    const same = sameIn[index]!
    take.each(({ data, cells: at }) => {
      for (let one = 0; one < same.length; one++) filled[one]![i] = data[at + same[one]!]!
      i++
    })
  }
  return { filled, sameIn }
}

/** Cells of a layer stay the same when another comes beside it, so a cell is followed by where its middle lies. */
function placesOf(takes: readonly Take[]): PlaceHistory[] {
  const { mesh } = takes[takes.length - 1]!
  const followed = cellsThere(mesh).map((cell): Followed => {
    const coordinates = middleOf(mesh, cell)
    const layer = mesh.layers[mesh.layerOf[cell]!]!
    // A wall grows with what is poured beside it: its upper part is not there before.
    const first = takes.findIndex((take) => take.mesh.layers.includes(layer) && holds(take.mesh, coordinates))
    return { cell, coordinates, layer: layer.name, first }
  })
  const clocks = new Map<number, Float64Array>()
  /** Times of all moments from a take on: shared by the places that begin with it. */
  const clockFrom = (first: number): Float64Array => {
    const known = clocks.get(first)
    if (known !== undefined) return known
    const made = columnOf(takes.slice(first), ({ data, at }) => data[at + AT.t]!)
    clocks.set(first, made)
    return made
  }
  const places: PlaceHistory[] = []
  for (let from = 0; from < followed.length; ) {
    const { first } = followed[from]!
    let to = from + 1
    while (to < followed.length && to - from < TOGETHER && followed[to]!.first === first) to++
    const block = followed.slice(from, to)
    const t = clockFrom(first)
    const own = takes.slice(first)
    const { filled, sameIn } = fillTogether(own, block, t.length)
    for (const [index, T_C] of filled.entries()) {
      const { cell, coordinates, layer } = block[index]!
      const where = lazy(() => placeOf(mesh, coordinates))
      const carried = lazy(() => carriedBy(own.map((take, i) => ({ take, same: sameIn[i]![index]! }))))
      places.push({
        get where() {
          return where()
        },
        layer,
        volume: mesh.volume[cell]! * mesh.measure,
        t,
        T_C,
        get states() {
          return carried()
        },
      })
    }
    from = to
  }
  return places
}

/** Values that a place carries along through the takes, by name: those that it has at the end. */
function carriedBy(there: readonly { readonly take: Take; readonly same: number }[]): Record<string, Float64Array> {
  const total = there.reduce((sum, { take }) => sum + take.rows(), 0)
  const { take: last } = there[there.length - 1]!
  const histories = Array.from(last.layout.states.keys(), (name): [string, Float64Array] => {
    const history = new Float64Array(total).fill(Number.NaN)
    let i = 0
    for (const { take, same } of there) {
      const from = take.layout.states.get(name)
      take.each(({ data, at }) => {
        if (from !== undefined) history[i] = data[at + from + same]!
        i++
      })
    }
    return [name, history]
  })
  const firstOfLast = total - last.rows()
  return Object.fromEntries(histories.filter(([, history]) => !Number.isNaN(history[firstOfLast] ?? Number.NaN)))
}

/** One value of every moment of some takes, in order. */
function columnOf(takes: readonly Take[], read: (row: Row, take: Take) => number): Float64Array {
  const column = new Float64Array(takes.reduce((sum, take) => sum + take.rows(), 0))
  let i = 0
  for (const take of takes)
    take.each((row) => {
      column[i++] = read(row, take)
    })
  return column
}

/** A take's fields as a segment of the course, from its sample `first` on. */
function segmentOf(take: Take, first: number): Segment {
  const { layout, mesh } = take
  const all = (from: number, count: number): Float64Array[] =>
    Array.from({ length: take.rows() }, (_, row) => take.part(row, from, from + count))
  const T_C = lazy(() => all(layout.cells, mesh.cells))
  const surface_C = lazy(() => all(layout.surfaces, mesh.boundary.length))
  const states = lazy(() =>
    Object.fromEntries(Array.from(layout.states, ([name, from]) => [name, all(from, mesh.cells)])),
  )
  return {
    mesh,
    turned: take.turned,
    first,
    last: first + take.rows() - 1,
    get T_C() {
      return T_C()
    },
    get surface_C() {
      return surface_C()
    },
    get states() {
      return states()
    },
  }
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
  const column = (read: (row: Row, take: Take) => number): Float64Array => columnOf(takes, read)
  const fact = (at: number) => lazy(() => column(({ data, at: row }) => data[row + at]!))
  const extremes = (sign: 1 | -1) =>
    lazy(() => {
      const found: { readonly T_C: number; readonly coordinates: readonly number[]; readonly mesh: Mesh }[] = []
      for (const take of takes)
        take.each((row) => found.push({ ...findExtreme(take.mesh, row, sign), mesh: take.mesh }))
      return found
    })
  const hottest = extremes(1)
  const coldest = extremes(-1)
  const columns = {
    t: fact(AT.t),
    mean: lazy(() => column((row, take) => meanTemperature(take.mesh, row))),
    surface: lazy(() => column((row, take) => surfaceTemperature(take.mesh, row))),
    air: fact(AT.air_C),
    hottest: lazy(() => Float64Array.from(hottest(), (extreme) => extreme.T_C)),
    coldest: lazy(() => Float64Array.from(coldest(), (extreme) => extreme.T_C)),
    through: lazy(() => Object.fromEntries(faces.map((face, index) => [face, fact(AT.through + index)()]))),
    heat: lazy(() =>
      column(({ data, at }) => {
        let heat = data[at + AT.sourceHeat]! - data[at + AT.vapourHeat]!
        for (let face = 0; face < faces.length; face++) heat += data[at + AT.through + face]!
        return heat
      }),
    ),
    vapourHeat: fact(AT.vapourHeat),
    waterLost: fact(AT.waterLost),
    height: fact(AT.height),
    places: lazy(() => placesOf(takes)),
    segments: lazy(() => {
      let first = 0
      return takes.flatMap((take): Segment[] => {
        const from = first
        first += take.rows()
        // A take without moments: several things were done at once, the last take shows them.
        return take.rows() === 0 ? [] : [segmentOf(take, from)]
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
    hottestAt: (sample) => placeOf(hottest()[sample]!.mesh, hottest()[sample]!.coordinates),
    coldestAt: (sample) => placeOf(coldest()[sample]!.mesh, coldest()[sample]!.coordinates),
    follow: (place: Place) => {
      const coordinates = locate(mesh, place)
      const readers = new Map(
        takes.map((take) => [take, holds(take.mesh, coordinates) ? take.reader.place(coordinates) : () => Number.NaN]),
      )
      return column((row, take) => readers.get(take)!(row))
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
