import { clockReader } from '../deciding/band.ts'
import type { Place } from '../geometry/body.ts'
import { boundingBox } from '../geometry/mesh.ts'
import type { Course } from '../journey/course.ts'
import type { ResolvedPlan } from '../plan/resolve.ts'
import { fromHours } from '../units.ts'

/** A temperature measured on the day, as plans keep it. */
export interface Reading {
  readonly probe: string
  readonly at_h: number
  readonly C: number
}

/** One or more readings of a probe near each other, taken as one. */
export interface Taken extends Reading {
  /** How many readings it stands for. */
  readonly count: number
}

/** Readings of one probe beyond which those near each other are taken together. */
const MOST_TAKEN = 60

const medianOf = (values: readonly number[]): number => {
  const sorted = values.toSorted((a, b) => a - b)
  const middle = sorted.length / 2
  return sorted.length % 2 === 1 ? sorted[Math.floor(middle)]! : (sorted[middle - 1]! + sorted[middle]!) / 2
}

/** In order of time, of each probe no more than can be told apart: a long log as medians of short stretches. */
export function gatherReadings(readings: readonly Reading[]): Taken[] {
  const probes = [...new Set(readings.map(({ probe }) => probe))]
  return probes.flatMap((probe): Taken[] => {
    const own = readings.filter((reading) => reading.probe === probe).sort((a, b) => a.at_h - b.at_h)
    if (own.length <= MOST_TAKEN) return own.map((reading) => ({ ...reading, count: 1 }))
    const from = own[0]!.at_h
    const width = (own.at(-1)!.at_h - from) / MOST_TAKEN
    const stretches = Array.from({ length: MOST_TAKEN }, (): Reading[] => [])
    for (const reading of own)
      stretches[Math.min(MOST_TAKEN - 1, Math.floor((reading.at_h - from) / width))]!.push(reading)
    return stretches
      .filter((stretch) => stretch.length > 0)
      .map((stretch) => ({
        probe,
        at_h: stretch.reduce((sum, { at_h }) => sum + at_h, 0) / stretch.length,
        C: medianOf(stretch.map(({ C }) => C)),
        count: stretch.length,
      }))
  })
}

/** How the measuring itself may be off. */
export interface Measuring {
  /** How much higher a probe sits than said, m, and how much more it reads, K. */
  readonly higher: (probe: string) => number
  readonly more_K: (probe: string) => number
  /** Seconds that the moment of a reading is later than told. */
  readonly later: (t: number) => number
}

export const exact: Measuring = { higher: () => 0, more_K: () => 0, later: () => 0 }

const inside = (share: number): number => Math.min(1, Math.max(0, share))

/** Where each probe of a plan is; the found places among them. */
export function placesOf({ job }: ResolvedPlan, core: Place): ReadonlyMap<string, Place | 'surface'> {
  return new Map<string, Place | 'surface'>([
    ['core', core],
    ['surface', 'surface'],
    ...job.probes.map(({ name, place }) => [name, place] as const),
  ])
}

/** What the probes would read on a course, °C; NaN before the layer is there. Shape: taken */
export function readCourse(
  course: Course,
  taken: readonly Taken[],
  places: ReadonlyMap<string, Place | 'surface'>,
  { higher, more_K, later }: Measuring,
): Float64Array {
  const height = boundingBox(course.segments.at(-1)!.mesh)[1]
  const readers = new Map(
    [...new Set(taken.map(({ probe }) => probe))].map((probe) => {
      const place = places.get(probe)!
      const values =
        place === 'surface'
          ? course.surface_C
          : course.follow({ ...place, y: inside(place.y + higher(probe) / height) })
      return [probe, clockReader(course, values)] as const
    }),
  )
  return Float64Array.from(taken, ({ probe, at_h }) => {
    const t = fromHours(at_h)
    return readers.get(probe)!(t + later(t), -1) + more_K(probe)
  })
}
