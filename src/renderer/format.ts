import type { Show } from '../core/words/show.ts'
import { momentAt, momentWords, roundMoment } from './clock.ts'
import { type Units, length, mass, shownQuantity, shownUnit, temperature, toShown } from './units.ts'

/** Numbers as the person reads them: their units, the workshop's clock, no more digits than are known. */
export function showIn(units: Units, startsAt: string): Show {
  const degrees = shownUnit(temperature, units)
  return {
    temperature: (T_C) => temperatureWords(T_C, units),
    difference: (dT_K) => `${fixed(dT_K / degrees.factor, 1)} ${degrees.name === '°C' ? 'K' : degrees.name}`,
    length: (m) => shownQuantity(m * 1000, { ...shownUnit(length, units), decimals: lengthDecimals[units.length] }),
    mass: (kg) => massWords(kg, units),
    duration: durationWords,
    moment: (at_h) => momentWords(roundMoment(momentAt(startsAt, at_h))),
    number: (value) => minus(String(Number(value.toPrecision(3)))),
  }
}

const lengthDecimals = { mm: 0, cm: 1, in: 1 } as const

/** "−12.8 °C": always one decimal. */
export function temperatureWords(T_C: number, units: Units): string {
  return `${temperatureNumber(T_C, units)} ${units.temperature}`
}

/** "−12.8" */
export function temperatureNumber(T_C: number, units: Units): string {
  return fixed(toShown(T_C, shownUnit(temperature, units)), 1)
}

/** "40 min", "5 h 40 min", "19½ h". Rounded to 5 minutes, from 10 h on to half an hour. */
export function durationWords(hours: number): string {
  if (!Number.isFinite(hours)) return '–'
  const sign = hours < 0 ? '−' : ''
  const size = Math.abs(hours)
  const minutes = Math.round(size * 12) * 5
  if (minutes >= 600) {
    const halves = Math.round(size * 2)
    return `${sign}${Math.floor(halves / 2)}${halves % 2 === 1 ? '½' : ''} h`
  }
  const whole = Math.floor(minutes / 60)
  const rest = minutes % 60
  if (whole === 0) return minutes === 0 && size > 0 ? 'under 5 min' : `${sign}${rest} min`
  return rest === 0 ? `${sign}${whole} h` : `${sign}${whole} h ${rest} min`
}

function massWords(kg: number, units: Units): string {
  const one = shownUnit(mass, units)
  const shown = toShown(kg, one)
  return `${fixed(shown, shown < 10 ? 2 : 1)} ${one.name}`
}

function fixed(value: number, digits: number): string {
  const shown = value.toFixed(digits)
  return minus(Number(shown) === 0 ? (0).toFixed(digits) : shown)
}

const minus = (text: string): string => text.replace('-', '−')
