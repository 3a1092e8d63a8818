import type { Fault } from '../errors.ts'
import { z } from '../zod.ts'
import { type Row, summarize, type Verification } from './report.ts'
import { kinds } from './surroundings-kinds.ts'
import { presetRows, presetsSchema } from './surroundings-presets.ts'
import { compared, leftOut } from './vector-row.ts'

/* Films, radiation, moist air, layers and appliances: figures of a file beside what the laws make of the same inputs. */

const SURROUNDINGS_FORMAT = 'thickset-surroundings'

const figures = z.record(z.string(), z.unknown())
const vectorSchema = z.looseObject({
  id: z.string(),
  kind: z.string(),
  inputs: z.record(z.string(), z.unknown()),
  expected: z.union([figures, z.array(figures)]),
  tolerance: z.record(z.string(), z.number()),
  basis: z.string().exactOptional(),
  printed: z.looseObject({ source: z.string() }).exactOptional(),
})
type Vector = z.infer<typeof vectorSchema>

const fileSchema = z.looseObject({
  format: z.literal(SURROUNDINGS_FORMAT),
  vectors: z.array(z.unknown()).exactOptional(),
  presets: presetsSchema.exactOptional(),
})

/** Whether a parsed file says that it is of surroundings. */
export function isSurroundingsVectors(file: unknown): boolean {
  return z.looseObject({ format: z.literal(SURROUNDINGS_FORMAT) }).safeParse(file).success
}

/** A figure's unit, from the end of its name. */
function unitOf(key: string): string {
  const known: readonly (readonly [RegExp, string])[] = [
    [/hours/, 'h'],
    [/_C$|_C_|_air_C|piece_C|air_C/, 'degC'],
    [/kg_m2h$/, 'kg/(m2 h)'],
    [/kg_h$/, 'kg/h'],
    [/W_m2$|flux/, 'W/m2'],
    [/W_per_m/, 'W/m'],
    [/_W$|^q\d_W/, 'W'],
    [/^h_|_h_|mean_h|W_m2K|_U/, 'W/(m2 K)'],
    [/rho/, 'kg/m3'],
    [/mu_/, 'Pa s'],
    [/k_W_mK/, 'W/(m K)'],
    [/cp_J_kgK/, 'J/(kg K)'],
    [/m2_s$/, 'm2/s'],
    [/humidity_ratio/, 'kg/kg'],
  ]
  return known.find(([pattern]) => pattern.test(key))?.[1] ?? ''
}

/** `rel`, `abs_K` for temperatures, and `rel_x` for figures whose name begins with or holds x. */
function toleranceFor(tolerance: Readonly<Record<string, number>>, key: string, expected: number): number {
  const named = Object.entries(tolerance).find(
    ([name]) => name.startsWith('rel_') && key.includes(name.slice('rel_'.length)),
  )
  if (named !== undefined) return named[1] * Math.abs(expected)
  if (unitOf(key) === 'degC' && tolerance.abs_K !== undefined) return tolerance.abs_K
  return (tolerance.rel ?? 0) * Math.abs(expected)
}

function vectorRows(vector: Vector): Row[] | undefined {
  const { id, kind, inputs, expected, tolerance, printed } = vector
  const make = Object.hasOwn(kinds, kind) ? kinds[kind] : undefined
  if (make === undefined) return [leftOut(id, 'all', `"${kind}" is no known kind of vector`)]
  const found = make(inputs)
  if (found === undefined) return undefined
  const wanted = Array.isArray(expected) ? expected : [expected]
  const rows = wanted.flatMap((one, index): Row[] => {
    const computed = found[index]
    const name = Array.isArray(expected) ? `${id} ${kind}, ${index + 1}` : `${id} ${kind}`
    return Object.entries(one).map(([key, value]): Row => {
      if (typeof value !== 'number') return leftOut(name, key, 'the figure is no number')
      const of = computed?.(key)
      if (of === undefined) return leftOut(name, key, 'no such figure is known here')
      const within = toleranceFor(tolerance, key, value)
      return compared({ case: name, output: key, unit: unitOf(key), computed: of, expected: value, tolerance: within })
    })
  })
  if (printed === undefined) return rows
  const first = found[0]
  const book = Object.entries(printed).flatMap(([key, value]): Row[] => {
    const of = typeof value === 'number' ? first?.(key) : undefined
    if (typeof value !== 'number' || of === undefined) return []
    const within = toleranceFor(tolerance, key, value)
    return [
      compared({
        case: `${id} ${kind}, as printed`,
        output: key,
        unit: unitOf(key),
        computed: of,
        expected: value,
        tolerance: within,
        source: printed.source,
      }),
    ]
  })
  return [...rows, ...book]
}

/** Sections that hold data or formulas without a figure to compute. */
const dataOnly: Readonly<Record<string, string>> = {
  air: 'coefficients; vectors of kind air-properties evaluate them',
  vapour: 'coefficients; vectors of kind psychrometrics and open-hot-water evaluate them',
  water: 'a table of properties',
  correlations: 'formulas; the vectors evaluate them',
  emissivity: 'a table of properties',
  materials: 'a table of properties',
  appliances: 'a table of parameters',
}

/** Figures of surroundings, compared with what the laws and the lumped appliance make of the same inputs. */
export function verifySurroundingsVectors(file: unknown): Verification & { readonly faults: readonly Fault[] } {
  const faults: Fault[] = []
  const fault = (path: string): void => {
    const remedy = 'see shared/reference/surroundings-vectors.json'
    faults.push({ path, problem: 'has another form than expected', remedy })
  }
  const parsed = fileSchema.safeParse(file)
  if (!parsed.success) {
    fault(parsed.error.issues[0]?.path.join('.') ?? 'file')
    return { rows: [], summary: summarize(0, []), faults }
  }
  const { vectors = [], presets = [], ...rest } = parsed.data
  const rows: Row[] = []
  for (const [index, one] of vectors.entries()) {
    const vector = vectorSchema.safeParse(one)
    const found = vector.success ? vectorRows(vector.data) : undefined
    if (found === undefined) fault(`vectors[${index}]`)
    else rows.push(...found)
  }
  for (const preset of presets) rows.push(...presetRows(preset))
  for (const [key, reason] of Object.entries(dataOnly))
    if (Object.hasOwn(rest, key)) rows.push(leftOut(key, 'all', reason))
  return { rows, summary: summarize(vectors.length + presets.length, rows), faults }
}
