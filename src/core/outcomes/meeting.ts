import { cellsThere, type Mesh, NOTHING } from '../geometry/mesh.ts'
import type { Course } from '../journey/course.ts'
import type { Keeping } from '../materials/keeping.ts'
import { isExempt } from './keeping.ts'

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

/** For every place of a course what decides the keeping of the masses that meet there. Shape: as course.places() */
export function keepingsMeeting(course: Course): (readonly (Keeping | undefined)[])[] {
  const { mesh } = course.segments[course.segments.length - 1]!
  const known = mesh.layers.map((layer) => layer.material.keeping)
  return cellsThere(mesh).map((cell) => layersMeeting(mesh, cell).map((layer) => known[layer]))
}

/** Whether each place of a course needs control of time and temperature. Shape: as course.places() */
export function controlledPlaces(course: Course): boolean[] {
  if (course.segments.length === 0) return course.places().map(() => true)
  const exempt = new Map<string, boolean>()
  const { mesh } = course.segments[course.segments.length - 1]!
  const known = mesh.layers.map((layer) => layer.material.keeping)
  return cellsThere(mesh).map((cell) => {
    const meeting = layersMeeting(mesh, cell)
    const key = meeting.join(' ')
    const found = exempt.get(key) ?? isExempt(meeting.map((layer) => known[layer]))
    exempt.set(key, found)
    return !found
  })
}
