import type { FaceCondition, Resistance } from '../boundary/face.ts'
import { formula, type Profile, steady, straight } from '../boundary/profile.ts'
import type { FaceName } from '../geometry/body.ts'
import type { Stage } from '../journey/job.ts'
import type { Case, CaseFace } from './case-schema.ts'
import { parseFormula } from './formula.ts'
import { NotApplicable } from './not-applicable.ts'
import type { Specimen } from './specimen.ts'

/** What a case leaves open about its surroundings and a run settles. */
export interface SurroundingsChoice {
  /** Which of the surroundings named in a text, `A`, `B`, …; the only one when left out. */
  readonly letter?: string
  /** Index into a list of film coefficients: two ends of a range, or one for each size. */
  readonly film: number
}

/** Points at which a formula is looked at for its range and for being straight. */
const LOOKS = 2_000
const KELVIN = 273.15

/** The course of a temperature given as a number or as a formula of the case's time, from `from` s on. */
export function profileOf(value: number | string, from: number, duration: number): Profile {
  if (typeof value === 'number') return steady(value)
  const parsed = parseFormula(value)
  for (const name of parsed.names)
    if (name !== 't') throw new NotApplicable(`the formula "${value}" uses "${name}"; only t is known here`)
  const at = (t: number): number => parsed.evaluate({ t: from + t })
  const seen = Array.from({ length: LOOKS + 1 }, (_, index) => at((duration * index) / LOOKS))
  const low = Math.min(...seen)
  const high = Math.max(...seen)
  if (!Number.isFinite(low) || !Number.isFinite(high))
    throw new NotApplicable(`the formula "${value}" gives no number at some moment of the case`)
  const first = seen[0] ?? 0
  const last = seen[LOOKS] ?? 0
  const slack = 1e-9 * Math.max(1, Math.abs(low), Math.abs(high))
  const bends = seen.some((T, index) => Math.abs(T - (first + ((last - first) * index) / LOOKS)) > slack)
  return bends ? formula(at, [low, high]) : straight([0, duration], [first, last])
}

/** Angular frequency of the surroundings, 1/s, where they swing; undefined where they don't. */
export function swingOf(entry: Case): number | undefined {
  for (const face of Object.values(entry.boundary)) {
    if (typeof face !== 'object' || !('T_C' in face) || typeof face.T_C !== 'string') continue
    const turn = parseFormula(face.T_C).frequencies[0]
    if (turn !== undefined) return Math.abs(turn)
  }
  return undefined
}

/**
 * A small phrase that stands for a face: `fixed 250 degC`, `flux 3.2e5 W/m2`, `case A …; case B …`, and
 * `…; or convection with h = 30, 15, 7.5` for a second way of doing the same, which is letter `B` here.
 */
function facesInText(text: string): ReadonlyMap<string, CaseFace> {
  const found = new Map<string, CaseFace>()
  let fixed_C: number | undefined
  for (const [index, part] of text.split(';').entries()) {
    const letter = /\bcase ([A-Z])\b/.exec(part)?.[1] ?? String.fromCharCode(65 + index)
    const fixed = /\bfixed (-?[\d.]+(?:e-?\d+)?) degC/i.exec(part)?.[1]
    const flux = /\bflux (-?[\d.]+(?:e\+?-?\d+)?) W\/m2/i.exec(part)?.[1]
    const films = /\bh = ([\d., ]+)/.exec(part)?.[1]
    if (fixed !== undefined) {
      fixed_C = Number(fixed)
      found.set(letter, { type: 'fixed_temperature', T_C: fixed_C })
    } else if (flux !== undefined) found.set(letter, { type: 'flux', q_W_m2: Number(flux) })
    else if (films !== undefined && fixed_C !== undefined)
      found.set(letter, { type: 'convection', h_W_m2K: films.split(',').map(Number), T_C: fixed_C })
  }
  return found
}

/** The letters of a case whose surroundings are several, written as a text; none where they are data. */
export function lettersOf(entry: Case): readonly string[] {
  const texts = Object.values(entry.boundary).filter((face) => typeof face === 'string')
  return entry.program === undefined ? texts.flatMap((text) => [...facesInText(text).keys()]) : []
}

/** How many film coefficients a case lists as the ends of a range. */
export function filmsOf(entry: Case): number {
  const counts = Object.values(entry.boundary).map((face) =>
    typeof face === 'object' && 'h_W_m2K' in face && Array.isArray(face.h_W_m2K) ? face.h_W_m2K.length : 1,
  )
  return Math.max(1, ...counts)
}

