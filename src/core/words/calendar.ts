import { type ClockChange, shownAt } from '../plan/clock.ts'

/*
 * Moments as an iCalendar file. Source: RFC 5545 (lines of at most 75 octets, CRLF, text escaped; local times without a
 * zone are "floating": the workshop's wall clock, wherever it hangs).
 */

export interface CalendarEntry {
  /** Hours since the plan's start. */
  readonly at_h: number
  /** Minutes that it takes. */
  readonly minutes: number
  readonly title: string
  readonly text: string
}

const LINE_OCTETS = 75

const escaped = (text: string): string =>
  text
    .replaceAll('\\', '\\\\')
    .replaceAll(';', '\\;')
    .replaceAll(',', '\\,')
    .replace(/\r\n|\r|\n/g, '\\n')

const octets = (character: string): number => {
  const code = character.codePointAt(0)!
  return code < 0x80 ? 1 : code < 0x800 ? 2 : code < 0x10000 ? 3 : 4
}

/** A content line folded so that no line is longer than 75 octets, never within a character. */
function folded(line: string): string {
  const lines: string[] = []
  let own = ''
  let length = 0
  for (const character of line) {
    const more = octets(character)
    if (length + more > LINE_OCTETS) {
      lines.push(own)
      own = ' '
      length = 1
    }
    own += character
    length += more
  }
  return [...lines, own].join('\r\n')
}

/** `20270314T140000` of seconds on the scale of all local times, to the minute. */
function stamp(seconds: number): string {
  const minute = new Date(Math.round(seconds / 60) * 60_000)
  return minute.toISOString().slice(0, 19).replaceAll(/[-:]/g, '')
}

/** FNV-1a of a text, as eight hexadecimal digits: the same entry keeps its name when a plan is exported again. */
function digest(text: string): string {
  let hash = 0x811c9dc5
  for (const character of text) hash = Math.imul(hash ^ character.codePointAt(0)!, 0x01000193)
  return (hash >>> 0).toString(16).padStart(8, '0')
}

/**
 * An iCalendar object with one event an entry.
 * @param startsAt  wall clock at the plan's start, `YYYY-MM-DDTHH:MM`
 * @param changes  when that clock is moved
 * @param written_ms  moment of writing, ms since 1970 UTC
 */
export function calendarText(
  name: string,
  startsAt: string,
  entries: readonly CalendarEntry[],
  written_ms: number,
  changes: readonly ClockChange[] = [],
): string {
  const written = `${new Date(written_ms).toISOString().slice(0, 19).replaceAll(/[-:]/g, '')}Z`
  const events = entries.flatMap(({ at_h, minutes, title, text }, index) => {
    const from = shownAt(startsAt, at_h * 3600, changes) ?? 0
    return [
      'BEGIN:VEVENT',
      `UID:${digest(`${name} ${startsAt} ${index} ${title}`)}-${index}@thickset`,
      `DTSTAMP:${written}`,
      `DTSTART:${stamp(from)}`,
      `DTEND:${stamp(from + minutes * 60)}`,
      `SUMMARY:${escaped(title)}`,
      ...(text === '' ? [] : [`DESCRIPTION:${escaped(text)}`]),
      'END:VEVENT',
    ]
  })
  const lines = ['BEGIN:VCALENDAR', 'VERSION:2.0', 'PRODID:-//Thickset//Check times//EN', ...events, 'END:VCALENDAR']
  return `${lines.map(folded).join('\r\n')}\r\n`
}
