import { describe, expect, it } from 'vitest'
import { calendarText } from '../../../src/core/words/calendar.ts'

const written = Date.UTC(2027, 2, 1, 8, 30, 5)
const text = (title: string, words = '', at_h = 46.5): string =>
  calendarText('Bar', '2027-03-12T16:00', [{ at_h, minutes: 10, title, text: words }], written)

// RFC 5545: 3.1 (lines), 3.3.5 (date with local time), 3.3.11 (text), 3.4 to 3.6.1 (objects and their properties).
describe('check times as a calendar', () => {
  it('is one object with the required properties, each line ended by CR LF', () => {
    const lines = text('Measure').split('\r\n')
    expect(lines[0]).toBe('BEGIN:VCALENDAR')
    expect(lines.at(-2)).toBe('END:VCALENDAR')
    expect(lines.at(-1)).toBe('')
    expect(lines).toContain('VERSION:2.0')
    expect(lines.filter((line) => line.startsWith('PRODID:'))).toHaveLength(1)
    expect(lines).toContain('DTSTAMP:20270301T083005Z')
    expect(text('Measure')).not.toMatch(/[^\r]\n/)
  })

  it("gives moments on the workshop's own clock, across days", () => {
    const lines = text('Measure').split('\r\n')
    expect(lines).toContain('DTSTART:20270314T143000')
    expect(lines).toContain('DTEND:20270314T144000')
  })

  it('escapes what would end a text', () => {
    expect(text('Cream; hot, "tall"', 'one\ntwo \\ three')).toContain('SUMMARY:Cream\\; hot\\, "tall"')
    expect(text('x', 'one\ntwo \\ three')).toContain('DESCRIPTION:one\\ntwo \\\\ three')
  })

  it('folds lines at 75 octets, never within a character, and loses nothing', () => {
    const title = 'Crème brûlée – 5,0 °C 🧁 '.repeat(12).trimEnd()
    const whole = text(title)
    for (const line of whole.split('\r\n')) expect(new TextEncoder().encode(line).length).toBeLessThanOrEqual(75)
    const unfolded = whole.replaceAll('\r\n ', '')
    expect(unfolded).toContain(`SUMMARY:${title.replaceAll(',', '\\,')}`)
    expect(unfolded).not.toContain('�')
  })

  it('names an entry alike when it is written again, and entries apart', () => {
    const uids = (whole: string): string[] => whole.split('\r\n').filter((line) => line.startsWith('UID:'))
    expect(uids(text('Measure'))).toEqual(uids(text('Measure')))
    const entry = { at_h: 1, minutes: 5, title: 'Measure', text: '' }
    const two = uids(calendarText('Bar', '2027-03-12T16:00', [entry, entry], written))
    expect(new Set(two).size).toBe(2)
  })
})
