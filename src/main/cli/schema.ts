import { jsonSchema } from '../../core/plan/json-schema.ts'

/** `thickset schema`: the JSON Schema of a plan file. */
export async function carrySchema(): Promise<number> {
  process.stdout.write(`${JSON.stringify(jsonSchema(), null, 2)}\n`)
  return 0
}
