import type { ReactNode } from 'react'

import {
  allOutside,
  type CaseEvidence,
  type Evidence,
  type EvidenceRow,
  type FileEvidence,
  totals,
} from '../../core/verification/evidence.ts'
import { ConvergencePlot } from './ConvergencePlot.tsx'
import { counted, digits, strainWords } from './figure-words.ts'
import { RowTable } from './RowTable.tsx'

interface EvidenceBodyProps {
  readonly evidence: Evidence
  /** Every row by file, where there is room for them. */
  readonly rows?: Readonly<Record<string, readonly EvidenceRow[]>>
}

/** How far the program can be trusted: what it was checked against, what lies outside and why, what was not judged. */
export function EvidenceBody({ evidence, rows }: EvidenceBodyProps): ReactNode {
  const outside = allOutside(evidence)
  return (
    <>
      <Opening evidence={evidence} whole={rows !== undefined} />
      <h3>Outside their tolerance</h3>
      {outside.length === 0 ? <p>None.</p> : <RowTable label="Figures outside their tolerance" rows={outside} />}
      <h3>Published measurements</h3>
      <p>
        Where a source leaves something open, such as a size or the air, it was assumed, as said in the row, and what is
        computed is the span from low to high; it counts as within where it reaches what is allowed. In the bar the tint
        is what is allowed and the line what was measured.
      </p>
      <RowTable label="Published measurements" rows={evidence.measured} bars />
      <Orders evidence={evidence} />
      <Books evidence={evidence} />
      <Formulae evidence={evidence} />
      <h3>Every case</h3>
      <p>
        Each case with the one of its figures that uses most of its tolerance.{' '}
        {rows === undefined
          ? 'All figures are on the page that “npm run evidence” writes.'
          : 'All figures lie below it.'}
      </p>
      {evidence.files.map((file) => (
        <FileSection key={file.id} file={file} rows={rows?.[file.id]} />
      ))}
    </>
  )
}

function Opening({ evidence, whole }: { readonly evidence: Evidence; readonly whole: boolean }): ReactNode {
  const { figures, within, outside, unexplained, left } = totals(evidence)
  return (
    <>
      <p className="evidence-sum">
        {`${counted(figures, 'figure')} from outside the program: ${counted(within, 'lies', 'lie')} within their tolerance, ${counted(outside, 'lies', 'lie')} outside, ${counted(left, 'was', 'were')} not judged.`}{' '}
        {unexplained === 0
          ? 'Each of those outside has its reason below.'
          : `${counted(unexplained, 'one', 'ones')} of those outside without a known reason.`}
      </p>
      <p>
        {`Program ${evidence.program}, plan format ${evidence.planVersion}, computed on ${evidence.madeOn} by the same core as every forecast.`}{' '}
        {whole ? null : 'This is a copy kept with the program; a test compares it with what is computed.'}
      </p>
      <p>
        What this tells: that heat is computed as the equations say, and the laws as their sources print them. What it
        can’t tell: what your oven, mould and mass are like. That is what the early and late times are for, and the
        readings on the day. Local codes, a calibrated probe and licensed practice come first.
      </p>
    </>
  )
}

