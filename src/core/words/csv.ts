import type { Forecast } from '../forecast-types.ts'

/** A text that a spreadsheet would take for a formula, made a text again; numbers come from us and need none of it. */
const harmless = (text: string): string => (/^[=+\-@\t\r]/.test(text) ? `'${text}` : text)

/** A field as RFC 4180 wants it: in quotes when it holds a quote, a comma or a line break. */
const field = (text: string): string => (/[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text)

const TEMPERATURE_DIGITS = 3
const HOUR_DIGITS = 5

const cell = (value: number | null | undefined): string =>
  value === null || value === undefined ? '' : String(Number(value.toFixed(TEMPERATURE_DIGITS)))

/**
 * The curves of a forecast as a table: hours, then every curve in °C, each followed by the edges of its band where it
 * has one. A curve that has not begun has an empty field.
 * Source: RFC 4180 (lines end in CR LF, first line names the columns).
 */
export function curvesCsv({ times_h, curves, bands }: Forecast): string {
  const columns = Object.entries(curves).flatMap(([name, values]) => {
    const band = Object.hasOwn(bands, name) ? bands[name] : undefined
    const own = { name: `${name}_C`, values }
    if (band === undefined) return [own]
    return [own, { name: `${name}_low_C`, values: band.low }, { name: `${name}_high_C`, values: band.high }]
  })
  const header = ['time_h', ...columns.map((column) => harmless(column.name))]
  const rows = times_h.map((time_h, index) => [
    String(Number(time_h.toFixed(HOUR_DIGITS))),
    ...columns.map((column) => cell(column.values[index])),
  ])
  return [header, ...rows].map((row) => `${row.map(field).join(',')}\r\n`).join('')
}
