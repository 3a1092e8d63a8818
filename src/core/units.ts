/** Seconds in an hour. */
export const HOUR = 3600

/** Seconds in a day of the workshop's clock; changes of the clock are not core's business. */
export const DAY = 24 * HOUR

const mm = 1e-3

/** A length in m from mm. */
export const fromMm = (length_mm: number): number => length_mm * mm

/** A length in mm from m. */
export const toMm = (length: number): number => length / mm

/** A duration in s from h. */
export const fromHours = (hours: number): number => hours * HOUR

/** A duration in h from s. */
export const toHours = (seconds: number): number => seconds / HOUR

/** A temperature in °C from °F, exact: 41 °F is 5 °C, 130 °F is 54.44… °C. */
export const fromFahrenheit = (T_F: number): number => ((T_F - 32) * 5) / 9
