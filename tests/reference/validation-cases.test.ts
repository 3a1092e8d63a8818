import { readFileSync } from 'node:fs'
import { afterAll, describe, expect, it } from 'vitest'
import { explained, fileEvidence } from '../../src/core/verification/evidence.ts'
import { closingLine, type Row, summarize } from '../../src/core/verification/report.ts'
import { verifyCases } from '../../src/core/verification/verify.ts'
import { keptEvidence, oldCases, RENEW } from '../evidence/kept.ts'
import { knownMisses, missAmong } from './known-misses.ts'

/*
 * Every case of shared/reference/validation-cases.json: at standard within its tolerance for a default grid, at fine
 * within the one for a converged grid. Each case names its source; the test's name repeats it.
 */

interface Entry {
  readonly id: string
  readonly kind: string
  readonly source: { readonly ref: string; readonly locator?: string }
  readonly outputs: readonly unknown[]
}
const file = new URL('../../shared/reference/validation-cases.json', import.meta.url)
const { cases } = JSON.parse(readFileSync(file, 'utf8')) as { cases: readonly Entry[] }

/** Cases that the core cannot express yet, or that state no figure to compute; all others must be judged in full. */
const LEFT_OUT: Readonly<Record<string, string>> = {
  'A2-one-term-table': 'coefficients of a series that the core does not use',
  'C-pots': 'size not given',
  'C-joints-methods': 'size not given',
  'C-square-law': 'size not given',
  'C-thaw-pork': 'size not given',
  'C-poundcake': 'size not given',
  'C-vat': 'a mass that mixes',
  'C-fruitcake-6in': 'end point judged by eye',
  'C-fruitcake-10in': 'end point judged by eye',
  'C-evap-front': 'a description',
  'E-crumb-core': 'trade practice without inputs',
  'E-sheet-60kg': 'trade practice without inputs',
  'E-half-round': 'trade practice without inputs',
  'E-agar-boil': 'trade practice without inputs',
  'E-gelatin': 'trade practice without inputs',
  'E-tray-5cm': 'trade practice without inputs',
  'E-choc-shell': 'trade practice without inputs',
}

const missOf = (row: Row) => missAmong(knownMisses, row)

const say = (row: Row): string =>
  `${row.output}: ${String(row.computed)} instead of ${String(row.expected)} ${row.unit}, off by ${row.error}, allowed ${row.tolerance}; ${row.reason ?? ''}`

describe.each(['standard', 'fine'] as const)('at %s', (fidelity) => {
  const rows: Row[] = []

  it.each(cases.map((entry) => [`${entry.id} (${entry.source.ref})`, entry] as const))('%s', (_, entry) => {
    const found = verifyCases([entry], { fidelity })
    expect(found.faults).toEqual([])
    rows.push(...found.rows)
    const outside = found.rows.filter((row) => row.verdict === 'outside' && missOf(row) === undefined)
    expect(outside.map(say)).toEqual([])
    const unjudged = found.rows.filter((row) => row.verdict === 'not applicable')
    const leftOut = Object.hasOwn(LEFT_OUT, entry.id)
    expect(unjudged.length, unjudged[0]?.reason ?? 'nothing left out').toBe(leftOut ? entry.outputs.length : 0)
  })

  it('knows no miss that has become a hit', () => {
    const missed = rows.filter((row) => row.verdict === 'outside').map(missOf)
    expect(knownMisses.filter((miss) => !missed.includes(miss))).toEqual([])
  })

  it.runIf(fidelity === 'standard')('is what the window shows of it', () => {
    const told = rows.map((row) => explained(row, knownMisses))
    const now = fileEvidence({ id: 'validation-cases', title: '', source: '' }, cases.length, told)
    const kept = keptEvidence.files.find((one) => one.id === now.id)
    expect(oldCases(kept, now), RENEW).toEqual([])
  })

  afterAll(() => {
    const summary = summarize(cases.length, rows)
    const judged = rows.filter((row) => missOf(row) === undefined)
    const { worst } = summarize(cases.length, judged)
    process.stdout.write(
      `\n${fidelity}: ${closingLine(summary)}\n${knownMisses.length} known misses aside, the largest error is ${worst?.ratio.toFixed(2)} of its tolerance (${worst?.case}, ${worst?.output})\n`,
    )
  })
})
