import { cellsThere, type Mesh, NOTHING } from '../geometry/mesh.ts'
import type { Course } from '../journey/course.ts'
import type { Keeping } from '../materials/keeping.ts'
import { isExempt } from './keeping.ts'

/** What is known of a place beside its temperatures. */
export interface Meeting {
  /** What decides the keeping of the masses that meet there, the place's own first. */
  readonly keepings: readonly (Keeping | undefined)[]
  /** Whether it lies at an outer face or where masses meet: where hands, boards and tools leave what they carry. */
  readonly handled: boolean
}

/** Layers, own one first, whose masses meet in a cell: its own and those of the cells beside it. */
function layersMeeting(mesh: Mesh, cell: number): number[] {
  const own = mesh.layerOf[cell]!
  const found = [own]
  let stride = 1
  for (const count of mesh.n) {
    const at = Math.floor(cell / stride) % count
    for (const beside of [at > 0 ? cell - stride : -1, at < count - 1 ? cell + stride : -1]) {
      if (beside < 0) continue
      const other = mesh.layerOf[beside]!
      if (other !== NOTHING && !found.includes(other)) found.push(other)
    }
    stride *= count
  }
  return found
}

const known = new WeakMap<Course, readonly Meeting[]>()

function meetingsOf(course: Course): Meeting[] {
  // A course written by hand may come without fields.
  if (course.segments.length === 0) return course.places().map(() => ({ keepings: [undefined], handled: true }))
  const { mesh } = course.segments[course.segments.length - 1]!
  const outer = new Set(mesh.boundary.map((face) => face.cell))
  const kinds = new Map<string, Meeting>()
  return cellsThere(mesh).map((cell) => {
    const layers = layersMeeting(mesh, cell)
    const handled = layers.length > 1 || outer.has(cell)
    const key = `${layers.join(' ')} ${handled}`
    const made = kinds.get(key) ?? { keepings: layers.map((layer) => mesh.layers[layer]!.material.keeping), handled }
    kinds.set(key, made)
    return made
  })
}

/** What is known of every place beside its temperatures, made once. Shape: as course.places() */
export function meetings(course: Course): readonly Meeting[] {
  const made = known.get(course) ?? meetingsOf(course)
  known.set(course, made)
  return made
}

/** Whether each place of a course needs control of time and temperature. Shape: as course.places() */
export function controlledPlaces(course: Course): boolean[] {
  const exempt = new Map<Meeting, boolean>()
  return meetings(course).map((meeting) => {
    const found = exempt.get(meeting) ?? isExempt(meeting.keepings)
    exempt.set(meeting, found)
    return !found
  })
}
