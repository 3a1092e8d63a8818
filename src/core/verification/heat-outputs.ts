import { heatBetween } from './case-material.ts'
import type { CaseRun } from './case-run.ts'
import type { CasePosition } from './case-schema.ts'
import { type History, slopeAt, valueAt } from './history.ts'
import { NotApplicable } from './not-applicable.ts'
import { type Computed, expectedNumber, momentOf, number, type Question, upTo } from './question.ts'

/* Outputs that count heat through faces and heat stored. */

/** Heat that has left through all faces, J of the whole piece, over time. */
function heatLost({ course }: CaseRun): History {
  const value = new Float64Array(course.t.length)
  for (const through of Object.values(course.heatThrough))
    for (let i = 0; i < value.length; i++) value[i] = value[i]! - through[i]!
  return { t: course.t, value }
}

/** The further off of what crossed the faces and what the mass has lost: both must give it. */
export function heatRemoved(result: CaseRun, moment: number, expected: number): number {
  const crossed = valueAt(heatLost(result), moment)
  const stored = -valueAt({ t: result.course.t, value: result.course.heat }, moment)
  return Math.abs(crossed - expected) > Math.abs(stored - expected) ? crossed : stored
}

function wholeHeat(result: CaseRun): number {
  const material = result.materials[0]!
  return result.specimen.volume * heatBetween(material, result.start_C[0]!, result.course.air_C[0]!)
}

export function heatFraction({ output, variant, run }: Question): Computed {
  const result = run(variant, 'moments')
  const whole = wholeHeat(result)
  return number(heatRemoved(result, momentOf(output), expectedNumber(output) * whole) / whole)
}

export function totalHeat({ output, variant, run }: Question): Computed {
  const result = run(variant, 'steady')
  return number(heatRemoved(result, result.end, expectedNumber(output)))
}

/** The face that a flux is told for: the one at the place, else the last that the case names. */
function fluxFace(run: CaseRun, position: CasePosition | undefined): string {
  const named = Object.keys(run.entry.boundary).filter((name) => Object.hasOwn(run.specimen.faces, name))
  const atStart = position?.x_m === 0 && named.includes('x0')
  const name = atStart ? 'x0' : named[named.length - 1]
  const face = name === undefined ? undefined : run.specimen.faces[name]?.[0]
  if (face === undefined) throw new NotApplicable('the case names no face for the flux')
  return face
}

function fluxInto(run: CaseRun, face: string, moment: number): number {
  const through = run.course.heatThrough[face]
  const area = run.specimen.area[face]
  if (through === undefined || area === undefined) throw new NotApplicable(`no heat is booked for the face "${face}"`)
  return slopeAt({ t: run.course.t, value: through }, moment) / area
}

export function flux(question: Question): Computed {
  const { output, variant, run } = question
  const result = output.t_s === undefined ? run(variant, 'steady') : upTo(question, output.t_s)
  return number(-fluxInto(result, fluxFace(result, output.position), output.t_s ?? result.end))
}

/** Heat that crosses a pipe's outer face in the steady state, for each metre of its length, W/m. */
export function heatRatePerLength({ variant, run }: Question): Computed {
  const result = run(variant, 'steady')
  const { area, length } = result.specimen
  if (length === undefined) throw new NotApplicable('the body has no length')
  const face = fluxFace(result, undefined)
  return number((-fluxInto(result, face, result.end) * area[face]!) / length)
}

export function surfaceFluxIntoBody(question: Question): Computed {
  const moment = momentOf(question.output)
  const result = upTo(question, moment)
  return number(fluxInto(result, fluxFace(result, question.output.position), moment))
}

export function heatTakenFromBody(question: Question): Computed {
  const moment = momentOf(question.output)
  const result = upTo(question, moment)
  const face = fluxFace(result, question.output.position)
  const through = result.course.heatThrough[face]!
  return number(-valueAt({ t: result.course.t, value: through }, moment) / result.specimen.area[face]!)
}

/** Heat gained or lost by an insulated body, as a share of what its layers exchange among themselves. */
export function energyDrift({ variant, run }: Question): Computed {
  const result = run(variant, 'steady')
  const { course, specimen } = result
  const last = course.t.length - 1
  const end_C = course.mean_C[last]!
  const exchanged = specimen.fill.reduce(
    (sum, layer) => sum + (layer.thickness ?? 0) * Math.abs(heatBetween(layer.material, layer.start_C, end_C)),
    0,
  )
  const drift = Math.max(...Array.from(course.heat, Math.abs))
  return number(drift / exchanged)
}
