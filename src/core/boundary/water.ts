import { GRAVITY } from './air.ts'
import { nusseltPlateQuiet } from './forced/plate.ts'
import { nusseltVerticalPlate } from './natural/vertical-plate.ts'
import { filmOf, reynolds } from './similarity.ts'

/* Films under water: baths. Buoyancy comes from densities, since water is densest at 4 °C. */

const DENSEST_C = 4

/** Liquid water at one temperature. */
export interface Water {
  readonly rho: number
  readonly nu: number
  readonly k: number
  readonly Pr: number
}

/** °C, kg/m³, mPa s, W/(m K), J/(kg K). Source: `iapws`, at 1 atm. */
const rows: readonly (readonly [number, number, number, number, number])[] = [
  [0.01, 999.84, 1.7911, 0.5557, 4219.4],
  [2, 999.94, 1.6735, 0.5607, 4213],
  [4, 999.97, 1.5673, 0.5655, 4207.5],
  [6, 999.94, 1.4715, 0.5701, 4202.8],
  [8, 999.85, 1.3847, 0.5745, 4198.7],
  [10, 999.7, 1.3059, 0.5788, 4195.2],
  [15, 999.1, 1.1376, 0.5888, 4188.5],
  [20, 998.21, 1.0016, 0.598, 4184.1],
  [30, 995.65, 0.7972, 0.6144, 4179.8],
  [40, 992.22, 0.6527, 0.6285, 4179.4],
  [50, 988.04, 0.5465, 0.6406, 4181.3],
  [60, 983.2, 0.466, 0.651, 4185],
  [70, 977.76, 0.4035, 0.6598, 4190.1],
  [80, 971.79, 0.3541, 0.667, 4196.8],
  [90, 965.31, 0.3142, 0.6728, 4205.2],
  [99, 959.07, 0.2846, 0.6768, 4214.5],
]

/** Water of `T_C` °C: straight between the rows, viscosity straight in its logarithm. Valid: 0 to 99 °C, else the end. */
export function waterAt(T_C: number): Water {
  const t = Math.min(Math.max(T_C, rows[0]![0]), rows[rows.length - 1]![0])
  let i = 0
  while (i < rows.length - 2 && rows[i + 1]![0] < t) i++
  const [low, high] = [rows[i]!, rows[i + 1]!]
  const share = (t - low[0]) / (high[0] - low[0])
  const between = (column: 1 | 3 | 4): number => low[column] + (high[column] - low[column]) * share
  const mu = 1e-3 * low[2] * (high[2] / low[2]) ** share
  const rho = between(1)
  const k = between(3)
  return { rho, nu: mu / rho, k, Pr: (mu * between(4)) / k }
}

/**
 * Film of still water at an upright wall, W/(m² K), from the difference in density between wall and bath; where 4 °C
 * lies between them, half the difference to the densest water at least, since flow then goes both ways (assumed).
 * Source: law of `churchill-chu-1975` with the densities of `iapws`.
 * @param height  m
 */
export function stillWaterFilm(height: number, wall_C: number, bath_C: number): number {
  const { nu, k, Pr, rho } = waterAt((wall_C + bath_C) / 2)
  const [wall, bath] = [waterAt(wall_C).rho, waterAt(bath_C).rho]
  const inverted = (wall_C - DENSEST_C) * (bath_C - DENSEST_C) < 0
  const least = inverted ? (waterAt(DENSEST_C).rho - bath) / 2 : 0
  const contrast = Math.max(Math.abs(wall - bath), least) / rho
  const Ra = (GRAVITY * contrast * height ** 3 * Pr) / nu ** 2
  return filmOf(nusseltVerticalPlate(Ra, Pr), { nu, k, Pr }, height)
}

/** Film of a stirred bath along a wall, W/(m² K), length along the flow in m. Source: laws of forced/plate.ts. */
export function stirredWaterFilm(length: number, speed: number, wall_C: number, bath_C: number): number {
  const film = waterAt((wall_C + bath_C) / 2)
  return filmOf(nusseltPlateQuiet(reynolds(film, speed, length), film.Pr), film, length)
}
