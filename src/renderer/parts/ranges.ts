import type { Range } from '../typed.ts'

/*
 * Stored values that the fields take: the limits of the plan's format, so that what is typed can always be kept. What
 * is wrong between fields is the core's to find. A test holds these and the format equal.
 */

export const lengthRange: Range = { low: 0, high: 10_000, above: true }
export const temperatureRange: Range = { low: -60, high: 350 }
export const hoursRange: Range = { low: 0, high: 1440, above: true }
export const areaRange: Range = { low: 0, high: 100, above: true }
export const volumeRange: Range = { low: 0, high: 10_000, above: true }
export const filmRange: Range = { low: 0, high: 1e5 }
export const speedRange: Range = { low: 0, high: 30 }
export const powerRange: Range = { low: 0, high: 1e6, above: true }
export const shareRange: Range = { low: 0, high: 1 }
/** Of pieces that an appliance has to cope with. */
export const piecesAlikeRange: Range = { low: 1, high: 500 }
export const minutesRange: Range = { low: 0, high: 1440, above: true }
export const countRange: Range = { low: 1, high: 200 }
export const massRange: Range = { low: 0, high: 10_000, above: true }
export const piecesRange: Range = { low: 0, high: 100_000, above: true }
export const pieceWeightRange: Range = { low: 0, high: 100_000, above: true }
export const lossRange: Range = { low: 0, high: 95 }
export const overrunRange: Range = { low: 0, high: 1000 }
export const airShareRange: Range = { low: 0, high: 95 }
export const densityRange: Range = { low: 0, high: 3000, above: true }
export const growthRange: Range = { low: 1, high: 5 }
export const activityRange: Range = { low: 0, high: 1, above: true }
export const humidityRange: Range = { low: 0, high: 100, above: true }
/** Heat through the walls of an appliance, W/K. */
export const lossRange_W_K: Range = { low: 0, high: 1e4 }
/** By how much a thermostat switches, K. */
export const bandRange: Range = { low: 0, high: 30, above: true }
/** What lies in an appliance, kg. */
export const loadRange: Range = { low: 0, high: 1e6, above: true }
export const stressRange: Range = { low: 0, high: 5000, above: true }
/** Hours of a stage at which something is done. */
export const momentRange_h: Range = { low: 0, high: 1440 }
