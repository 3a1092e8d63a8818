import type { SectionFilm } from '../../core/forecast-types.ts'
import type { Place } from '../../core/geometry/body.ts'
import type { CutPlane } from '../../core/geometry/section.ts'

/** What the film shows at a moment: the shape of that time and its field. */
export interface Frame {
  readonly film: SectionFilm
  /** °C. Shape: nu × nv */
  readonly T_C: Float32Array
}

/** The films of a cut; of a form that has no such cut, the one across. */
export const filmsOf = (films: readonly SectionFilm[], plane: CutPlane): readonly SectionFilm[] =>
  plane === 'across' ? films : films.map((film) => film.others?.[plane] ?? film)

/** A place as a cut sees it: its shares to the right and upward. */
export function placeIn(place: Place, plane: CutPlane): Place {
  if (plane === 'along') return { x: place.z, y: place.y, z: place.x }
  return plane === 'level' ? { x: place.x, y: place.z, z: place.y } : place
}

/** Fields that a film has for every frame. */
export type FrameField = 'T_C' | 'set_pct' | 'ice_pct'

/** The film that a moment belongs to; at a change of the shape the later one. */
export function filmAt(films: readonly SectionFilm[], at_h: number): SectionFilm | undefined {
  let found = films[0]
  for (const film of films) if (film.times_h[0]! <= at_h) found = film
  return found
}

/** The field at a moment, straight lines between the kept frames. */
export function frameAt(films: readonly SectionFilm[], at_h: number): Frame | undefined {
  const film = filmAt(films, at_h)
  const T_C = film && fieldAt(film, 'T_C', at_h)
  return T_C && { film, T_C }
}

/** Any field of one film at a moment, straight lines between the kept frames. Shape: nu × nv */
export function fieldAt(film: SectionFilm, name: FrameField, at_h: number): Float32Array | undefined {
  const times = film.times_h
  let after = times.findIndex((time) => time >= at_h)
  if (after < 0) after = times.length - 1
  const before = times[after] === at_h ? after : Math.max(0, after - 1)
  const [from, to] = [film[name][before], film[name][after]]
  if (!from || !to) return undefined
  const [from_h, to_h] = [times[before]!, times[after]!]
  const share = to_h === from_h ? 0 : Math.min(1, Math.max(0, (at_h - from_h) / (to_h - from_h)))
  if (share === 0) return from
  if (share === 1) return to
  return from.map((value, index) => value + share * ((to[index] ?? value) - value))
}

/** Least and greatest of a field; with several, of all. */
export function rangeOf(fields: Iterable<ArrayLike<number>>): readonly [low: number, high: number] {
  let [low, high] = [Infinity, -Infinity]
  for (const field of fields) {
    for (let index = 0; index < field.length; index++) {
      const value = field[index]!
      if (value < low) low = value
      if (value > high) high = value
    }
  }
  return low > high ? [0, 0] : [low, high]
}

/** Moments that the film keeps, for stepping: every one, rising, each once. */
export function filmMoments(films: readonly SectionFilm[]): readonly number[] {
  return [...new Set(films.flatMap((film) => film.times_h))].sort((a, b) => a - b)
}

export function nextMoment(moments: readonly number[], at_h: number): number {
  return moments.find((moment) => moment > at_h + 1e-9) ?? moments.at(-1) ?? at_h
}

export function previousMoment(moments: readonly number[], at_h: number): number {
  return moments.findLast((moment) => moment < at_h - 1e-9) ?? moments[0] ?? at_h
}
