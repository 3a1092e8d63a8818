import type { Fault } from '../errors.ts'
import { z } from '../zod.ts'

/*
 * A file of cases for the heat-conduction core: bodies, materials and surroundings with known outcomes. A laboratory
 * can write its own. Keys that a case has beyond these are left alone; what is there must be well formed.
 */

const finite = z.number()
const numberOrText = z.union([finite, z.string()])
const numbers = z.union([finite, z.array(finite).min(1)])
const positive = finite.gt(0)

/** What surrounds one face; a text is a note or a small phrase such as `fixed 250 degC`. */
const face = z.union([
  z.looseObject({
    type: z.enum(['convection', 'fixed_temperature', 'flux', 'adiabatic']),
    /** W/(m² K); two values are the ends of a range. */
    h_W_m2K: z.union([finite.min(0), z.array(finite.min(0)).min(1), z.string()]).exactOptional(),
    /** °C, or a formula of `t` in seconds. */
    T_C: numberOrText.exactOptional(),
    T_K: finite.exactOptional(),
    /** W/m² into the body. */
    q_W_m2: finite.exactOptional(),
  }),
  z.looseObject({ thickness_m: positive, k_W_mK: positive }),
  z.string(),
])

const position = z.looseObject({
  x_m: finite.exactOptional(),
  y_m: finite.exactOptional(),
  z_m: finite.exactOptional(),
  r_m: finite.exactOptional(),
  phi_deg: finite.exactOptional(),
  interface: finite.exactOptional(),
  name: z.string().exactOptional(),
  case: z.string().exactOptional(),
})

const tolerance = z.looseObject({
  abs: finite.min(0).exactOptional(),
  abs_K: finite.min(0).exactOptional(),
  default_grid_abs_K: finite.min(0).exactOptional(),
  abs_m: finite.min(0).exactOptional(),
  abs_s: finite.min(0).exactOptional(),
  abs_lag_s: finite.min(0).exactOptional(),
  abs_front_cells: finite.min(0).exactOptional(),
  rel: finite.min(0).exactOptional(),
  rel_time: finite.min(0).exactOptional(),
  default_grid_rel_time: finite.min(0).exactOptional(),
  rel_front: finite.min(0).exactOptional(),
  rel_amplitude: finite.min(0).exactOptional(),
  why: z.string().exactOptional(),
})

const output = z.looseObject({
  quantity: z.string().min(1),
  value: z.union([finite, z.array(finite).min(1), z.string(), z.array(z.looseObject({}))]),
  unit: z.string().exactOptional(),
  position: position.exactOptional(),
  t_s: finite.min(0).exactOptional(),
  target_C: finite.exactOptional(),
  from_C: finite.exactOptional(),
  to_C: finite.exactOptional(),
  crossing: z.enum(['rising', 'falling']).exactOptional(),
  tolerance: tolerance.exactOptional(),
  note: z.string().exactOptional(),
  basis: z.string().exactOptional(),
})

const geometry = z.looseObject({
  shape: z.string().min(1),
  symmetric: z.boolean().exactOptional(),
  half_thickness_m: z.union([positive, z.array(positive).min(1)]).exactOptional(),
  thickness_m: z.union([positive, z.array(positive).min(1)]).exactOptional(),
  radius_m: positive.exactOptional(),
  radii_m: z.array(positive).exactOptional(),
  height_m: positive.exactOptional(),
  length_m: positive.exactOptional(),
  size_m: z.array(positive).exactOptional(),
  layers_outer_m: z.array(positive).min(1).exactOptional(),
  sufficient_depth_m: positive.exactOptional(),
  origin: z.string().exactOptional(),
})

const phase = z.looseObject({ k_W_mK: positive, c_J_kgK: positive })
const positiveOrText = z.union([positive, z.array(positive).min(1), z.string()])
const material = z.looseObject({
  k_W_mK: positiveOrText.exactOptional(),
  rho_kg_m3: z.union([positive, z.array(positive).min(1)]).exactOptional(),
  c_J_kgK: positiveOrText.exactOptional(),
  rho_c_J_m3K: z.union([positive, z.string()]).exactOptional(),
  alpha_m2_s: positive.exactOptional(),
  phase_change: z.string().exactOptional(),
  T_change_C: finite.exactOptional(),
  latent_J_kg: finite.min(0).exactOptional(),
  below_T_change: phase.exactOptional(),
  above_T_change: phase.exactOptional(),
  T_freeze_C: finite.exactOptional(),
  ice_fraction: z.string().exactOptional(),
  enthalpy_J_kg: z.string().exactOptional(),
  layers: z
    .array(z.looseObject({ k_W_mK: positive, rho_kg_m3: positive.exactOptional(), c_J_kgK: positive.exactOptional() }))
    .min(1)
    .exactOptional(),
})

const caseSchema = z.looseObject({
  id: z.string().min(1),
  title: z.string().exactOptional(),
  kind: z.string().exactOptional(),
  geometry,
  material,
  initial: z.looseObject({ type: z.string().exactOptional(), T_C: numbers.exactOptional() }),
  boundary: z.record(z.string(), face),
  program: z
    .array(z.looseObject({ duration_s: positive, surface: face }))
    .min(1)
    .exactOptional(),
  source_term: z.looseObject({ q_W_m3: finite }).exactOptional(),
  outputs: z.array(output).min(1),
  tolerance: tolerance.exactOptional(),
  source: z.looseObject({ ref: z.string(), locator: z.string().exactOptional() }).exactOptional(),
  certainty: z.string().exactOptional(),
  verified_by: z.array(z.string()).exactOptional(),
})

export type Case = z.infer<typeof caseSchema>
export type CaseOutput = z.infer<typeof output>
export type CaseFace = z.infer<typeof face>
export type CasePosition = z.infer<typeof position>
export type CaseTolerance = z.infer<typeof tolerance>
export type CaseMaterial = z.infer<typeof material>
export type CaseGeometry = z.infer<typeof geometry>

/** The name by which a file says that it holds cases in this form. */
export const CASES_FORMAT = 'thermal-validation-cases/1'

/** The cases of a file, well-formed ones parsed and the faults of the others by name. */
export interface CaseFile {
  readonly cases: readonly Case[]
  readonly faults: readonly Fault[]
}

const dotted = (path: readonly PropertyKey[]): string =>
  path.map((key) => (typeof key === 'number' ? `[${key}]` : `.${String(key)}`)).join('')

function faultsOf(error: z.ZodError, name: string): Fault[] {
  return error.issues.map((issue) => ({
    path: `${name}${dotted(issue.path)}`,
    problem: issue.message,
    remedy: 'write it as the cases in shared/reference/validation-cases.json do',
  }))
}

/** Reads the list of cases; a malformed case gives faults under its id (or number) and does not stop the others. */
export function readCases(list: readonly unknown[]): CaseFile {
  const cases: Case[] = []
  const faults: Fault[] = []
  const seen = new Set<string>()
  for (const [index, entry] of list.entries()) {
    const id = (entry as { id?: unknown } | null)?.id
    const name = typeof id === 'string' && id !== '' ? id : `cases[${index}]`
    const parsed = caseSchema.safeParse(entry)
    if (!parsed.success) faults.push(...faultsOf(parsed.error, name))
    else if (seen.has(parsed.data.id))
      faults.push({ path: `${name}.id`, problem: 'used by an earlier case too', remedy: 'give each case its own id' })
    else {
      seen.add(parsed.data.id)
      cases.push(parsed.data)
    }
  }
  return { cases, faults }
}
