import { metricUnits, shownUnit, type TemperatureUnit, temperature, toShown, toStored } from '../units.ts'

export interface TemperatureTick {
  readonly T_C: number
  readonly label: string
}

export interface TemperatureAxis {
  readonly low_C: number
  readonly high_C: number
  readonly ticks: readonly TemperatureTick[]
}

const steps = [1, 2, 5, 10, 20, 25, 50, 100]

const minus = (value: number): string => String(Number(value.toFixed(1)) + 0).replace('-', '−')

/** A bare number of degrees as the axis prints it. */
export function degreeLabel(T_C: number, unit: TemperatureUnit): string {
  const shown = toShown(T_C, shownUnit(temperature, { ...metricUnits, temperature: unit }))
  return minus(Math.abs(shown - Math.round(shown)) < 0.05 ? Math.round(shown) : shown)
}

/**
 * Round ticks in the reader's degrees over a range given in °C, at least `apart` pixels from each other; the range is
 * widened by a little so that no curve runs along the frame.
 */
export function temperatureAxis(
  lowest_C: number,
  highest_C: number,
  unit: TemperatureUnit,
  height: number,
  apart = 34,
): TemperatureAxis {
  const degrees = shownUnit(temperature, { ...metricUnits, temperature: unit })
  const margin = Math.max(1, (highest_C - lowest_C) * 0.04)
  const [low, high] = [toShown(lowest_C - margin, degrees), toShown(highest_C + margin, degrees)]
  const step = steps.find((one) => (one / (high - low)) * height >= apart) ?? 200
  const ticks: TemperatureTick[] = []
  for (let index = Math.ceil(low / step); index * step <= high; index++) {
    ticks.push({ T_C: toStored(index * step, degrees), label: minus(index * step) })
  }
  return { low_C: lowest_C - margin, high_C: highest_C + margin, ticks }
}

/** The axis without those ticks that would touch one of the limits' own. */
export function ticksBeside(
  axis: TemperatureAxis,
  limits_C: readonly number[],
  height: number,
  apart = 13.5,
): readonly TemperatureTick[] {
  const pixels = (difference: number): number => (Math.abs(difference) / (axis.high_C - axis.low_C)) * height
  return axis.ticks.filter((tick) => limits_C.every((limit) => pixels(tick.T_C - limit) >= apart))
}
