import { type Row, type Summary, summarize } from './report.ts'

/*
 * What there is to show for the core, as data: every figure that was judged, what lies outside its tolerance and why,
 * how errors fall with finer grids, what the books of heat come to. Made from what the verification computed; shown by
 * the window and on a page of its own.
 */

/** An output that is outside its tolerance, and why that is not the core's fault. */
export interface KnownMiss {
  readonly case: string
  /** How the output begins. */
  readonly output: string
  readonly reason: string
}

/** One figure that was judged. */
export interface EvidenceRow extends Row {
  /** What had to be assumed, where its source does not say it. */
  readonly assumed?: string
  /** Why it is outside, where that is known. */
  readonly known?: string
}

/** All figures of one case. */
export interface CaseEvidence {
  readonly case: string
  readonly source?: string
  readonly outputs: number
  /** How many of them lie outside, and how many were not judged. */
  readonly outside: number
  readonly left: number
  /** The one with the largest error over tolerance; absent where none was judged. */
  readonly worst?: EvidenceRow
}

/** A file of cases or figures. */
export interface FileEvidence {
  readonly id: string
  readonly title: string
  /** Where its figures come from, in the file's own words. */
  readonly source: string
  readonly summary: Omit<Summary, 'worst'>
  readonly cases: readonly CaseEvidence[]
  readonly outside: readonly EvidenceRow[]
  readonly left: readonly EvidenceRow[]
}

/** How the error against an exact solution falls as cells get smaller. */
export interface Convergence {
  readonly case: string
  readonly title: string
  readonly source: string
  /** How many figures of the exact solution were compared. */
  readonly figures: number
  /** Cells between the middle and the face, and the root mean square of the errors, K. */
  readonly points: readonly { readonly cells: number; readonly error_K: number }[]
  /** Slope between the two finest grids. */
  readonly order: number
}

/** What heat in and heat stored differ by, as a share of what moved. */
export interface Residual {
  readonly of: string
  readonly cells: number
  readonly steps: number
  readonly residual: number
}

/** A published formula over what the solver computes, for one shape. */
export interface FormulaEvidence {
  readonly formula: string
  readonly shape: string
  readonly pieces: number
  /** How many are as near as the authors say. */
  readonly within: number
  readonly low: number
  readonly high: number
  /** Why the others are not. */
  readonly reasons: readonly string[]
}

export interface Evidence {
  readonly format: 'thickset-evidence'
  readonly version: 1
  /** Version of the program, and of the plan file that it writes. */
  readonly program: string
  readonly planVersion: number
  /** The day, as it was handed in. */
  readonly madeOn: string
  readonly files: readonly FileEvidence[]
  readonly measured: readonly EvidenceRow[]
  readonly formulae: readonly FormulaEvidence[]
  readonly convergence: readonly Convergence[]
  readonly residuals: readonly Residual[]
}

/** A row with the reason for which it is known to be outside. */
export function explained<R extends Row>(row: R, misses: readonly KnownMiss[]): R & EvidenceRow {
  if (row.verdict !== 'outside') return row
  const miss = misses.find((one) => one.case === row.case && row.output.startsWith(one.output))
  return miss === undefined ? row : { ...row, known: miss.reason }
}

/** Error over tolerance; what has no error to show for itself comes before all others. */
export function strain({ error, tolerance, verdict }: Row): number {
  if (error === undefined || tolerance === undefined) return verdict === 'outside' ? Number.POSITIVE_INFINITY : -1
  if (error === 0) return 0
  const ratio = error / tolerance
  return Number.isNaN(ratio) ? Number.POSITIVE_INFINITY : ratio
}

const groupBy = (rows: readonly EvidenceRow[]): Map<string, EvidenceRow[]> => {
  const groups = new Map<string, EvidenceRow[]>()
  for (const row of rows) groups.set(row.case, [...(groups.get(row.case) ?? []), row])
  return groups
}

function caseEvidence(name: string, rows: readonly EvidenceRow[]): CaseEvidence {
  const judged = rows.filter((row) => row.verdict !== 'not applicable')
  const worst = judged.reduce<EvidenceRow | undefined>(
    (found, row) => (found === undefined || strain(row) > strain(found) ? row : found),
    undefined,
  )
  const source = rows.find((row) => row.source !== undefined)?.source
  // Its source stands with the case.
  const { source: _, ...shown } = worst ?? {}
  return {
    case: name,
    ...(source === undefined ? {} : { source }),
    outputs: rows.length,
    outside: rows.filter((row) => row.verdict === 'outside').length,
    left: rows.length - judged.length,
    ...(worst === undefined ? {} : { worst: shown as EvidenceRow }),
  }
}

/** What a verified file has to show. */
export function fileEvidence(
  file: Pick<FileEvidence, 'id' | 'title' | 'source'>,
  cases: number,
  rows: readonly EvidenceRow[],
): FileEvidence {
  const { worst: _, ...summary } = summarize(cases, rows)
  return {
    ...file,
    summary,
    cases: [...groupBy(rows)].map(([name, own]) => caseEvidence(name, own)),
    outside: rows.filter((row) => row.verdict === 'outside'),
    left: rows.filter((row) => row.verdict === 'not applicable'),
  }
}

/** How many figures there are, and how they stand. */
export interface Totals {
  readonly figures: number
  readonly within: number
  readonly outside: number
  /** Of those outside, how many have no known reason. */
  readonly unexplained: number
  readonly left: number
}

/** Every figure outside its tolerance, of files and of measurements; a measured case of a file counts once. */
export function allOutside({ files, measured }: Pick<Evidence, 'files' | 'measured'>): EvidenceRow[] {
  const ofFiles = files.flatMap((file) => file.outside)
  const has = (row: EvidenceRow): boolean =>
    ofFiles.some((other) => other.case === row.case && other.output === row.output)
  return [...ofFiles, ...measured.filter((row) => row.verdict === 'outside' && !has(row))]
}

/** Figures of files that can't be judged as they stand, but are among the measurements, with what had to be assumed. */
const judgedElsewhere = ({ files, measured }: Pick<Evidence, 'files' | 'measured'>): number => {
  const cases = new Set(measured.filter((row) => row.assumed !== undefined).map((row) => row.case))
  return files.flatMap((file) => file.left).filter((row) => cases.has(row.case)).length
}

export function totals(evidence: Pick<Evidence, 'files' | 'measured'>): Totals {
  const sum = (count: (file: FileEvidence) => number): number =>
    evidence.files.reduce((all, file) => all + count(file), 0)
  // Measurements that the file runs by itself are among its figures already.
  const assumed = evidence.measured.filter((row) => row.assumed !== undefined).length
  const twice = judgedElsewhere(evidence)
  const outside = allOutside(evidence)
  const figures = sum((file) => file.summary.outputs) + assumed - twice
  const left = sum((file) => file.summary.notApplicable) - twice
  return {
    figures,
    within: figures - left - outside.length,
    outside: outside.length,
    unexplained: outside.filter((row) => row.known === undefined).length,
    left,
  }
}
