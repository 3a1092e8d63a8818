import type { FaceName, Place } from '../geometry/body.ts'
import { locate, type Mesh, placeOf } from '../geometry/mesh.ts'
import type { ThermalTable } from '../solver/thermal-table.ts'
import type { Course, PlaceHistory, Segment, StageSpan } from './course.ts'
import { findExtreme } from './extremes.ts'
import { createFieldReader, type FieldReader, middleOf, type Sample } from './field-reader.ts'

/** One kept moment. */
export interface Moment extends Sample {
  /** Seconds since the start of the plan. */
  readonly t: number
  readonly air_C: number
  /** Heat since the start through each elementary face, J of the modelled section. */
  readonly through: Readonly<Record<FaceName, number>>
  /** Heat stored since the start without poured layers' own, J of the modelled section. */
  readonly stored: number
}

/** Moments on one mesh. */
export interface Take {
  readonly mesh: Mesh
  readonly reader: FieldReader
  readonly moments: Moment[]
}

export function startTake(mesh: Mesh, table: ThermalTable, partOfLayer: readonly number[]): Take {
  const parts = mesh.layers.map((_, index) => table.parts[partOfLayer[index]!]!)
  return { mesh, reader: createFieldReader(mesh, parts), moments: [] }
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
  return Number.isNaN(mean) ? meanOf(moment.surface_C, mesh.boundary.map((link) => link.area)) : mean
}

/** Depth below the nearest outer face, m. */
function depthOf(mesh: Mesh, coordinates: readonly number[]): number {
  let depth = Number.POSITIVE_INFINITY
  for (const [index, axis] of mesh.axes.entries()) {
    const x = coordinates[index]!
    if (axis.low !== null) depth = Math.min(depth, x - axis.borders[0]!)
    depth = Math.min(depth, axis.borders[axis.borders.length - 1]! - x)
  }
  return Math.max(0, depth)
}

function layerNameAt(mesh: Mesh, coordinates: readonly number[]): string {
  let cell = 0
  let stride = 1
  for (const [index, axis] of mesh.axes.entries()) {
    let i = 0
    while (i < axis.middles.length - 1 && axis.borders[i + 1]! <= coordinates[index]!) i++
    cell += i * stride
    stride *= axis.middles.length
  }
  return mesh.layers[mesh.layerOf[cell]!]!.name
}

function within(mesh: Mesh, coordinates: readonly number[]): boolean {
  return mesh.axes.every((axis, index) => {
    const end = axis.borders[axis.borders.length - 1]!
    return coordinates[index]! <= end * (1 + 1e-9)
  })
}

/** Everything about a finished journey, read lazily from its moments. */
export function finishCourse(
  takes: readonly Take[],
  stages: readonly StageSpan[],
  facts: { readonly energyResidual: number; readonly steps: number },
): Course {
  const all = takes.flatMap((take) => take.moments.map((moment) => ({ take, moment })))
  const last = takes[takes.length - 1]!
  const { measure } = last.mesh
  const column = (read: (entry: (typeof all)[number]) => number): Float64Array => Float64Array.from(all, read)
  const extremes = (sign: 1 | -1) =>
    all.map(({ take, moment }) => findExtreme(take.mesh, take.reader, moment, sign))
  const hottest = extremes(1)
  const coldest = extremes(-1)
  let first = 0
  const segments: Segment[] = takes.map((take) => {
    const segment = {
      mesh: take.mesh,
      first,
      last: first + take.moments.length - 1,
      T_C: take.moments.map((moment) => moment.T_C),
      surface_C: take.moments.map((moment) => moment.surface_C),
    }
    first += take.moments.length
    return segment
  })
  const followCoordinates = (coordinates: readonly number[]): Float64Array =>
    column(({ take, moment }) => (within(take.mesh, coordinates) ? take.reader.at(moment, coordinates) : Number.NaN))

  const places = (): PlaceHistory[] =>
    Array.from({ length: last.mesh.cells }, (_, cell) => {
      const coordinates = middleOf(last.mesh, cell)
      const layer = last.mesh.layers[last.mesh.layerOf[cell]!]!
      const there = takes.filter((take) => take.mesh.layers.includes(layer))
      const kept = there.flatMap((take) =>
        take === last
          ? take.moments.map((moment) => [moment.t, moment.T_C[cell]!] as const)
          : take.moments.map((moment) => [moment.t, take.reader.at(moment, coordinates)] as const),
      )
      return {
        where: placeOf(last.mesh, coordinates),
        layer: layer.name,
        volume: last.mesh.volume[cell]! * measure,
        t: Float64Array.from(kept, ([t]) => t),
        T_C: Float64Array.from(kept, ([, T_C]) => T_C),
      }
    })

  return {
    t: column(({ moment }) => moment.t),
    stages,
    segments,
    mean_C: column(({ take, moment }) => meanOf(moment.T_C, take.mesh.volume)),
    surface_C: column(({ take, moment }) => surfaceMean(take.mesh, moment)),
    air_C: column(({ moment }) => moment.air_C),
    hottest_C: Float64Array.from(hottest, (extreme) => extreme.T_C),
    coldest_C: Float64Array.from(coldest, (extreme) => extreme.T_C),
    hottestAt: (sample) => placeOf(last.mesh, hottest[sample]!.coordinates),
    coldestAt: (sample) => placeOf(last.mesh, coldest[sample]!.coordinates),
    follow: (place: Place) => followCoordinates(locate(last.mesh, place)),
    places,
    describe: (place: Place) => {
      const coordinates = locate(last.mesh, place)
      return { layer: layerNameAt(last.mesh, coordinates), depth: depthOf(last.mesh, coordinates) }
    },
    heatThrough: Object.fromEntries(
      last.mesh.body.axes.flatMap((axis, index) => {
        const mirrored = last.mesh.axes[index]!.mirrored
        const half = mirrored ? 0.5 : 1
        const through = (face: FaceName) =>
          column(({ take, moment }) => (moment.through[face] ?? 0) * take.mesh.measure * half)
        const high = [axis.high, through(axis.high)] as const
        return axis.low === null ? [high] : [high, [axis.low, through(mirrored ? axis.high : axis.low)] as const]
      }),
    ),
    heat: column(({ take, moment }) => moment.stored * take.mesh.measure),
    energyResidual: facts.energyResidual,
    steps: facts.steps,
    cells: last.mesh.cells,
  }
}

