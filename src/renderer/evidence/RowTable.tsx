import type { ReactNode } from 'react'

import type { EvidenceRow } from '../../core/verification/evidence.ts'
import { differenceWords, figureName, strainWords, valueWords, verdictWords } from './figure-words.ts'
import { RatioBar } from './RatioBar.tsx'

interface RowTableProps {
  readonly label: string
  readonly rows: readonly EvidenceRow[]
  /** Leaves out what the rows have in common. */
  readonly hideCase?: boolean
  readonly bars?: boolean
}

/** Figures beside what was expected of them, with error, tolerance and how much of it is used. */
export function RowTable({ label, rows, hideCase = false, bars = false }: RowTableProps): ReactNode {
  return (
    <table className="evidence-table" aria-label={label}>
      <thead>
        <tr>
          {hideCase ? null : <th scope="col">Case</th>}
          <th scope="col">Figure</th>
          <th scope="col">Expected</th>
          <th scope="col">Computed</th>
          <th scope="col">Error</th>
          <th scope="col">Tolerance</th>
          <th scope="col">Used</th>
          {bars ? <th scope="col">Computed over measured</th> : null}
        </tr>
      </thead>
      <tbody>
        {rows.map((row, index) => (
          <tr key={`${row.case} ${row.output}`} className={row.verdict === 'outside' ? 'evidence-outside' : undefined}>
            {hideCase ? null : (
              <th scope="row">
                {row.case}
                {row.source === undefined || row.source === rows[index - 1]?.source ? null : (
                  <span className="second evidence-source">{row.source}</span>
                )}
              </th>
            )}
            <td data-label="Figure">
              {figureName(row)}
              {row.assumed === undefined ? null : <span className="second"> (assumed: {row.assumed})</span>}
              {row.verdict === 'outside' ? (
                <span className="evidence-reason">
                  <b>{verdictWords(row)}.</b> {row.known ?? row.reason ?? ''}
                </span>
              ) : null}
            </td>
            <td className="evidence-number" data-label="Expected">
              {valueWords(row, row.expected)}
            </td>
            <td className="evidence-number" data-label="Computed">
              {valueWords(row, row.computed)}
            </td>
            <td className="evidence-number" data-label="Error">
              {differenceWords(row, row.error)}
            </td>
            <td className="evidence-number" data-label="Tolerance">
              {differenceWords(row, row.tolerance)}
            </td>
            <td className="evidence-number" data-label="Used">
              {strainWords(row)}
            </td>
            {bars ? (
              <td>
                <RatioBar row={row} />
              </td>
            ) : null}
          </tr>
        ))}
      </tbody>
    </table>
  )
}
