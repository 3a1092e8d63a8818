import type { CoatReport } from '../forecast-types.ts'
import { type Mesh, NOTHING } from '../geometry/mesh.ts'
import type { Course, StageSpan } from '../journey/course.ts'
import type { Action, Job } from '../journey/job.ts'
import type { Material } from '../materials/material.ts'
import { type Message, message } from '../messages.ts'
import { toHours } from '../units.ts'
import { coatSettingTime, contactTemperature, dewPoint, SWEATS_K } from './contact.ts'

/*
 * A fat coat on a cold heart: what both come to where they touch, how fast the cold sets it, and what is known to go
 * wrong. Contact and setting follow from conduction between two thick masses; cracks, bloom and dull faces are
 * warnings, as neither crystals nor stresses are computed.
 */

const CONTACT_SOURCE =
  'two thick bodies that touch: contact by their effusivities, setting by the heat that the colder one takes up (Carslaw and Jaeger 1959, Conduction of Heat in Solids, ch. II); densities and fats: thickset material'

/** A coat counts as set at this temperature, °C (choice). */
const SET_C = 15
/** Fats are molten here, °C: heat that they give off later does not count in how a coat meets a face. */
const MOLTEN_C = 45
/** Between these chocolate in temper sets bright, °C; air colder than the lower one makes crystals that bloom (Beckett, from memory). */
const TEMPER_C = [8, 18] as const
/** Shrinking of cocoa butter as it sets (Lovegren and Feuge 1965: up to 2 % alone, 1 % in chocolate), and expansion, 1/K (from memory). */
const SETS_BY = 0.01
const EXPANDS = { chocolate: 1e-4, ice: 5e-5 } as const
/** Strain that brittle chocolate stands (from memory, weak), and the heart below which nothing gives way, °C. */
const BRITTLE = 0.01
const RIGID_C = -10
/** How long a dip or a pour lasts, s (choice). */
const DIP_S = 3
/** Humidities at which sweating is looked for, %. */
const STEPS_pct = Array.from({ length: 100 }, (_, i) => i + 1)

type Coat = Extract<Action, { readonly do: 'coat' | 'pour' }>

const isFat = ({ look, sets = [] }: Material): boolean =>
  look === 'chocolate' || sets.some(({ by }) => by.includes('chocolate'))

/** Mean of the faces of a mesh and what lies behind them, before the coat is there. */
function faceBefore(
  course: Course,
  span: StageSpan,
): { readonly face_C: number; readonly heart: Material; readonly heart_C: number } | undefined {
  const before = course.segments.findLast(({ last }) => last < span.first) ?? course.segments[0]
  if (before === undefined || span.first === 0) return undefined
  const { mesh, surface_C, T_C } = before
  const faces = surface_C[surface_C.length - 1]!
  const fields = T_C[T_C.length - 1]!
  let area = 0
  let face = 0
  let heart = 0
  const layers = new Map<number, number>()
  for (const [i, link] of mesh.boundary.entries()) {
    area += link.area
    face += faces[i]! * link.area
    heart += fields[link.cell]! * link.area
    layers.set(mesh.layerOf[link.cell]!, (layers.get(mesh.layerOf[link.cell]!) ?? 0) + link.area)
  }
  const most = [...layers].sort((a, b) => b[1] - a[1])[0]?.[0] ?? NOTHING
  const material = materialOf(mesh, most)
  return material === undefined ? undefined : { face_C: face / area, heart: material, heart_C: heart / area }
}

const materialOf = (mesh: Mesh, layer: number): Material | undefined => mesh.layers[layer]?.material

/** Relative humidity from which on a face sweats in air of a temperature, %; 100 where it is no colder than the air. */
const sweatsFrom = (air_C: number, face_C: number): number =>
  STEPS_pct.find((humidity) => dewPoint(air_C, humidity) + SWEATS_K >= face_C) ?? 100

function notesOf(contact_C: number, heart_C: number, face_C: number, air_C: number, sweats_pct: number): Message[] {
  const notes: Message[] = []
  const mismatch = SETS_BY + (EXPANDS.chocolate - EXPANDS.ice) * Math.max(0, SET_C - heart_C)
  const mismatch_pct = 100 * mismatch
  if (contact_C < TEMPER_C[0]) notes.push(message('coat-shock-set', { low_C: TEMPER_C[0], high_C: TEMPER_C[1] }))
  if (heart_C < RIGID_C && mismatch > BRITTLE) notes.push(message('coat-cracks', { mismatch_pct }))
  else if (heart_C < 0) notes.push(message('coat-may-crack', { mismatch_pct }))
  if (air_C < TEMPER_C[0]) notes.push(message('coat-cold-air', { air_C, least_C: TEMPER_C[0] }))
  if (sweats_pct < 100) notes.push(message('coat-sweats', { face_C, air_C, humidity_pct: sweats_pct }))
  return notes
}

function reportOf(course: Course, span: StageSpan, { layer }: Coat): CoatReport[] {
  const before = faceBefore(course, span)
  const thickness = layer.thickness
  if (before === undefined || thickness === null) return []
  const { face_C, heart, heart_C } = before
  const coat = layer.material.at(layer.start_C)
  const core = heart.at(heart_C)
  const contact_C = contactTemperature(
    { k: coat.k, rho: coat.rho, c: layer.material.at(MOLTEN_C).c, T_C: layer.start_C },
    { k: core.k, rho: core.rho, c: core.c, T_C: face_C },
  )
  const air_C = course.air_C[span.first]!
  const sweats_pct = sweatsFrom(air_C, face_C)
  const heat = coat.enthalpy_J_kg - layer.material.at(SET_C).enthalpy_J_kg
  const sets = contact_C < SET_C && contact_C > face_C
  const setting_s = sets ? coatSettingTime(thickness, coat.rho, heat, core, contact_C - face_C) : undefined
  const values = { title: layer.material.title, coat_C: layer.start_C, face_C, contact_C, thickness_m: thickness }
  // The same law turned round: what freezes on in the time of a dip.
  const frozen_m = setting_s === undefined ? 0 : thickness * Math.sqrt(DIP_S / setting_s)
  const notes = notesOf(contact_C, heart_C, face_C, air_C, sweats_pct)
  if (frozen_m > 0) notes.unshift(message('coat-picks-up', { frozen_m, dip_s: DIP_S }))
  return [
    {
      title: layer.material.title,
      at_h: toHours(span.from),
      face_C,
      coat_C: layer.start_C,
      contact_C,
      thickness_m: thickness,
      ...(setting_s === undefined ? {} : { setting_s }),
      sweats_pct,
      why:
        setting_s === undefined ? message('coat-no-colder', values) : message('coat-meets', { ...values, setting_s }),
      notes: [...notes, message('coat-unknown')],
      source: CONTACT_SOURCE,
    },
  ]
}

/** One report for every coat of fat or chocolate that comes on a piece which is there already. */
export function judgeCoats(course: Course, job: Job): CoatReport[] {
  if (course.segments.length === 0) return []
  return course.stages.flatMap((span, index) =>
    (job.stages[index]?.start ?? []).flatMap((action) =>
      (action.do === 'coat' || action.do === 'pour') && isFat(action.layer.material)
        ? reportOf(course, span, action)
        : [],
    ),
  )
}
