import { z } from '../../zod.ts'
import type { action } from './action.ts'
import { arrival, probe, promise, reading } from './day.ts'
import { material, type recipeMaterial } from './material.ts'
import { type insert, type layer, piece, type shape } from './piece.ts'
import { stage } from './stage.ts'
import { type appliance, type course, type face, surroundings } from './surroundings.ts'
import { target } from './target.ts'
import { finite, id, localTime, MOST_READINGS, name, zonePattern } from './values.ts'

/*
 * Version 1 of the plan file. Keys carry their unit; this schema is the only description of the format, the JSON
 * Schema and the types come out of it. Units become SI in resolve.ts, nowhere else. What concerns several fields at
 * once (names, faces, order of times) is checked in plan/checks.
 */

/** The version that is written, and the newest that is read; older ones are brought up by `migrations/`. */
export const PLAN_VERSION = 1

/** Longest text of a plan that is read, characters. */
export const PLAN_LIMIT = 5_000_000

export const planSchema = z
  .strictObject({
    $schema: z.string().max(400).meta({ description: 'Where this description lies, for editors.' }).exactOptional(),
    format: z.literal('thickset-plan'),
    version: z.literal(PLAN_VERSION),
    title: z.string().max(200),
    startsAt: localTime.meta({ description: 'Local date and time of the start, without zone.' }),
    zone: z
      .string()
      .regex(zonePattern)
      .meta({ description: 'Time zone of the workshop, such as "Europe/Vienna": tells when its clock is moved.' })
      .exactOptional(),
    clock_changes: z
      .array(
        z.strictObject({
          at: localTime.meta({ description: 'What the clock shows just before it is moved.' }),
          by_min: finite
            .min(-180)
            .max(180)
            .multipleOf(1)
            .meta({ description: 'Minutes by which it goes forward; negative: back.' }),
        }),
      )
      .max(20)
      .meta({ description: 'When the clock is moved; hours are counted as they pass.' })
      .exactOptional(),
    rules: z.array(id).max(20).meta({ description: 'Published cooling rules to judge by.' }).exactOptional(),
    fidelity: z.enum(['quick', 'standard', 'fine']).meta({ description: '"standard" if left out.' }).exactOptional(),
    dimensions: finite
      .min(1)
      .max(3)
      .multipleOf(1)
      .meta({ description: 'Directions of heat in the model; chosen by what would be lost if left out.' })
      .exactOptional(),
    materials: z.record(id, material).meta({ description: "The plan's own materials by name." }).exactOptional(),
    piece,
    stages: z.array(stage).min(1).max(60),
    targets: z.array(target).max(30).exactOptional(),
    probes: z.array(probe).max(12).exactOptional(),
    readings: z.array(reading).max(MOST_READINGS).exactOptional(),
    promised: z.array(promise).max(30).meta({ description: 'Kept when the first reading comes.' }).exactOptional(),
    came: z.array(arrival).max(30).meta({ description: 'Kept beside what was promised.' }).exactOptional(),
  })
  .meta({ title: 'Thickset plan', description: 'One piece, its stages, and what is asked of it. Version 1.' })

export type Plan = z.infer<typeof planSchema>
export type PlanLayer = z.infer<typeof layer>
export type PlanInsert = z.infer<typeof insert>
export type PlanShape = z.infer<typeof shape>
export type PlanStage = z.infer<typeof stage>
export type PlanAction = z.infer<typeof action>
/** An action that lays one more layer on the top. */
export type PlanLaying = Extract<PlanAction, { do: 'pour' | 'place' }>
export type PlanFace = z.infer<typeof face>
export type PlanCourse = z.infer<typeof course>
export type PlanSurroundings = z.infer<typeof surroundings>
export type PlanAppliance = z.infer<typeof appliance>
export type PlanTarget = z.infer<typeof target>
export type PlanMaterial = z.infer<typeof material>
export type PlanRecipe = z.infer<typeof recipeMaterial>

/** Surroundings and a material with what was measured of them, as a file keeps them for later plans. */
export const keptSurroundings = z.strictObject({ name, in: surroundings })
export const keptMaterial = z.strictObject({ id, material })
