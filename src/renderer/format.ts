import type { Show } from '../core/words/show.ts'
import { dayAndClock, durationWords } from './format-time.ts'
import { length, mass, shownQuantity, shownUnit, temperature, toShown, type Units } from './units.ts'

/** Numbers as the person reads them: their units, the workshop's clock, no more digits than are known. */
export function showIn(units: Units, startsAt: string): Show {
  const degrees = shownUnit(temperature, units)
  return {
    temperature: (T_C) => temperatureWords(T_C, units),
    difference: (dT_K) => `${fixed(dT_K / degrees.factor, 1)} ${degrees.name === '°C' ? 'K' : degrees.name}`,
    length: (m) => shownQuantity(m * 1000, { ...shownUnit(length, units), decimals: lengthDecimals[units.length] }),
    mass: (kg) => massWords(kg, units),
    duration: (h) => (h < 0 ? '−' : '') + durationWords(h),
    moment: (at_h) => dayAndClock(startsAt, at_h),
    number: (value) => minus(String(Number(value.toPrecision(3)))),
  }
}

const lengthDecimals = { mm: 0, cm: 1, in: 1 } as const

/** "−12.8 °C": always one decimal. */
export function temperatureWords(T_C: number, units: Units): string {
  return `${temperatureNumber(T_C, units)} °${units.temperature}`
}

/** "−12.8" */
export function temperatureNumber(T_C: number, units: Units): string {
  return fixed(toShown(T_C, shownUnit(temperature, units)), 1)
}

function massWords(kg: number, units: Units): string {
  const one = shownUnit(mass, units)
  const shown = toShown(kg, one)
  return `${fixed(shown, Number(shown.toFixed(2)) < 10 ? 2 : 1)} ${one.name}`
}

function fixed(value: number, digits: number): string {
  const shown = value.toFixed(digits)
  return minus(Number(shown) === 0 ? (0).toFixed(digits) : shown)
}

const minus = (text: string): string => text.replace('-', '−')