function Orders({ evidence }: { readonly evidence: Evidence }): ReactNode {
  return (
    <>
      <h3>Convergence</h3>
      <p>
        Twice as many cells should leave a quarter of the error: second order, the dotted line. The error is the root
        mean square against an exact solution over places and moments. Where a sharp front passes, as in freezing water,
        the order is lower; the cases A12 and A13 judge that.
      </p>
      <div className="evidence-plots">
        {evidence.convergence.map((study) => (
          <ConvergencePlot key={study.case} study={study} />
        ))}
      </div>
      <table className="evidence-table" aria-label="Convergence">
        <thead>
          <tr>
            <th scope="col">Case</th>
            <th scope="col">Figures</th>
            <th scope="col">Error in K by cells</th>
            <th scope="col">Order</th>
          </tr>
        </thead>
        <tbody>
          {evidence.convergence.map(({ case: name, title, source, figures, points, order }) => (
            <tr key={name}>
              <th scope="row">
                {name}
                <span className="second evidence-source">{source}</span>
              </th>
              <td data-label="Figures">
                {title}, {figures}
              </td>
              <td data-label="Error in K by cells">
                {points.map(({ cells, error_K }) => `${cells}: ${digits(error_K, 2)}`).join(', ')}
              </td>
              <td data-label="Order">{order.toFixed(2)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </>
  )
}

function Books({ evidence }: { readonly evidence: Evidence }): ReactNode {
  return (
    <>
      <h3>Books of heat</h3>
      <p>
        Heat that came in less heat that is stored, as a share of all that moved, over each example from start to end.
      </p>
      <table className="evidence-table" aria-label="Books of heat">
        <thead>
          <tr>
            <th scope="col">Plan</th>
            <th scope="col">Cells</th>
            <th scope="col">Steps</th>
            <th scope="col">Residual</th>
          </tr>
        </thead>
        <tbody>
          {evidence.residuals.map(({ of, cells, steps, residual }) => (
            <tr key={of}>
              <th scope="row">{of}</th>
              <td data-label="Cells">{cells.toLocaleString('en-GB')}</td>
              <td data-label="Steps">{steps.toLocaleString('en-GB')}</td>
              <td data-label="Residual">{digits(residual)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </>
  )
}

function Formulae({ evidence }: { readonly evidence: Evidence }): ReactNode {
  return (
    <>
      <h3>Published formulae for freezing and thawing</h3>
      <p>
        Formulae over the solver, over the range for which they are given. Their authors claim 10 %; they were fitted to
        some hundreds of measurements, and some of their coefficients are from memory.
      </p>
      <table className="evidence-table" aria-label="Formulae for freezing and thawing">
        <thead>
          <tr>
            <th scope="col">Formula</th>
            <th scope="col">Within 10 %</th>
            <th scope="col">Formula over solver</th>
            <th scope="col">Why not all</th>
          </tr>
        </thead>
        <tbody>
          {evidence.formulae.map(({ formula, shape, pieces, within, low, high, reasons }) => (
            <tr key={`${formula} ${shape}`}>
              <th scope="row">
                {formula}, {shape}
              </th>
              <td data-label="Within 10 %">
                {within} of {pieces}
              </td>
              <td data-label="Formula over solver">
                {low.toFixed(2)} to {high.toFixed(2)}
              </td>
              <td data-label="Why not all">{reasons.join(' ')}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </>
  )
}

function FileSection({ file, rows }: { file: FileEvidence; rows: readonly EvidenceRow[] | undefined }): ReactNode {
  const { summary, title, source, cases } = file
  const { outputs, outside, notApplicable, reasons } = summary
  return (
    <section aria-label={title}>
      <h4>{title}</h4>
      <p>
        {source}{' '}
        {`${counted(cases.length, 'case')}, ${counted(outputs, 'figure')}, ${outside} outside, ${notApplicable} not judged.`}
      </p>
      {reasons.length === 0 ? null : (
        <p>{`Not judged: ${reasons.map(({ reason, outputs: count }) => `${count} because ${reason}`).join('; ')}.`}</p>
      )}
      {rows === undefined ? (
        <CaseTable cases={cases} label={title} />
      ) : (
        cases.map((one) => (
          <details key={one.case}>
            <summary>
              <CaseLine one={one} />
            </summary>
            <RowTable label={one.case} rows={rows.filter((row) => row.case === one.case)} hideCase />
          </details>
        ))
      )}
    </section>
  )
}

function CaseLine({ one }: { readonly one: CaseEvidence }): ReactNode {
  const worst = one.worst === undefined ? 'not judged' : `at most ${strainWords(one.worst)} of the tolerance used`
  return (
    <span>
      <b>{one.case}</b>{' '}
      {`${counted(one.outputs, 'figure')}, ${worst}${one.outside > 0 ? `, ${one.outside} outside` : ''}`}
      {one.source === undefined ? null : <span className="second evidence-source">{one.source}</span>}
    </span>
  )
}

function CaseTable({ cases, label }: { readonly cases: readonly CaseEvidence[]; readonly label: string }): ReactNode {
  const judged = cases.flatMap(({ worst, source }) =>
    worst === undefined ? [] : [source === undefined ? worst : { ...worst, source }],
  )
  const left = cases.filter(({ worst }) => worst === undefined)
  return (
    <>
      <RowTable label={label} rows={judged} />
      {left.length === 0 ? null : (
        <p>
          Without a figure that could be judged:{' '}
          {left.map((one) => (one.source === undefined ? one.case : `${one.case} (${one.source})`)).join('; ')}.
        </p>
      )}
    </>
  )
}
