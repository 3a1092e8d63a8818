import { describe, expect, it } from 'vitest'
import type { Forecast } from '../../../src/core/forecast-types.ts'
import { curvesCsv } from '../../../src/core/words/csv.ts'

const table = (curves: Forecast['curves'], bands: Forecast['bands'] = {}): string =>
  curvesCsv({ times_h: [0, 0.5, 1.25], curves, bands } as unknown as Forecast)

describe('curves as a table', () => {
  it('has a header and lines that end in CR LF', () => {
    expect(table({ core: [80, 61.23456, -3] })).toBe('time_h,core_C\r\n0,80\r\n0.5,61.235\r\n1.25,-3\r\n')
  })

  it('puts the edges of a band beside its curve', () => {
    const band = { core: { low: [80, 60, 1], high: [80, 63, 4] } }
    expect(table({ core: [80, 61, 2], air: [4, 4, 4] }, band).split('\r\n')[2]).toBe('0.5,61,60,63,4')
  })

  // A spreadsheet computes what begins so; numbers below zero stay numbers.
  it('lets no name begin a formula', () => {
    for (const begin of ['=', '+', '-', '@', '\t', '\r']) {
      const [header] = table({ [`${begin}cmd()`]: [1, 2, 3] }).split(/\r\n/)
      expect(header?.replaceAll('"', '')).toBe(`time_h,'${begin}cmd()_C`)
    }
    expect(table({ 'probe:=1+1': [-1, 2, 3] })).toMatch(/^time_h,probe:=1\+1_C\r\n0,-1\r\n/)
  })

  // RFC 4180, rules 6 and 7.
  it('quotes names with quotes, commas and line breaks, and leaves a field empty before a curve begins', () => {
    const [header, first] = table({ 'probe:a "b", c': [null, 1, 2] }).split('\r\n')
    expect(header).toBe('time_h,"probe:a ""b"", c_C"')
    expect(first).toBe('0,')
  })
})
