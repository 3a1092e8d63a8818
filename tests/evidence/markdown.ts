import { allOutside, type EvidenceRow, type FileEvidence, totals } from '../../src/core/verification/evidence.ts'
import {
  counted,
  differenceWords,
  digits,
  figureName,
  strainWords,
  valueWords,
  verdictWords,
} from '../../src/renderer/evidence/figure-words.ts'
import type { Collected } from './collect.ts'

const cell = (text: string): string => text.replaceAll('|', '\\|').replaceAll('\n', ' ')

function table(heads: readonly string[], lines: readonly (readonly string[])[]): string {
  const line = (cells: readonly string[]): string => `| ${cells.map(cell).join(' | ')} |`
  return [line(heads), line(heads.map(() => '---')), ...lines.map(line)].join('\n')
}

const rowCells = (row: EvidenceRow): string[] => [
  row.case,
  figureName(row) + (row.assumed === undefined ? '' : ` (assumed: ${row.assumed})`),
  valueWords(row, row.expected),
  valueWords(row, row.computed),
  differenceWords(row, row.error),
  differenceWords(row, row.tolerance),
  strainWords(row),
]
const ROW_HEADS = ['Case', 'Figure', 'Expected', 'Computed', 'Error', 'Tolerance', 'Used']

const rowsTable = (rows: readonly EvidenceRow[]): string => table(ROW_HEADS, rows.map(rowCells))

const reasonOf = (row: EvidenceRow): string => `${verdictWords(row)}. ${row.known ?? row.reason ?? ''}`.trim()

function fileSection(file: FileEvidence, rows: readonly EvidenceRow[]): string {
  const { outputs, outside, notApplicable, reasons } = file.summary
  const left = reasons.map(({ reason, outputs: count }) => `${count} because ${reason}`).join('; ')
  const sources = file.cases.filter(({ source }) => source !== undefined)
  return [
    `## ${file.title}`,
    `${file.source} ${counted(file.cases.length, 'case')}, ${counted(outputs, 'figure')}, ${outside} outside, ${notApplicable} not judged.`,
    ...(left === '' ? [] : [`Not judged: ${left}.`]),
    rowsTable(rows),
    ...(sources.length === 0
      ? []
      : [
          table(
            ['Case', 'Source'],
            sources.map((one) => [one.case, one.source ?? '']),
          ),
        ]),
  ].join('\n\n')
}

/** The name of a picture's file beside the page. */
export const pictureName = (what: string): string => `${what.toLowerCase().replace(/[^a-z0-9]+/g, '-')}.svg`

/** The same page in Markdown, with its pictures beside it. */
export function evidenceMarkdown({ evidence, rows }: Collected): string {
  const { figures, within, outside, unexplained, left } = totals(evidence)
  const reasons = unexplained === 0 ? 'each with its reason' : `${unexplained} without a known reason`
  const misses = allOutside(evidence)
  return `${[
    '# How far to trust Thickset',
    `${counted(figures, 'figure')} from outside the program: ${within} within their tolerance, ${outside} outside (${reasons}), ${left} not judged.`,
    `Program ${evidence.program}, plan format ${evidence.planVersion}, computed on ${evidence.madeOn}.`,
    '## Outside their tolerance',
    misses.length === 0
      ? 'None.'
      : table(
          [...ROW_HEADS, 'Why'],
          misses.map((row) => [...rowCells(row), reasonOf(row)]),
        ),
    '## Published measurements',
    `![Computed over measured](${pictureName('measured')})`,
    'Where a source leaves something open it was assumed, as said in the row, and what is computed is a span; it counts as within where it reaches what is allowed.',
    rowsTable(evidence.measured),
    '## Convergence',
    ...evidence.convergence.map((study) => `![${study.title}](${pictureName(study.case)})`),
    table(
      ['Case', 'What', 'Error in K by cells', 'Order'],
      evidence.convergence.map(({ case: name, title, points, order }) => [
        name,
        title,
        points.map(({ cells, error_K }) => `${cells}: ${digits(error_K, 2)}`).join(', '),
        order.toFixed(2),
      ]),
    ),
    '## Books of heat',
    table(
      ['Plan', 'Cells', 'Steps', 'Residual'],
      evidence.residuals.map(({ of, cells, steps, residual }) => [of, `${cells}`, `${steps}`, digits(residual)]),
    ),
    '## Published formulae for freezing and thawing',
    table(
      ['Formula', 'Within 10 %', 'Formula over solver', 'Why not all'],
      evidence.formulae.map(({ formula, shape, pieces, within: near, low, high, reasons: why }) => [
        `${formula}, ${shape}`,
        `${near} of ${pieces}`,
        `${low.toFixed(2)} to ${high.toFixed(2)}`,
        why.join(' '),
      ]),
    ),
    ...evidence.files.map((file) => fileSection(file, rows[file.id] ?? [])),
  ].join('\n\n')}\n`
}
