/*
 * How quantities are shown and typed. What is stored never changes with a setting: mm, °C, hours, kg, m².
 * A stored value is `shown * factor + offset`.
 */

export type TemperatureUnit = 'C' | 'F'
export type LengthUnit = 'mm' | 'cm' | 'in'
export type MassUnit = 'kg' | 'lb'

/** The person's choice of units for numbers shown and for numbers typed without a unit. */
export interface Units {
  readonly temperature: TemperatureUnit
  readonly length: LengthUnit
  readonly mass: MassUnit
}

export const metricUnits: Units = { temperature: 'C', length: 'mm', mass: 'kg' }

export interface Unit {
  readonly name: string
  /** Other ways to write it, lower case. */
  readonly spelled: readonly string[]
  readonly factor: number
  readonly offset: number
  /** Decimals that are worth showing. */
  readonly decimals: number
}

/** A kind of quantity: which units may be typed, and what one whole step of an arrow key is. */
export interface Quantity {
  readonly name:
    | 'length'
    | 'temperature'
    | 'duration'
    | 'area'
    | 'film'
    | 'speed'
    | 'power'
    | 'mass'
    | 'share'
    | 'volume'
    | 'count'
    | 'percent'
    | 'density'
    | 'piece weight'
    | 'stress'
    | 'conductance'
    | 'difference'
  readonly units: readonly [Unit, ...Unit[]]
}

const unit = (name: string, spelled: string[], factor: number, decimals: number, offset = 0): Unit => ({
  name,
  spelled,
  factor,
  offset,
  decimals,
})

export const conductance: Quantity = { name: 'conductance', units: [unit('W/K', ['w/k'], 1, 2)] }
/** Between two temperatures. */
export const difference: Quantity = { name: 'difference', units: [unit('K', ['kelvin'], 1, 1)] }

/** Stored in mm. 1 in = 25.4 mm exactly (international yard and pound agreement, 1959). */
export const length: Quantity = {
  name: 'length',
  units: [
    unit('mm', ['millimetre', 'millimetres', 'millimeter', 'millimeters'], 1, 1),
    unit('cm', ['centimetre', 'centimetres', 'centimeter', 'centimeters'], 10, 2),
    unit('in', ['"', '″', '”', 'inch', 'inches'], 25.4, 2),
    unit('m', ['metre', 'metres', 'meter', 'meters'], 1000, 4),
    unit('ft', ["'", '′', 'foot', 'feet'], 304.8, 3),
  ],
}

/** Stored in °C. */
export const temperature: Quantity = {
  name: 'temperature',
  units: [
    unit('°C', ['c', 'degc', 'celsius'], 1, 1),
    unit('°F', ['f', 'degf', 'fahrenheit'], 5 / 9, 1, -160 / 9),
    unit('K', ['kelvin'], 1, 2, -273.15),
  ],
}

const minute = unit('min', ["'", 'mins', 'minute', 'minutes'], 1 / 60, 1)

/** Stored in hours. */
export const duration: Quantity = {
  name: 'duration',
  units: [unit('h', ['hr', 'hrs', 'hour', 'hours'], 1, 2), minute, unit('d', ['day', 'days'], 24, 2)],
}

/** Stored in m². */
export const area: Quantity = {
  name: 'area',
  units: [
    unit('m²', ['m2', 'sqm'], 1, 3),
    unit('cm²', ['cm2'], 1e-4, 0),
    unit('in²', ['in2'], 25.4e-3 ** 2, 0),
    unit('ft²', ['ft2', 'sqft'], 0.3048 ** 2, 2),
  ],
}

/** Stored in litres, shown in litres with every choice of units. */
export const volume: Quantity = {
  name: 'volume',
  units: [unit('L', ['l', 'litre', 'litres', 'liter', 'liters'], 1, 2), unit('mL', ['ml', 'cm³', 'cm3'], 1e-3, 0)],
}

/** Heat transfer coefficient, stored in W/(m² K). */
/** Speed of air. */
export const speed: Quantity = { name: 'speed', units: [unit('m/s', ['mps'], 1, 2)] }
/** Power of a machine. */
export const power: Quantity = { name: 'power', units: [unit('W', ['watt'], 1, 0), unit('kW', ['kilowatt'], 1000, 2)] }
export const film: Quantity = { name: 'film', units: [unit('W/m²K', ['w/m2k', 'w'], 1, 1)] }

/** Stored in kg. 1 lb = 0.45359237 kg exactly (same agreement). */
export const mass: Quantity = {
  name: 'mass',
  units: [
    unit('kg', ['kilo', 'kilos'], 1, 2),
    unit('g', ['gram', 'grams'], 1e-3, 0),
    unit('lb', ['lbs', 'pound', 'pounds'], 0.45359237, 2),
    unit('oz', ['ounce', 'ounces'], 0.028349523125, 1),
  ],
}

/** How many. */
export const count: Quantity = { name: 'count', units: [unit('', [], 1, 0)] }

/** A share stored in per cent. */
export const percent: Quantity = { name: 'percent', units: [unit('%', ['percent', 'pct'], 1, 1)] }

/** Stored in kg/m³, which is g per litre. */
export const density: Quantity = { name: 'density', units: [unit('kg/m³', ['kg/m3', 'g/l'], 1, 0)] }

/** Weight of one piece, stored in g. */
export const pieceWeight: Quantity = {
  name: 'piece weight',
  units: [
    unit('g', ['gram', 'grams'], 1, 1),
    unit('kg', ['kilo', 'kilos'], 1000, 3),
    unit('oz', ['ounce', 'ounces'], 28.349523125, 2),
  ],
}

/** Minutes, stored as such. */
export const minutes: Quantity = { name: 'duration', units: [unit('min', ['mins', 'minute', 'minutes'], 1, 1)] }

/** How many, of things that may be cut. */
export const pieces: Quantity = { name: 'count', units: [unit('', [], 1, 2)] }

/** A bare ratio. */
export const ratio: Quantity = { name: 'share', units: [unit('', [], 1, 2)] }

/** Yield stress, stored in Pa. */
export const stress: Quantity = { name: 'stress', units: [unit('Pa', ['pascal'], 1, 1)] }

/** A bare share, 0 to 1. */
export const share: Quantity = { name: 'share', units: [unit('', [], 1, 2), unit('%', ['percent'], 0.01, 0)] }

/** The unit in which a person with these settings sees this quantity; short durations are seen in minutes. */
export function shownUnit(quantity: Quantity, units: Units, stored?: number): Unit {
  if (quantity === duration && stored !== undefined && stored < 1) return minute
  const wanted: Partial<Record<Quantity['name'], string>> = {
    length: units.length,
    temperature: `°${units.temperature}`,
    mass: units.mass,
    area: units.length === 'in' ? 'ft²' : 'm²',
  }
  return quantity.units.find((one) => one.name === wanted[quantity.name]) ?? quantity.units[0]
}

export const toShown = (stored: number, one: Unit): number => (stored - one.offset) / one.factor

export const toStored = (shown: number, one: Unit): number => shown * one.factor + one.offset

/** The number alone, without trailing zeros and with a true minus. */
export function shownNumber(stored: number, one: Unit): string {
  return signed(Number(toShown(stored, one).toFixed(one.decimals)))
}

/** The number with its unit. */
export function shownQuantity(stored: number, one: Unit): string {
  const gap = one.name === '' ? '' : ' '
  return `${shownNumber(stored, one)}${gap}${one.name}`
}

const signed = (value: number): string => String(value === 0 ? 0 : value).replace('-', '−')
