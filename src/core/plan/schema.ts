import { z } from 'zod'

/*
 * Version 1 of the plan file. Keys carry their unit; this schema is the only description of the format, the JSON
 * Schema and the types come out of it. Units become SI in resolve.ts, nowhere else.
 */

const finite = z.number()
const temperature = finite.min(-60).max(350)
const positive_mm = finite.gt(0).max(10_000)
const share = finite.min(0).max(1)
const name = z.string().min(1).max(120)
const id = z.string().regex(/^[A-Za-z0-9][A-Za-z0-9._-]{0,63}$/)
/** Local date and time of the workshop, without zone. */
const localTime = z.string().regex(/^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}(:\d{2})?$/)

const fixedMaterial = z.strictObject({
  fixed: z.strictObject({
    k_W_mK: finite.gt(0).max(500),
    rho_kg_m3: finite.gt(0).max(20_000),
    c_J_kgK: finite.gt(0).max(20_000),
  }),
})
const tableMaterial = z.strictObject({
  table: z.strictObject({
    rho_kg_m3: finite.gt(0).max(20_000),
    T_C: z.array(finite).min(2).max(10_000),
    enthalpy_J_kg: z.array(finite).min(2).max(10_000),
    k_W_mK: z.array(finite.gt(0)).min(2).max(10_000),
  }),
})
const percent = finite.min(0).max(100)
const compositionMaterial = z.strictObject({
  composition_pct: z.strictObject({
    water: percent,
    protein: percent.exactOptional(),
    fat: percent.exactOptional(),
    sugars: percent.exactOptional(),
    starch: percent.exactOptional(),
    fibre: percent.exactOptional(),
    ash: percent.exactOptional(),
  }),
  air_pct: finite.min(0).max(95).exactOptional(),
})
const material = z.union([fixedMaterial, tableMaterial, compositionMaterial])

const layer = z.strictObject({
  material: id,
  thickness_mm: positive_mm.exactOptional(),
  start_C: temperature,
})

const shape = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('sheet'), area_m2: finite.gt(0).max(100).exactOptional() }),
  z.strictObject({ kind: z.literal('bar'), width_mm: positive_mm, length_mm: positive_mm }),
  z.strictObject({ kind: z.literal('block'), length_mm: positive_mm, width_mm: positive_mm }),
  z.strictObject({ kind: z.literal('round'), diameter_mm: positive_mm }),
  z.strictObject({ kind: z.literal('ball'), diameter_mm: positive_mm }),
])

const mouldWall = z.strictObject({ faces: z.array(name).min(1), material: id, thickness_mm: positive_mm })
const piece = z.strictObject({
  shape,
  lining: z.array(layer).max(8).exactOptional(),
  fill: z.array(layer).min(1).max(12),
  mould: z.array(mouldWall).max(12).exactOptional(),
})

/** A number, or points in time: hours of the stage and the value there, straight lines between. */
const course = z.union([temperature, z.array(z.tuple([finite.min(0), temperature])).min(1).max(2_000)])
const face = z.union([
  z.strictObject({ surface_C: course }),
  z.strictObject({
    h_W_m2K: finite.min(0).max(1e5).exactOptional(),
    air_C: course.exactOptional(),
    board_mm: positive_mm.exactOptional(),
    emissivity: share.exactOptional(),
    walls_C: course.exactOptional(),
  }),
])
const surroundings = z.strictObject({
  air_C: course.exactOptional(),
  h_W_m2K: finite.min(0).max(1e5).exactOptional(),
  emissivity: share.exactOptional(),
  walls_C: course.exactOptional(),
  surface_C: course.exactOptional(),
  faces: z.record(name, face).exactOptional(),
})

const action = z.discriminatedUnion('do', [
  z.strictObject({
    do: z.literal('pour'),
    material: id,
    thickness_mm: positive_mm,
    start_C: temperature,
  }),
  z.strictObject({ do: z.literal('cover'), with: id, faces: z.array(name).min(1).exactOptional() }),
  z.strictObject({ do: z.literal('uncover'), faces: z.array(name).min(1).exactOptional() }),
  z.strictObject({ do: z.literal('unmould') }),
])
const hours = finite.gt(0).max(24 * 60)
const until = z.strictObject({
  after_h: hours.exactOptional(),
  core_C: temperature.exactOptional(),
  clock: z
    .string()
    .regex(/^(\d{4}-\d{2}-\d{2}T)?\d{2}:\d{2}$/)
    .exactOptional(),
  max_h: hours.exactOptional(),
})
const stage = z.strictObject({
  name,
  in: z.union([id, surroundings]),
  start: z.array(action).max(20).exactOptional(),
  until,
})

const target = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('cooled'), core_C: temperature, by: localTime.exactOptional() }),
  z.strictObject({ kind: z.literal('frozen'), core_C: temperature, by: localTime.exactOptional() }),
  z.strictObject({
    kind: z.literal('baked'),
    core_C: temperature,
    /** Upper end of the core window. */
    most_C: temperature.exactOptional(),
    by: localTime.exactOptional(),
  }),
])

const probe = z.strictObject({
  name,
  x: share.exactOptional(),
  y: share.exactOptional(),
  z: share.exactOptional(),
})
const reading = z.strictObject({ probe: name, at_h: finite.min(0), C: temperature })

export const planSchema = z.strictObject({
  format: z.literal('thickset-plan'),
  version: z.literal(1),
  title: z.string().max(200),
  startsAt: localTime,
  rules: z.array(id).max(20).exactOptional(),
  fidelity: z.enum(['quick', 'standard', 'fine']).exactOptional(),
  materials: z.record(id, material).exactOptional(),
  piece,
  stages: z.array(stage).min(1).max(60),
  targets: z.array(target).max(30).exactOptional(),
  probes: z.array(probe).max(12).exactOptional(),
  readings: z.array(reading).max(100_000).exactOptional(),
})

export type Plan = z.infer<typeof planSchema>
export type PlanLayer = z.infer<typeof layer>
export type PlanShape = z.infer<typeof shape>
export type PlanStage = z.infer<typeof stage>
export type PlanAction = z.infer<typeof action>
export type PlanSurroundings = z.infer<typeof surroundings>
export type PlanTarget = z.infer<typeof target>
export type PlanMaterial = z.infer<typeof material>
