/** One output compared with what is expected of it. */
export interface Row {
  readonly case: string
  /** What was asked, in one line. */
  readonly output: string
  readonly unit: string
  /** A number, or a range where inputs were given as one; absent where nothing was computed. */
  readonly computed?: number | readonly [number, number]
  readonly expected?: readonly [number, number]
  /** In the output's unit, 0 within a range. */
  readonly error?: number
  readonly tolerance?: number
  readonly verdict: 'ok' | 'outside' | 'not applicable'
  /** Why it was not judged, or not computed. */
  readonly reason?: string
  readonly source?: string
}

export interface Summary {
  readonly cases: number
  readonly outputs: number
  readonly outside: number
  readonly notApplicable: number
  /** How many outputs were left out for each reason, most frequent first. */
  readonly reasons: readonly { readonly reason: string; readonly outputs: number }[]
  /** Largest error over tolerance of all that were judged, and whose it is. */
  readonly worst?: { readonly ratio: number; readonly case: string; readonly output: string }
}

/** What comes back from checking a file, whatever its format. */
export interface Verification {
  readonly rows: readonly Row[]
  readonly summary: Summary
}

/** Counts rows. */
export function summarize(cases: number, rows: readonly Row[]): Summary {
  const counts = new Map<string, number>()
  let worst: Summary['worst']
  for (const row of rows) {
    if (row.verdict === 'not applicable') {
      const reason = row.reason ?? 'no reason given'
      counts.set(reason, (counts.get(reason) ?? 0) + 1)
    }
    if (row.error === undefined || row.tolerance === undefined) continue
    const ratio = row.error === 0 ? 0 : row.error / row.tolerance
    if (worst === undefined || !(ratio <= worst.ratio)) worst = { ratio, case: row.case, output: row.output }
  }
  const of = (verdict: Row['verdict']): number => rows.filter((row) => row.verdict === verdict).length
  return {
    cases,
    outputs: rows.length,
    outside: of('outside'),
    notApplicable: of('not applicable'),
    reasons: [...counts].map(([reason, outputs]) => ({ reason, outputs })).sort((a, b) => b.outputs - a.outputs),
    ...(worst === undefined ? {} : { worst }),
  }
}

/** The closing line of a verification. */
export function closingLine({ cases, outputs, outside, notApplicable, reasons }: Summary): string {
  const why = reasons.map(({ reason, outputs: count }) => `${count} because ${reason}`).join('; ')
  return `${cases} cases, ${outputs} outputs, ${outside} outside, ${notApplicable} not applicable${why === '' ? '' : ` (${why})`}`
}
