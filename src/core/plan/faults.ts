import type { Fault } from '../errors.ts'
import { didYouMean, nearest } from '../nearest.ts'
import type { z } from '../zod.ts'
import { alternativesOf, type JsonSchema, jsonSchema, keysOf, meantAlternative, schemaBelow } from './json-schema.ts'
import { type Path, sayPath, valueAt } from './path.ts'
import { patternWords } from './schema/values.ts'

type Issue = z.core.$ZodIssue

/** A fault of the plan's form, with the place that can't be used. */
export interface FormFault {
  readonly path: Path
  readonly fault: Fault
}

const number = (value: number): string => String(value).replace('-', '−')

function range({ minimum, exclusiveMinimum, maximum }: JsonSchema): string {
  const parts = [
    minimum === undefined ? '' : `at least ${number(minimum)}`,
    exclusiveMinimum === undefined ? '' : `above ${number(exclusiveMinimum)}`,
    maximum === undefined ? '' : `at most ${number(maximum)}`,
  ].filter((part) => part !== '')
  return parts.length === 0 ? '' : ` ${parts.join(' and ')}`
}

function howMany(least: number | undefined, most: number | undefined, what: string): string {
  if (least !== undefined && most !== undefined)
    return least === most ? `${least} ${what}` : `${least} to ${most} ${what}`
  if (least !== undefined) return `at least ${least} ${what}`
  return most === undefined ? what : `at most ${most} ${what}`
}

/** What a description asks for, in words: `a number above 0 and at most 10000`. */
export function asked(schema: JsonSchema): string {
  const alternatives = alternativesOf(schema)
  if (alternatives.length > 1) return [...new Set(alternatives.map(asked))].join(', or ')
  if (schema.const !== undefined) return JSON.stringify(schema.const)
  if (schema.enum !== undefined) return `one of ${schema.enum.map((value) => JSON.stringify(value)).join(', ')}`
  switch (schema.type) {
    case 'number':
      return `${schema.multipleOf === 1 ? 'a whole number' : 'a number'}${range(schema)}`
    case 'string': {
      const words = schema.pattern === undefined ? undefined : patternWords[schema.pattern]
      return words ?? `a text of ${howMany(schema.minLength, schema.maxLength, 'characters')}`
    }
    case 'array': {
      if (schema.prefixItems !== undefined) return `a pair [${schema.prefixItems.map(asked).join(', ')}]`
      const item = typeof schema.items === 'object' ? schema.items : {}
      const plain = item.type === 'number' ? 'numbers' : 'entries'
      return `a list [ … ] of ${howMany(schema.minItems, schema.maxItems, plain)}`
    }
    case 'object': {
      const keys = schema.required ?? []
      return keys.length === 0 ? 'an object { … }' : `an object { … } with ${keys.join(', ')}`
    }
    default:
      return 'a value'
  }
}

/** A value as it stands in the plan, cut short. */
export function shown(value: unknown): string {
  if (value === undefined) return 'missing'
  if (value === Number.POSITIVE_INFINITY || value === Number.NEGATIVE_INFINITY) return 'too large a number'
  if (Array.isArray(value)) return value.length === 0 ? 'an empty list' : `a list of ${value.length}`
  if (typeof value === 'object' && value !== null) return 'an object { … }'
  if (typeof value === 'number') return number(value)
  const text = JSON.stringify(value) ?? typeof value
  return text.length > 48 ? `${text.slice(0, 48)}…"` : text
}

function schemaAt(root: JsonSchema, plan: unknown, path: Path): JsonSchema | undefined {
  return path.reduce<JsonSchema | undefined>(
    (schema, step, depth) =>
      schema === undefined ? undefined : schemaBelow(schema, valueAt(plan, path.slice(0, depth)), step),
    root,
  )
}

function is(value: unknown): string {
  return value === undefined ? 'is missing' : `is ${shown(value)}`
}

function valueFault(root: JsonSchema, plan: unknown, path: Path): FormFault {
  const value = valueAt(plan, path)
  const schema = schemaAt(root, plan, path)
  const words = schema === undefined ? 'what the format asks for' : asked(schema)
  const choices = schema?.enum?.filter((choice) => typeof choice === 'string') ?? []
  const meant = typeof value === 'string' ? nearest(value, choices) : undefined
  const remedy = meant === undefined ? `give ${words}` : `did you mean "${meant}"? Give ${words}`
  return { path, fault: { path: sayPath(path), problem: is(value), remedy } }
}

/** Strange keys of one object for which the one that was meant is looked for. */
const MOST_SEARCHED = 200

function unknownKeys(root: JsonSchema, plan: unknown, path: Path, keys: readonly string[]): FormFault[] {
  const schema = schemaAt(root, plan, path)
  const holder = valueAt(plan, path) as Record<string, unknown>
  const known = schema === undefined ? [] : keysOf(schema, holder)
  const free = known.filter((key) => !Object.hasOwn(holder, key))
  return keys.map((key, index) => {
    const place = [...path, key]
    const problem = 'is not a key that belongs here'
    // So many strange keys are told of no plan; what each was meant for is not worth the search.
    if (index >= MOST_SEARCHED) return { path: place, fault: { path: sayPath(place), problem, remedy: 'take it out' } }
    const meant = nearest(key, free)
    const remedy = meant === undefined ? didYouMean(key, known) : `did you mean "${meant}"?`
    return { path: place, fault: { path: sayPath(place), problem, remedy } }
  })
}

