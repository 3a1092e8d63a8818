import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { type JsonSchema, jsonSchema } from '../../../src/core/plan/json-schema.ts'
import { patternWords } from '../../../src/core/plan/schema/values.ts'

const published = new URL('../../../shared/schema/thickset-plan.schema.json', import.meta.url)

test('the published schema is the one that the program reads by', () => {
  expect(JSON.parse(readFileSync(published, 'utf8'))).toEqual(jsonSchema())
})

/** Every part of a description. */
function parts(schema: JsonSchema): JsonSchema[] {
  const below = [
    ...Object.values(schema.properties ?? {}),
    ...[schema.items, schema.additionalProperties, schema.propertyNames].filter((part) => typeof part === 'object'),
    ...(schema.prefixItems ?? []),
    ...(schema.anyOf ?? []),
    ...(schema.oneOf ?? []),
  ]
  return [schema, ...below.flatMap(parts)]
}

test('only keywords that the fault finder understands, and words for every pattern', () => {
  const understood = [
    ...[
      '$schema',
      'title',
      'description',
      'type',
      'const',
      'enum',
      'pattern',
      'minimum',
      'exclusiveMinimum',
      'maximum',
      'multipleOf',
    ],
    ...['minLength', 'maxLength', 'minItems', 'maxItems', 'properties', 'required', 'additionalProperties'],
    ...['propertyNames', 'items', 'prefixItems', 'anyOf', 'oneOf'],
  ]
  for (const part of parts(jsonSchema())) {
    expect(understood).toEqual(expect.arrayContaining(Object.keys(part)))
    if (part.pattern !== undefined) expect(Object.keys(patternWords)).toContain(part.pattern)
  }
})

test('objects are closed: a misspelt key is a fault, never ignored', () => {
  const objects = parts(jsonSchema()).filter((part) => part.type === 'object' && part.properties !== undefined)
  expect(objects.length).toBeGreaterThan(20)
  for (const part of objects) expect(part.additionalProperties).toBe(false)
})
