import cases from '../../shared/reference/validation-cases.json'
import { PLAN_VERSION } from '../../src/core/plan/schema/plan.ts'
import { type Evidence, type EvidenceRow, explained, fileEvidence } from '../../src/core/verification/evidence.ts'
import { knownMisses } from '../reference/known-misses.ts'
import { measured, measuredMisses } from '../reference/measured.ts'
import { convergence } from './convergence.ts'
import { referenceFiles, verified } from './files.ts'
import { formulae } from './formulae.ts'
import { residuals } from './residuals.ts'

/** What was handed in: nothing of it is looked up here. */
export interface Given {
  readonly program: string
  readonly madeOn: string
  /** Plans whose books of heat are looked at, as texts. */
  readonly plans: readonly string[]
  readonly report?: (doing: string) => void
}

/** The evidence, and every row behind it by file. */
export interface Collected {
  readonly evidence: Evidence
  readonly rows: Readonly<Record<string, readonly EvidenceRow[]>>
}

/** Computes everything that there is to show. */
export function collect({ program, madeOn, plans, report }: Given): Collected {
  const found = referenceFiles.map((file) => {
    report?.(file.title)
    return { file, ...verified(file, knownMisses) }
  })
  report?.('Convergence, books of heat, formulae')
  const evidence: Evidence = {
    format: 'thickset-evidence',
    version: 1,
    program,
    planVersion: PLAN_VERSION,
    madeOn,
    files: found.map(({ file: { id, title, source }, cases: count, rows }) =>
      fileEvidence({ id, title, source }, count, rows),
    ),
    measured: measured.map((row) => explained(row, measuredMisses)),
    formulae: formulae(),
    convergence: convergence(cases.cases),
    residuals: residuals(plans),
  }
  return { evidence, rows: Object.fromEntries(found.map(({ file, rows }) => [file.id, rows])) }
}