function film(h: number | readonly number[] | string | undefined, index: number): number {
  if (typeof h === 'string') throw new NotApplicable(`the film coefficient is given in words: ${h}`)
  const value = typeof h === 'object' ? h[Math.min(index, h.length - 1)] : h
  if (value === undefined) throw new NotApplicable('the case gives no film coefficient')
  return value
}

interface Moment {
  readonly from: number
  readonly duration: number
}

function temperatureOf(face: Exclude<CaseFace, string>): number | string {
  if ('T_C' in face && face.T_C !== undefined) return face.T_C as number | string
  if ('T_K' in face && typeof face.T_K === 'number') return face.T_K - KELVIN
  throw new NotApplicable('the case gives no temperature of its surroundings')
}

function conditionOf(
  face: CaseFace,
  choice: SurroundingsChoice,
  resistances: readonly Resistance[],
  { from, duration }: Moment,
): FaceCondition {
  if (typeof face === 'string') {
    const chosen = facesInText(face).get(choice.letter ?? 'A')
    if (chosen === undefined) throw new NotApplicable(`the surroundings are given in words: ${face}`)
    return conditionOf(chosen, choice, resistances, { from, duration })
  }
  if (!('type' in face)) throw new NotApplicable('a film is no face')
  switch (face.type) {
    case 'adiabatic':
      return { kind: 'insulated' }
    case 'fixed_temperature':
      return { kind: 'fixed', surface_C: profileOf(temperatureOf(face), from, duration) }
    case 'flux':
      if (typeof face.q_W_m2 !== 'number') throw new NotApplicable('the case gives no flux')
      return { kind: 'flux', q: steady(face.q_W_m2) }
    case 'convection':
      return {
        kind: 'convective',
        h: film(face.h_W_m2K as number | readonly number[] | string | undefined, choice.film),
        air_C: profileOf(temperatureOf(face), from, duration),
        resistances,
      }
    default:
      throw new NotApplicable(`the surroundings "${String(face.type)}" are not known`)
  }
}

function filmResistances(entry: Case): Resistance[] {
  return Object.entries(entry.boundary).flatMap(([name, face]) =>
    typeof face === 'object' && 'thickness_m' in face && !('type' in face)
      ? [{ name, R: Number(face.thickness_m) / Number(face.k_W_mK) }]
      : [],
  )
}

function facesOf(
  faces: Readonly<Record<string, CaseFace>>,
  specimen: Specimen,
  choice: SurroundingsChoice,
  resistances: readonly Resistance[],
  moment: Moment,
): Readonly<Record<FaceName, FaceCondition>> {
  const elementary = [...new Set(Object.values(specimen.body.faces).flat())]
  const conditions: Record<FaceName, FaceCondition> = Object.fromEntries(
    elementary.map((name) => [name, { kind: 'insulated' }]),
  )
  let given = 0
  for (const [name, face] of Object.entries(faces)) {
    if (typeof face === 'object' && !('type' in face)) continue
    const targets = Object.hasOwn(specimen.faces, name) ? specimen.faces[name] : undefined
    if (targets === undefined) throw new NotApplicable(`the face "${name}" is not one of this shape`)
    for (const target of targets) conditions[target] = conditionOf(face, choice, resistances, moment)
    given += 1
  }
  if (given === 0) throw new NotApplicable('the case gives no surroundings')
  return conditions
}

const airOf = (faces: Readonly<Record<FaceName, FaceCondition>>): Profile => {
  for (const face of Object.values(faces)) if (face.kind === 'convective') return face.air_C
  for (const face of Object.values(faces)) if (face.kind === 'fixed') return face.surface_C
  return steady(0)
}

/**
 * The stages of a case: its program, or one stage of `duration` s in its one surroundings.
 * Throws `NotApplicable` and `FormulaError`.
 */
export function buildStages(
  entry: Case,
  specimen: Specimen,
  choice: SurroundingsChoice,
  duration: number,
): readonly Stage[] {
  const resistances = filmResistances(entry)
  const source = entry.source_term?.q_W_m3
  const stage = (name: string, given: Readonly<Record<string, CaseFace>>, moment: Moment): Stage => {
    const faces = facesOf(given, specimen, choice, resistances, moment)
    return {
      name,
      start: [],
      faces,
      air_C: airOf(faces),
      until: { after: moment.duration, max: moment.duration },
      ...(source === undefined ? {} : { source }),
    }
  }
  if (entry.program === undefined) return [stage('case', entry.boundary, { from: 0, duration })]
  let from = 0
  return entry.program.map(({ duration_s, surface }, index) => {
    const moment = { from, duration: duration_s }
    from += duration_s
    return stage(`stage ${index + 1}`, { surface }, moment)
  })
}
