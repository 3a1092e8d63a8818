import kept from '../../shared/evidence/evidence.json'
import {
  type CaseEvidence,
  type Evidence,
  type EvidenceRow,
  type FileEvidence,
  strain,
} from '../../src/core/verification/evidence.ts'

/* What of the evidence is kept in shared/evidence for the window, and whether it still is what is computed. */

/** Digits of a kept number: more would change with every compiler. */
const KEPT_DIGITS = 5
/** A kept figure may differ from the computed one by this share of its tolerance before it counts as old. */
const DRIFT = 0.1

/** The evidence as its file holds it, numbers cut short, a line for each case. */
export function keptText(evidence: Evidence): string {
  const short = (_: string, value: unknown): unknown =>
    typeof value === 'number' && !Number.isInteger(value) ? Number(value.toPrecision(KEPT_DIGITS)) : value
  const plain = JSON.parse(JSON.stringify(evidence, short)) as Record<string, unknown>
  const lines = Object.entries(plain).map(([key, value]) => {
    if (!Array.isArray(value)) return `  ${JSON.stringify(key)}: ${JSON.stringify(value)}`
    const entries = value.map((entry) => `    ${JSON.stringify(entry)}`)
    return `  ${JSON.stringify(key)}: [\n${entries.join(',\n')}\n  ]`
  })
  return `{\n${lines.join(',\n')}\n}\n`
}

const middle = (value: EvidenceRow['computed']): number => {
  const values = [value ?? Number.NaN].flat()
  return values.reduce((sum, one) => sum + one, 0) / values.length
}

function rowDiffers(kept: EvidenceRow | undefined, now: EvidenceRow | undefined): boolean {
  if (kept === undefined || now === undefined) return kept !== now
  if (kept.verdict !== now.verdict || kept.known !== now.known) return true
  // Another figure uses most of its tolerance now: no matter, where that is as much of it.
  if (kept.output !== now.output) return !(Math.abs(strain(kept) - strain(now)) <= DRIFT)
  const allowed = Math.max(DRIFT * (now.tolerance ?? 0), 1e-3 * Math.abs(middle(now.computed)))
  const apart = Math.abs(middle(kept.computed) - middle(now.computed))
  return now.computed !== undefined && !(apart <= allowed)
}

const caseDiffers = (kept: CaseEvidence | undefined, now: CaseEvidence): boolean =>
  kept === undefined ||
  kept.outputs !== now.outputs ||
  kept.outside !== now.outside ||
  kept.left !== now.left ||
  rowDiffers(kept.worst, now.worst)

/** What of a kept file is not so any more: names of cases. */
export function oldCases(kept: FileEvidence | undefined, now: FileEvidence): string[] {
  const gone = (kept?.cases ?? []).filter((one) => !now.cases.some((other) => other.case === one.case))
  const changed = now.cases.filter((one) =>
    caseDiffers(
      kept?.cases.find((other) => other.case === one.case),
      one,
    ),
  )
  return [...gone, ...changed].map((one) => one.case)
}

/** What of kept rows is not so any more: their names. */
export function oldRows(kept: readonly EvidenceRow[], now: readonly EvidenceRow[]): string[] {
  const name = (row: EvidenceRow): string => `${row.case}, ${row.output}`
  const gone = kept.filter((row) => !now.some((other) => name(other) === name(row)))
  const changed = now.filter((row) =>
    rowDiffers(
      kept.find((other) => name(other) === name(row)),
      row,
    ),
  )
  return [...gone, ...changed].map(name)
}

/** The evidence that the window shows. */
export const keptEvidence = kept as unknown as Evidence

/** What to do where it has become old. */
export const RENEW = 'shared/evidence is not what is computed any more: npm run evidence -- --keep'
