import type { Row } from '../../core/verification/report.ts'

const DIGITS = 6

/** A number in as many digits as help to compare. */
function shown(value: number): string {
  if (!Number.isFinite(value)) return 'never'
  const text = String(Number(value.toPrecision(DIGITS)))
  return text.replace('-', '−')
}

function range(value: number | readonly [number, number] | undefined): string {
  if (value === undefined) return ''
  if (typeof value === 'number') return shown(value)
  return value[0] === value[1] ? shown(value[0]) : `${shown(value[0])} to ${shown(value[1])}`
}

const short = (value: number | undefined): string => (value === undefined ? '' : shown(Number(value.toPrecision(3))))

/** Rows as columns: computed, expected, error, tolerance, and whether it is inside. */
export function tellRows(rows: readonly Row[]): string {
  const heading = ['case', 'output', 'computed', 'expected', 'unit', 'error', 'tolerance', '']
  const table = rows.map((row) => [
    row.case,
    row.output,
    range(row.computed),
    range(row.expected),
    row.unit === '-' ? '' : row.unit,
    short(row.error),
    short(row.tolerance),
    row.reason === undefined ? row.verdict : `${row.verdict}: ${row.reason}`,
  ])
  const all = [heading, ...table]
  const widths = heading.map((_, column) => Math.max(...all.map((cells) => cells[column]?.length ?? 0)))
  return all
    .map(
      (cells) =>
        `${cells
          .map((cell, column) => cell.padEnd(widths[column] ?? 0))
          .join('  ')
          .trimEnd()}\n`,
    )
    .join('')
}
