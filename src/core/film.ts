import { growthOfPlaces, iceOf, setOf } from './film-states.ts'
import type { SectionFilm } from './forecast-types.ts'
import { cellsThere, type Mesh } from './geometry/mesh.ts'
import { hasPlanes, planeSection, type Section, sectionOf } from './geometry/section.ts'
import type { Course, PlaceHistory, Segment } from './journey/course.ts'
import { DANGER_C, timeBetween } from './outcomes/danger.ts'
import { layerLaws } from './outcomes/layer-laws.ts'
import { toHours } from './units.ts'

/** Most frames that a film keeps over the whole course. */
const MOST_FRAMES = 160

/** Samples to show: every one that moves the field much, or lies far from the last in time; ends always. */
function chooseFrames(segment: Segment, course: Course): number[] {
  const total = course.t[course.t.length - 1]! - course.t[0]!
  const share = MOST_FRAMES / 2
  let swing = 0
  for (const T_C of course.segments.flatMap((one) => one.T_C))
    for (const value of T_C) swing = Math.max(swing, Math.abs(value))
  const kept: number[] = []
  let last = -1
  for (let i = 0; i < segment.T_C.length; i++) {
    const sample = segment.first + i
    if (last >= 0 && i < segment.T_C.length - 1) {
      const aside = course.t[sample]! - course.t[segment.first + last]!
      const moved = largestChange(segment.T_C[last]!, segment.T_C[i]!)
      if (aside < total / share && moved < (2 * swing) / share) continue
    }
    kept.push(i)
    last = i
  }
  return kept
}

function largestChange(a: Float64Array, b: Float64Array): number {
  let largest = 0
  for (let i = 0; i < a.length; i++) largest = Math.max(largest, Math.abs(a[i]! - b[i]!))
  return largest
}

/** Hours in the danger zone of every cell of a segment, up to its last sample. */
function dangerHours(segment: Segment, course: Course): Float32Array {
  const { mesh } = segment
  const times = course.t.subarray(segment.first, segment.last + 1)
  const hours = new Float32Array(mesh.cells)
  const curve = new Float64Array(segment.T_C.length)
  for (let cell = 0; cell < mesh.cells; cell++) {
    for (let i = 0; i < curve.length; i++) curve[i] = segment.T_C[i]![cell]!
    hours[cell] = toHours(timeBetween(times, curve, DANGER_C.low, DANGER_C.high))
  }
  return hours
}

/** Hours in the danger zone of every cell of the final piece over its whole life. */
function dangerOfPlaces(mesh: Mesh, places: readonly PlaceHistory[]): Float32Array {
  const hours = new Float32Array(mesh.cells)
  for (const [index, cell] of cellsThere(mesh).entries()) {
    const { t, T_C } = places[index]!
    hours[cell] = toHours(timeBetween(t, T_C, DANGER_C.low, DANGER_C.high))
  }
  return hours
}

/** Values of places as values of cells. */
function ofCells(mesh: Mesh, places: Float32Array): Float32Array {
  const cells = new Float32Array(mesh.cells)
  for (const [index, cell] of cellsThere(mesh).entries()) cells[cell] = places[index]!
  return cells
}

/** Layers of which nothing tells whether they set. */
function silentLayers(course: Course, mesh: Mesh): string[] {
  const laws = layerLaws(course, 'typical')
  const silent = mesh.layers.filter(({ name }) => {
    const own = laws.get(name)
    return own === undefined || (own.laws.length === 0 && !own.solid)
  })
  return [...new Set(silent.map(({ material }) => material.title))]
}

/** The section as a film: one part for each form that the piece had. */
export function makeFilm(course: Course): SectionFilm[] {
  const places = course.places()
  return course.segments.map((segment, index) => {
    const { mesh } = segment
    const frames = chooseFrames(segment, course)
    const isLast = index === course.segments.length - 1
    const fields = {
      danger_h: isLast ? dangerOfPlaces(mesh, places) : dangerHours(segment, course),
      set_pct: setOf(course, index, frames),
      ice_pct: iceOf(segment, frames),
      ...(isLast ? { growth_log10: ofCells(mesh, growthOfPlaces(course)) } : {}),
    }
    const cut = (section: Section): SectionFilm => filmOf(course, segment, frames, fields, section)
    const across = cut(sectionOf(mesh, segment.turned))
    if (!hasPlanes(mesh)) return across
    const other = (plane: 'along' | 'level'): SectionFilm => cut(planeSection(mesh, plane, segment.turned))
    return { ...across, others: { along: other('along'), level: other('level') } }
  })
}

/** Fields of whole meshes. Shape of each: cells, or frames × cells */
interface Fields {
  readonly danger_h: Float32Array
  readonly set_pct: readonly ArrayLike<number>[]
  readonly ice_pct: readonly ArrayLike<number>[]
  readonly growth_log10?: Float32Array
}

/** One cut through the fields of a segment. */
function filmOf(
  course: Course,
  segment: Segment,
  frames: readonly number[],
  { danger_h, set_pct, ice_pct, growth_log10 }: Fields,
  { grid, cellOf, frame }: Section,
): SectionFilm {
  const { mesh } = segment
  const onGrid = (field: ArrayLike<number>): Float32Array => {
    const drawn = new Float32Array(cellOf.length)
    for (let i = 0; i < drawn.length; i++) drawn[i] = field[cellOf[i]!]!
    return drawn
  }
  return {
    grid,
    frame,
    layers: mesh.layers.map(({ name, material }) => ({
      name,
      material: material.id,
      title: material.title,
      look: material.look,
    })),
    times_h: frames.map((i) => toHours(course.t[segment.first + i]!)),
    T_C: frames.map((i) => onGrid(segment.T_C[i]!)),
    ...(course.height === undefined ? {} : { risen_m: frames.map((i) => course.height![segment.first + i]!) }),
    danger_h: onGrid(danger_h),
    set_pct: set_pct.map(onGrid),
    ice_pct: ice_pct.map(onGrid),
    setUnknown: silentLayers(course, mesh),
    ...(growth_log10 === undefined ? {} : { growth_log10: onGrid(growth_log10) }),
  }
}
