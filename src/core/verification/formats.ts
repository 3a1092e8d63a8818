import type { Control } from '../control.ts'
import type { Fault } from '../errors.ts'
import type { Fidelity } from '../journey/job.ts'
import { CASES_FORMAT } from './case-schema.ts'
import type { Verification } from './report.ts'
import { isIngredientVectors, verifyIngredientVectors } from './vectors-ingredients.ts'
import { isSafetyVectors, verifySafetyVectors } from './vectors-safety.ts'
import { isSettingVectors, verifySettingVectors } from './vectors-setting.ts'
import { isSurroundingsVectors, verifySurroundingsVectors } from './vectors-surroundings.ts'
import { isThermalVectors, verifyThermalVectors } from './vectors-thermal.ts'
import { verifyCases } from './verify.ts'

/** What checking a file gives: its rows, and the faults of what could not be read in it. */
export type FileVerification = Verification & { readonly faults: readonly Fault[] }

interface Format {
  readonly title: string
  recognises(file: unknown): boolean
  verify(file: unknown, options: { readonly fidelity: Fidelity }, control: Control): FileVerification
}

type Keyed = Readonly<Record<string, unknown>>
const isKeyed = (file: unknown): file is Keyed => typeof file === 'object' && file !== null && !Array.isArray(file)

/** The name by which a file says of what format it is; undefined where it doesn't. */
function nameOf(file: unknown): string | undefined {
  if (!isKeyed(file)) return undefined
  const { format, schema } = file
  if (typeof format === 'string') return format
  if (isKeyed(format) && typeof format.schema === 'string') return format.schema
  return typeof schema === 'string' ? schema : undefined
}

const cases: Format = {
  title: 'cases for the heat-conduction core',
  recognises: (file) => nameOf(file) === CASES_FORMAT && isKeyed(file) && Array.isArray(file.cases),
  verify: (file, options, control) => verifyCases((file as { cases: readonly unknown[] }).cases, options, control),
}
const ingredients: Format = {
  title: 'recipes with the figures that follow',
  recognises: isIngredientVectors,
  verify: (file) => verifyIngredientVectors(file),
}
const safety: Format = {
  title: 'safety rules, growth and killing',
  recognises: (file) => isSafetyVectors(nameOf(file)),
  verify: (file) => verifySafetyVectors(file),
}
const surroundings: Format = {
  title: 'films, moist air and appliances',
  recognises: isSurroundingsVectors,
  verify: (file) => verifySurroundingsVectors(file),
}
const setting: Format = {
  title: 'setting laws and the formulas beside them',
  recognises: (file) => isSettingVectors(nameOf(file)),
  verify: (file) => verifySettingVectors(file),
}
/** The only one without a name in the file: told by its sections. */
const thermal: Format = {
  title: 'thermal properties of components and masses',
  recognises: (file) => nameOf(file) === undefined && isThermalVectors(file),
  verify: (file) => verifyThermalVectors(file),
}

/** Formats that can be verified; one more is one line. */
const formats: readonly Format[] = [cases, ingredients, safety, setting, surroundings, thermal]

/** The refusal of a file of no known format. */
function unknownFormat(file: unknown): Fault {
  const name = nameOf(file)
  return {
    path: 'format',
    problem: name === undefined ? 'the file does not say of what format it is' : `"${name}" is no known format`,
    remedy: `known are ${CASES_FORMAT} with a list of cases, ingredients/1, thickset-surroundings, and files of thermal properties`,
  }
}

/**
 * Checks a file that was read from JSON against what the core computes of it.
 * Throws `Cancelled`.
 */
export function verifyFile(
  file: unknown,
  options: { readonly fidelity: Fidelity },
  control: Control = {},
): FileVerification | Fault {
  const format = formats.find((one) => one.recognises(file))
  return format === undefined ? unknownFormat(file) : format.verify(file, options, control)
}

/** Whether the answer of `verifyFile` is a refusal. */
export const isRefusal = (result: FileVerification | Fault): result is Fault => 'remedy' in result
