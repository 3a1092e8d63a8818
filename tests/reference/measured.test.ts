import { afterAll, describe, expect, test } from 'vitest'
import { type EvidenceRow, explained } from '../../src/core/verification/evidence.ts'
import { keptEvidence, oldRows, RENEW } from '../evidence/kept.ts'
import { missAmong } from './known-misses.ts'
import { experiments, measured, measuredMisses } from './measured.ts'

/* Everything that was measured, beside what the core computes; printed as a table. */

const missOf = (row: EvidenceRow) => missAmong(measuredMisses, row)

describe('every published measurement of the file', () => {
  test('is in the table', () => {
    const told = new Set(measured.map((row) => row.case))
    expect(experiments.filter(({ id }) => !told.has(id)).map(({ id }) => id)).toEqual([])
    expect(measured.length).toBeGreaterThan(40)
  })
  test('is met within its tolerance, or is a known miss with its reason', () => {
    expect(measured.filter((row) => row.verdict === 'outside' && missOf(row) === undefined)).toEqual([])
  })
  test('knows no miss that has become a hit', () => {
    const missed = measured.filter((row) => row.verdict === 'outside').map(missOf)
    expect(measuredMisses.filter((miss) => !missed.includes(miss))).toEqual([])
  })
  test('is what the window shows of it', () => {
    const now = measured.map((row) => explained(row, measuredMisses))
    expect(oldRows(keptEvidence.measured, now), RENEW).toEqual([])
  })
})

afterAll(() => {
  const shown = (value: EvidenceRow['computed']): string => {
    const values = [value ?? Number.NaN].flat()
    const one = (x: number): string => (x >= 1000 ? `${(x / 3600).toFixed(2)} h` : x.toFixed(2))
    const [low, high] = [one(Math.min(...values)), one(Math.max(...values))]
    return low === high ? low : `${low} to ${high}`
  }
  const table = measured.map((row) => {
    const verdict = row.verdict === 'ok' ? 'ok' : `MISS: ${missOf(row)?.reason ?? 'unknown'}`
    const allowed = `±${((100 * row.tolerance!) / row.expected![1]).toFixed(0)} %`
    return [
      row.case.padEnd(24),
      row.output.slice(0, 52).padEnd(53),
      shown(row.expected).padEnd(19),
      shown(row.computed).padEnd(19),
      allowed.padEnd(7),
      `${verdict} (${row.assumed ?? 'as the case says'})`,
    ].join(' ')
  })
  const heads = ['case'.padEnd(24), 'output'.padEnd(53), 'measured'.padEnd(19), 'computed'.padEnd(19), 'allowed'].join(
    ' ',
  )
  process.stdout.write(`\n${heads}\n${table.join('\n')}\n`)
})
