import { localSeconds } from '../core/plan/clock.ts'
import { clockWords, monthName, shortMonth, shortWeekday, wallMillis, wallMoment, weekdayName } from './format-time.ts'

/* Times of day, and days with a time, as people type them: by either clock, with the day in words or figures. */

export type MomentKind = 'time' | 'datetime-local'

const day_ms = 86_400_000
const two = (value: number): string => String(value).padStart(2, '0')

/** "Fri 12 Mar 2027, 16:00", or the time alone; by the clock that is chosen. */
export function momentWords(kind: MomentKind, local: string): string {
  const [hours = 0, minutes = 0] = local.slice(-5).split(':').map(Number)
  const clock = clockWords(hours, minutes)
  if (kind === 'time') return clock
  const moment = wallMoment(local, 0)
  return `${shortWeekday(moment)} ${moment.getUTCDate()} ${shortMonth(moment)} ${moment.getUTCFullYear()}, ${clock}`
}

interface Found<Value> {
  readonly value: Value
  /** What is left of the text. */
  readonly rest: string
}

/** "16:00", "4:05 pm", "4 pm"; hours alone are none. */
function readClock(text: string): Found<string> | null {
  const found = /(\d{1,2})(?:[:.h](\d{2}))?\s*([ap]\.?m\.?)?\s*$/i.exec(text)
  if (found === null) return null
  const [whole, hour = '', minute, half] = found
  if (minute === undefined && half === undefined) return null
  const typed = Number(hour)
  if (half !== undefined && (typed < 1 || typed > 12)) return null
  const hours = half === undefined ? typed : (typed % 12) + (half.toLowerCase().startsWith('p') ? 12 : 0)
  const minutes = Number(minute ?? 0)
  if (hours > 23 || minutes > 59) return null
  return { value: `${two(hours)}:${two(minutes)}`, rest: text.slice(0, -whole.length).replace(/[\sT,]+$/, '') }
}

const monthOf = (name: string): number => {
  const sought = name.slice(0, 3).toLowerCase()
  return Array.from({ length: 12 }, (_, month) => shortMonth(new Date(Date.UTC(2027, month, 1))).toLowerCase()).indexOf(
    sought,
  )
}

/** The day that is typed; a weekday is the next such one after a moment, nothing at all is that day itself. */
function readDay(text: string, near: string): string | null {
  const bare = text.trim()
  if (bare === '') return near.slice(0, 10)
  const iso = /^(\d{4})-(\d{1,2})-(\d{1,2})$/.exec(bare)
  if (iso !== null) return `${iso[1]}-${two(Number(iso[2]))}-${two(Number(iso[3]))}`
  const dotted = /^(\d{1,2})\.\s?(\d{1,2})\.\s?(\d{4})$/.exec(bare)
  if (dotted !== null) return `${dotted[3]}-${two(Number(dotted[2]))}-${two(Number(dotted[1]))}`
  const named = /^(?:[A-Za-z]{3,9}\.?,?\s+)?(\d{1,2})\.?\s+([A-Za-z]{3,9})\.?(?:,?\s+(\d{4}))?$/.exec(bare)
  if (named !== null) {
    const month = monthOf(named[2] ?? '')
    if (month < 0 || !isName(named[2] ?? '', monthName(new Date(Date.UTC(2027, month, 1))))) return null
    return `${named[3] ?? near.slice(0, 4)}-${two(month + 1)}-${two(Number(named[1]))}`
  }
  return /^[A-Za-z]{3,9}$/.test(bare) ? nextWeekday(bare, near) : null
}

const isName = (typed: string, name: string): boolean => name.toLowerCase().startsWith(typed.toLowerCase())

function nextWeekday(name: string, near: string): string | null {
  const start = wallMillis(`${near.slice(0, 10)}T00:00`)
  for (let days = 0; days < 7; days++) {
    const moment = new Date(start + days * day_ms)
    if (isName(name, weekdayName(moment))) return moment.toISOString().slice(0, 10)
  }
  return null
}

/**
 * What was typed, as the plan writes it; null where it can't be read.
 * @param near  local date and time from which what is left out is taken
 */
export function readMoment(text: string, kind: MomentKind, near: string): string | null {
  const clock = readClock(text.trim())
  if (clock === null) return null
  if (kind === 'time') return clock.rest === '' ? clock.value : null
  const day = readDay(clock.rest, near)
  if (day === null) return null
  const local = `${day}T${clock.value}`
  return localSeconds(local) === null ? null : local
}
