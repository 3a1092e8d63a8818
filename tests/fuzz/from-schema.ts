import fc from 'fast-check'
import type { z } from 'zod'

/** The parts of a schema that the contract is made of. */
type Def =
  | { type: 'object'; shape: Record<string, z.ZodType> }
  | { type: 'record'; keyType: z.ZodType; valueType: z.ZodType }
  | { type: 'array'; element: z.ZodType }
  | { type: 'tuple'; items: z.ZodType[] }
  | { type: 'union'; options: z.ZodType[] }
  | { type: 'enum'; entries: Record<string, string> }
  | { type: 'literal'; values: (string | number | boolean)[] }
  | { type: 'nullable' | 'optional' | 'default'; innerType: z.ZodType }
  | { type: 'string' | 'number' | 'boolean' }

/**
 * Requests as a schema asks for them, short ones.
 * @param known  values that mean something here, such as ids that were given out, for every text
 */
export function requestsOf(schema: z.ZodType, known: readonly string[]): fc.Arbitrary<unknown> {
  const def = schema.def as unknown as Def
  const inner = (one: z.ZodType): fc.Arbitrary<unknown> => requestsOf(one, known)
  switch (def.type) {
    case 'object': {
      const entries = Object.entries(def.shape)
      const asked = entries.filter(([, one]) => (one.def as { type: string }).type !== 'optional').map(([key]) => key)
      return fc.record(Object.fromEntries(entries.map(([key, one]) => [key, inner(one)])), { requiredKeys: asked })
    }
    case 'record':
      return fc.dictionary(inner(def.keyType) as fc.Arbitrary<string>, inner(def.valueType), { maxKeys: 3 })
    case 'array':
      return fc.array(inner(def.element), { maxLength: 3 })
    case 'tuple':
      return fc.tuple(...def.items.map(inner))
    case 'union':
      return fc.oneof(...def.options.map(inner))
    case 'enum':
      return fc.constantFrom(...Object.values(def.entries))
    case 'literal':
      return fc.constantFrom(...def.values)
    case 'nullable':
      return fc.oneof({ weight: 2, arbitrary: inner(def.innerType) }, { weight: 1, arbitrary: fc.constant(null) })
    case 'optional':
    case 'default':
      return inner(def.innerType)
    case 'number':
      return fc.oneof(fc.nat({ max: 1000 }), fc.double({ noNaN: true }))
    case 'boolean':
      return fc.boolean()
    case 'string':
      return fc.oneof(
        { weight: 3, arbitrary: fc.constantFrom(...known) },
        { weight: 1, arbitrary: fc.string({ unit: 'binary', maxLength: 40 }) },
      )
  }
}
