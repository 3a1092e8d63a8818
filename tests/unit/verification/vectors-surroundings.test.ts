import { describe, expect, test } from 'vitest'
import file from '../../../shared/reference/surroundings-vectors.json'
import type { FileVerification } from '../../../src/core/verification/formats.ts'
import { verifyFile } from '../../../src/core/verification/formats.ts'
import { verifySurroundingsVectors } from '../../../src/core/verification/vectors-surroundings.ts'

const { rows, faults, summary } = verifySurroundingsVectors(file)

test('every figure of the file is computed', () => {
  expect(faults).toEqual([])
  expect(summary.notApplicable).toBe(0)
  expect(summary.cases).toBe(file.vectors.length)
  expect(rows.length).toBeGreaterThan(120)
})

describe.each(file.vectors)('$id $title', ({ id }) => {
  const own = rows.filter((row) => row.case.startsWith(`${id} `))
  test.each(own)('$case: $output', (row) => {
    expect(row.verdict, `${row.computed} computed, ${row.expected} expected, tolerance ${row.tolerance}`).toBe('ok')
  })
})

test('textbooks are among them, each with its source', () => {
  const printed = rows.filter((row) => row.source !== undefined)
  expect(new Set(printed.map((row) => row.source?.split(' ')[0])).size).toBeGreaterThanOrEqual(6)
})

test('a wrong figure is found', () => {
  const vectors = file.vectors.map((one) => (one.id === 'S02' ? { ...one, expected: { h_W_m2K: 7.3 } } : one))
  const found = verifySurroundingsVectors({ ...file, vectors }).rows
  const row = found.find((one) => one.case.startsWith('S02') && one.output === 'h_W_m2K')
  expect(row?.verdict).toBe('outside')
})

test('a preset is checked against the laws on the piece that it is stated for', () => {
  // The laws with a figure off by a tenth: outside.
  const preset = {
    id: 'room-still',
    air_C: { low: 16, typical: 20, high: 26 },
    air_speed_m_s: { low: 0.02, typical: 0.1, high: 0.2 },
    wall_minus_air_K: 0,
    surface_for_this_table_C: 45,
    faces: {
      top: {
        low: { h_conv: 5.3, h_rad: 5.5 },
        typical: { h_conv: 5.4, h_rad: 5.8 },
        high: { h_conv: 6.3, h_rad: 6.2 },
      },
    },
  }
  const found = verifySurroundingsVectors({ format: 'thickset-surroundings', presets: [preset] })
  expect(found.rows.filter((row) => row.verdict === 'ok')).toHaveLength(5)
  expect(found.rows.filter((row) => row.verdict === 'outside')).toHaveLength(1)
})

test('unknown kinds and spoilt vectors are told', () => {
  const strange = { ...file.vectors[0], kind: 'moonlight' }
  const spoilt = { ...file.vectors[1], inputs: { surface_C: 'warm' } }
  const found = verifyFile({ format: 'thickset-surroundings', vectors: [strange, spoilt] }, { fidelity: 'quick' })
  const { rows: told, faults: found_faults } = found as FileVerification
  expect(told[0]?.verdict).toBe('not applicable')
  expect(found_faults[0]?.path).toBe('vectors[1]')
})
