import recipes from '../../shared/reference/recipe-vectors.json'
import safety from '../../shared/reference/safety-vectors.json'
import setting from '../../shared/reference/setting-vectors.json'
import surroundings from '../../shared/reference/surroundings-vectors.json'
import thermal from '../../shared/reference/thermal-vectors.json'
import cases from '../../shared/reference/validation-cases.json'
import { type EvidenceRow, explained, type KnownMiss } from '../../src/core/verification/evidence.ts'
import { isRefusal, verifyFile } from '../../src/core/verification/formats.ts'

/** A file of figures that the core is checked against. */
export interface ReferenceFile {
  readonly id: string
  readonly title: string
  /** Where its figures come from. */
  readonly source: string
  readonly content: unknown
}

export const referenceFiles: readonly ReferenceFile[] = [
  {
    id: 'validation-cases',
    title: 'Cooling, baking, freezing and thawing of whole pieces',
    source: 'Exact solutions, numerical solutions of others, worked examples, measurements: each case names its own.',
    content: cases,
  },
  { id: 'thermal-vectors', title: 'Thermal properties of masses', source: thermal.note, content: thermal },
  { id: 'recipe-vectors', title: 'Ingredients and recipes', source: recipes.note, content: recipes },
  { id: 'surroundings-vectors', title: 'Surroundings', source: surroundings.about, content: surroundings },
  { id: 'setting-vectors', title: 'Setting', source: setting.about, content: setting },
  { id: 'safety-vectors', title: 'Rules, growth and killing', source: safety.about, content: safety },
]

/** The figures of a file, each beside what is computed now. */
export function verified(
  { id, content }: ReferenceFile,
  misses: readonly KnownMiss[],
): { readonly cases: number; readonly rows: readonly EvidenceRow[] } {
  const found = verifyFile(content, { fidelity: 'standard' })
  if (isRefusal(found) || found.faults.length > 0) throw new Error(`${id} is not a file of figures any more`)
  return { cases: found.summary.cases, rows: found.rows.map((row) => explained(row, misses)) }
}
