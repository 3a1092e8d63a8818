import { renderToStaticMarkup } from 'react-dom/server'
import type { Convergence, EvidenceRow } from '../../src/core/verification/evidence.ts'
import { ConvergencePlot } from '../../src/renderer/evidence/ConvergencePlot.tsx'
import { figureName } from '../../src/renderer/evidence/figure-words.ts'
import { RatioBar } from '../../src/renderer/evidence/RatioBar.tsx'

/* Pictures as files of their own, for the page in Markdown; drawn by what the window draws with. */

export const convergencePicture = (study: Convergence): string =>
  `${renderToStaticMarkup(<ConvergencePlot study={study} />)}\n`

const LINE = 24
const WORDS = 560

/** Every measurement beside what is computed of it, one under another. */
export function measuredPicture(rows: readonly EvidenceRow[]): string {
  const height = LINE * rows.length + 8
  return `${renderToStaticMarkup(
    <svg
      xmlns="http://www.w3.org/2000/svg"
      viewBox={`0 0 ${WORDS + 180} ${height}`}
      role="img"
      aria-label="Computed over measured; the tint is what is allowed"
      fontFamily="system-ui, sans-serif"
      fontSize="13"
    >
      <rect width={WORDS + 180} height={height} fill="#fbf8f2" />
      {rows.map((row, index) => (
        <g key={`${row.case} ${row.output}`}>
          <text x={WORDS - 8} y={LINE * index + 20} textAnchor="end" fill="#2a1f18">
            {`${row.case}: ${figureName(row)}`.slice(0, 84)}
          </text>
          <RatioBar row={row} x={WORDS} y={LINE * index + 6} />
        </g>
      ))}
    </svg>,
  )}\n`
}