function unionFaults(
  root: JsonSchema,
  plan: unknown,
  issue: Issue & { code: 'invalid_union' },
  path: Path,
): FormFault[] {
  if ('discriminator' in issue && issue.discriminator !== undefined) {
    const options = ('options' in issue ? issue.options : []) as readonly unknown[]
    const value = valueAt(plan, path)
    const names = options.filter((option) => typeof option === 'string')
    const problem = value === undefined ? 'is missing' : `is ${shown(value)}, which is unknown`
    const remedy =
      typeof value === 'string'
        ? didYouMean(value, names)
        : `give one of ${names.map((name) => `"${name}"`).join(', ')}`
    // Of what kind the holder is can't be told, so nothing in it was looked at: all of it is taken out.
    return [{ path: path.slice(0, -1), fault: { path: sayPath(path), problem, remedy } }]
  }
  const schema = schemaAt(root, plan, path)
  const value = valueAt(plan, path)
  const alternatives = schema === undefined ? [] : alternativesOf(schema)
  const meant = meantAlternative(value, alternatives)
  const inner = meant < 0 ? undefined : issue.errors[meant]
  if (inner !== undefined) return inner.flatMap((one) => issueFaults(root, plan, one, path))
  if (schema !== undefined && typeof value === 'object' && value !== null && !Array.isArray(value)) {
    const keys = alternatives.flatMap((one) => one.required ?? [])
    const stray = Object.keys(value)
    const meantKey = stray.map((key) => nearest(key, keys)).find((key) => key !== undefined)
    const remedy = meantKey === undefined ? `give one of: ${keys.join(', ')}` : `did you mean "${meantKey}"?`
    const problem =
      stray.length === 0 ? 'says nothing' : `has no key that belongs here (${stray.slice(0, 5).join(', ')})`
    return [{ path, fault: { path: sayPath(path), problem, remedy } }]
  }
  return [valueFault(root, plan, path)]
}

function issueFaults(root: JsonSchema, plan: unknown, issue: Issue, base: Path): FormFault[] {
  const path: Path = [...base, ...(issue.path as (string | number)[])]
  switch (issue.code) {
    case 'unrecognized_keys':
      return unknownKeys(root, plan, path, issue.keys)
    case 'invalid_union':
      return unionFaults(root, plan, issue, path)
    case 'invalid_key': {
      const holder = schemaAt(root, plan, path.slice(0, -1))
      const words = holder?.propertyNames === undefined ? 'another name' : asked(holder.propertyNames)
      return [
        { path, fault: { path: sayPath(path), problem: 'has a name that cannot be used', remedy: `give ${words}` } },
      ]
    }
    default:
      return [valueFault(root, plan, path)]
  }
}

/** A misspelt key and the required one that is missing for it are one mistake, told once. */
function withoutEchoes(faults: readonly FormFault[], missing: (path: Path) => boolean): FormFault[] {
  const meant = new Set(
    faults.flatMap(({ path, fault }) => {
      const key = /^did you mean "(.+)"\?$/.exec(fault.remedy)?.[1]
      return key === undefined ? [] : [sayPath([...path.slice(0, -1), key])]
    }),
  )
  return faults.filter(({ path, fault }) => !(missing(path) && meant.has(fault.path)))
}

/** Every fault of form that a schema found, in plain words; the plan's unless another description is given. */
export function formFaults(plan: unknown, issues: readonly Issue[], root: JsonSchema = jsonSchema()): FormFault[] {
  const faults = issues.flatMap((issue) => issueFaults(root, plan, issue, []))
  return withoutEchoes(faults, (path) => valueAt(plan, path) === undefined)
}

/** Places to take out of a value, as a tree of steps. */
interface Holes {
  whole: boolean
  readonly below: Map<string, Holes>
}

/** A copy of a value without what lies at the given places; list entries keep their index. */
export function without(value: unknown, places: readonly Path[]): unknown {
  const root: Holes = { whole: false, below: new Map() }
  for (const place of places) {
    let holes = root
    for (const step of place) {
      const next: Holes = holes.below.get(String(step)) ?? { whole: false, below: new Map() }
      holes.below.set(String(step), next)
      holes = next
    }
    holes.whole = true
  }
  return cut(value, root)
}

function cut(value: unknown, holes: Holes | undefined): unknown {
  if (holes?.whole) return undefined
  if (holes === undefined || typeof value !== 'object' || value === null) return value
  if (Array.isArray(value)) return value.map((entry: unknown, index) => cut(entry, holes.below.get(String(index))))
  return Object.fromEntries(
    Object.entries(value).flatMap(([key, entry]): [string, unknown][] => {
      const rest = cut(entry, holes.below.get(key))
      return rest === undefined ? [] : [[key, rest]]
    }),
  )
}
