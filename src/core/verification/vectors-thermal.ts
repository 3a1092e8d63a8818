import type { Fault } from '../errors.ts'
import { type Row, summarize, type Verification } from './report.ts'
import { leftOut } from './vector-row.ts'
import { lawRows, lawSections } from './vectors-thermal-laws.ts'
import { massSectionRows, massSections } from './vectors-thermal-masses.ts'

/** Sections that hold words or data without a figure to compute. */
const wordsOnly: Readonly<Record<string, string>> = {
  proposedTests: 'stated in words; its figures stand in the other sections',
  transcriptionDifferences: 'stated in words; each slip is caught by the unit tests',
  zanoniCheck: 'a fit to a heated cylinder, which is no vector',
}

type Section = readonly [key: string, rows: (data: unknown) => Row[] | undefined]

/** A section's schema and its comparison, tied together so that the one feeds the other. */
function section<Data>(
  key: string,
  schema: { safeParse(data: unknown): { success: true; data: Data } | { success: false } },
  rows: (data: Data) => Row[],
): Section {
  return [
    key,
    (data) => {
      const parsed = schema.safeParse(data)
      return parsed.success ? rows(parsed.data) : undefined
    },
  ]
}

const sections: readonly Section[] = [
  section('componentPolynomials', lawSections.componentPolynomials, lawRows.componentPolynomials),
  section('polynomialValues', lawSections.polynomialValues, lawRows.polynomialValues),
  section('waterIceReference', lawSections.waterIceReference, lawRows.waterIceReference),
  section('solutes', lawSections.solutes, lawRows.solutes),
  section('freezingChecks', massSections.freezingChecks, massSectionRows.freezingChecks),
  section('worked_cream', massSections.worked_cream, massSectionRows.worked_cream),
  section('ashraeBeefExample', massSections.ashraeBeefExample, massSectionRows.ashraeBeefExample),
  section('mixingTestVectors', lawSections.mixingTestVectors, lawRows.mixingTestVectors),
  section('porousDefaults', lawSections.porousDefaults, lawRows.porousDefaults),
  section('yellowCakeCheck', massSections.yellowCakeCheck, massSectionRows.yellowCakeCheck),
  section('baking', lawSections.baking, lawRows.baking),
  section('fats', lawSections.fats, lawRows.fats),
  section('chocolate', massSections.chocolate, massSectionRows.chocolate),
  section('crystallineSucrose', lawSections.crystallineSucrose, lawRows.crystallineSucrose),
  section('materials', lawSections.materials, lawRows.materials),
  section('moistAir', lawSections.moistAir, lawRows.moistAir),
  section('masses', massSections.masses, massSectionRows.masses),
]

/** Whether a parsed file has the form of thermal vectors: one known section at least. */
export function isThermalVectors(file: unknown): boolean {
  if (typeof file !== 'object' || file === null) return false
  return sections.some(([key]) => Object.hasOwn(file, key))
}

/**
 * Figures of properties, laws and masses, compared with what the material model makes of the same inputs. A section
 * that is missing is passed over; one of another form is a fault.
 */
export function verifyThermalVectors(file: unknown): Verification & { readonly faults: readonly Fault[] } {
  const data = file as Readonly<Record<string, unknown>>
  const faults: Fault[] = []
  const found: Row[][] = []
  for (const [key, rows] of sections) {
    if (!Object.hasOwn(data, key)) continue
    const of = rows(data[key])
    if (of === undefined)
      faults.push({
        path: key,
        problem: 'has another form than expected',
        remedy: 'see shared/reference/thermal-vectors.json',
      })
    else found.push(of)
  }
  const words = Object.entries(wordsOnly).flatMap(([key, reason]) =>
    Object.hasOwn(data, key) ? [leftOut(key, 'all', reason)] : [],
  )
  return { rows: [...found.flat(), ...words], summary: summarize(found.length, [...found.flat(), ...words]), faults }
}
