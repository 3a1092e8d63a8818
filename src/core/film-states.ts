import { cellAt, NOTHING } from './geometry/mesh.ts'
import type { Course, Segment } from './journey/course.ts'
import { middleOf } from './journey/field-reader.ts'
import { iceShareOf } from './materials/ice-table.ts'
import { growthLog10 } from './outcomes/growth/growth-law.ts'
import { exposureAt } from './outcomes/growth/growth-report.ts'
import { organisms } from './outcomes/growth/organisms.ts'
import { follow } from './outcomes/kinetics/spans.ts'
import { type LayerLaws, layerLaws } from './outcomes/layer-laws.ts'

/* What the film shows beside temperatures: how far each place has set, how much of its water is ice, what may have grown. */

/** Share of the water that is ice in every cell, %, at some samples of a segment. Shape: samples × cells */
export function iceOf({ mesh, T_C }: Segment, samples: readonly number[]): Float32Array[] {
  const shares = mesh.layers.map(({ material }) => iceShareOf(material))
  return samples.map((sample) => {
    const field = new Float32Array(mesh.cells)
    const warmth = T_C[sample]!
    for (let cell = 0; cell < field.length; cell++) {
      const share = shares[mesh.layerOf[cell]!]
      if (share !== undefined) field[cell] = 100 * share(warmth[cell]!)
    }
    return field
  })
}

/** The temperature of a cell of a segment since its layer is there: cells stay where they are when others come beside them. */
function historyOf(course: Course, last: number, cell: number): { t: number[]; T_C: number[] } {
  const { mesh } = course.segments[last]!
  const at = middleOf(mesh, cell)
  const layer = mesh.layers[mesh.layerOf[cell]!]!
  const t: number[] = []
  const T_C: number[] = []
  for (const segment of course.segments.slice(0, last + 1)) {
    if (!segment.mesh.layers.includes(layer)) continue
    const same = segment.mesh === mesh ? cell : cellAt(segment.mesh, at)
    if (segment.mesh.layerOf[same] === NOTHING) continue
    for (let i = 0; i < segment.T_C.length; i++) {
      t.push(course.t[segment.first + i]!)
      T_C.push(segment.T_C[i]![same]!)
    }
  }
  return { t, T_C }
}

/** How far the law that is behind has come at some moments, 0 to 1. Shape: moments */
function extentsAlong(
  { laws }: LayerLaws,
  history: { t: number[]; T_C: number[] },
  moments: readonly number[],
): number[] {
  const least = moments.map(() => 1)
  for (const law of laws) {
    let next = 0
    follow(law, history, (t, T_C, values) => {
      for (; next < moments.length && t >= moments[next]! - 1e-6; next++)
        least[next] = Math.min(least[next]!, law.extent(values, T_C))
    })
  }
  return least
}

/** How far every cell has set, %, at some samples of a segment; what is solid as it comes is, what nothing sets is not. */
export function setOf(course: Course, index: number, samples: readonly number[]): Float32Array[] {
  const { mesh, first } = course.segments[index]!
  const laws = layerLaws(course, 'typical')
  const moments = samples.map((sample) => course.t[first + sample]!)
  const fields = samples.map(() => new Float32Array(mesh.cells))
  for (let cell = 0; cell < mesh.cells; cell++) {
    const own = laws.get(mesh.layers[mesh.layerOf[cell]!]?.name ?? '')
    if (own === undefined || (own.laws.length === 0 && !own.solid)) continue
    const extents =
      own.laws.length === 0 ? moments.map(() => 1) : extentsAlong(own, historyOf(course, index, cell), moments)
    for (const [frame, extent] of extents.entries()) fields[frame]![cell] = 100 * Math.min(1, Math.max(0, extent))
  }
  return fields
}

/** Most that any organism may have grown at every place of the finished piece, powers of ten. Shape: as course.places() */
export function growthOfPlaces(course: Course): Float32Array {
  const grown = new Float32Array(course.places().length)
  for (const organism of organisms)
    for (let place = 0; place < grown.length; place++) {
      const A = exposureAt(organism, course, place) ?? 0
      if (A > 0) grown[place] = Math.max(grown[place]!, growthLog10(A, organism.h0.likely, organism.room_log10))
    }
  return grown
}
