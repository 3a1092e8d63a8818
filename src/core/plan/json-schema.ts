import { z } from '../zod.ts'
import { planSchema } from './schema/plan.ts'

/** The part of JSON Schema (2020-12) that the plan's description uses. */
export interface JsonSchema {
  readonly $schema?: string
  readonly title?: string
  readonly description?: string
  readonly type?: string
  readonly const?: unknown
  readonly enum?: readonly unknown[]
  readonly pattern?: string
  readonly minimum?: number
  readonly exclusiveMinimum?: number
  readonly maximum?: number
  readonly multipleOf?: number
  readonly minLength?: number
  readonly maxLength?: number
  readonly minItems?: number
  readonly maxItems?: number
  readonly properties?: Readonly<Record<string, JsonSchema>>
  readonly required?: readonly string[]
  readonly additionalProperties?: JsonSchema | boolean
  readonly propertyNames?: JsonSchema
  readonly items?: JsonSchema | boolean
  readonly prefixItems?: readonly JsonSchema[]
  readonly anyOf?: readonly JsonSchema[]
  readonly oneOf?: readonly JsonSchema[]
}

let made: JsonSchema | undefined

/** The published description of a plan file, JSON Schema 2020-12; the same object at every call. */
export function jsonSchema(): JsonSchema {
  made ??= z.toJSONSchema(planSchema) as JsonSchema
  return made
}

const isRecord = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value)

/** Whether a value is of the JSON kind that a description asks for, its details aside. */
function isOfKind(value: unknown, schema: JsonSchema): boolean {
  if (schema.type === 'object') return isRecord(value)
  if (schema.type === 'array') return Array.isArray(value)
  return schema.type === typeof value
}

/** How well an object's keys match a description: its tag by far, then each key known there. */
function likeness(value: Record<string, unknown>, schema: JsonSchema): number {
  return Object.entries(schema.properties ?? {}).reduce((points, [key, property]) => {
    if (!Object.hasOwn(value, key)) return points
    return points + (property.const !== undefined && property.const === value[key] ? 1000 : 1)
  }, 0)
}

/** Index of the alternative that a value was probably meant for; −1 when it resembles none. */
export function meantAlternative(value: unknown, alternatives: readonly JsonSchema[]): number {
  const ofKind = alternatives.map((schema) => isOfKind(value, schema))
  if (!isRecord(value)) return ofKind.indexOf(true)
  const alike = alternatives.map((schema, index) => (ofKind[index] ? likeness(value, schema) : -1))
  // An object that shares no key still is meant for the only alternative that is an object.
  const least = ofKind.filter(Boolean).length === 1 ? 0 : 1
  const best = Math.max(...alike)
  return best < least ? -1 : alike.indexOf(best)
}

/** The alternatives of a description, itself if it has none. */
export function alternativesOf(schema: JsonSchema): readonly JsonSchema[] {
  return schema.anyOf ?? schema.oneOf ?? [schema]
}

/** The description that holds for a value: of several alternatives the one meant. */
function narrowed(schema: JsonSchema, value: unknown): JsonSchema | undefined {
  const alternatives = alternativesOf(schema)
  return alternatives.length === 1 ? alternatives[0] : alternatives[meantAlternative(value, alternatives)]
}

/** The description that holds one step below a value; undefined where nothing is known of it. */
export function schemaBelow(schema: JsonSchema, value: unknown, step: string | number): JsonSchema | undefined {
  const here = narrowed(schema, value)
  if (here === undefined) return undefined
  if (typeof step === 'number') {
    const item = here.prefixItems?.[step] ?? here.items
    return typeof item === 'object' ? item : undefined
  }
  const property = here.properties?.[step]
  if (property !== undefined) return property
  return typeof here.additionalProperties === 'object' ? here.additionalProperties : undefined
}

/** Keys that a value may have: of several alternatives those of the one meant, else of all. */
export function keysOf(schema: JsonSchema, value: unknown): readonly string[] {
  const here = narrowed(schema, value)
  const all = here === undefined ? alternativesOf(schema) : [here]
  return [...new Set(all.flatMap((one) => Object.keys(one.properties ?? {})))]
}
