import type { Fidelity } from '../journey/job.ts'
import type { Case, CaseOutput, CaseTolerance } from './case-schema.ts'

/*
 * What a case allows an output to be off. An output's own tolerance counts before the case's. Of a pair, the one for
 * the default grid holds at standard (and at quick, for which the files have none), the other at fine.
 */

/** Width of the cell at a front, m, where a tolerance is given in cells. */
type CellWidth = () => number

/** Units of things that tolerances in time-like shares are also meant for: heat and its flows. */
const HEAT = new Set(['W/m2', 'W/m', 'W', 'J', 'J/m2'])

const largest = (...values: readonly (number | undefined)[]): number | undefined => {
  const given = values.filter((value) => value !== undefined)
  return given.length === 0 ? undefined : Math.max(...given)
}

function of(tolerance: CaseTolerance, output: CaseOutput, size: number, fine: boolean, cell: CellWidth) {
  const share = (value: number | undefined): number | undefined => (value === undefined ? undefined : value * size)
  const timeShare = fine ? tolerance.rel_time : (tolerance.default_grid_rel_time ?? tolerance.rel_time)
  const { quantity, unit } = output
  if (quantity === 'periodic_amplitude') return share(tolerance.rel_amplitude ?? tolerance.rel) ?? tolerance.abs_K
  if (unit === 'degC' || unit === 'K') {
    return (fine ? tolerance.abs_K : (tolerance.default_grid_abs_K ?? tolerance.abs_K)) ?? share(tolerance.rel)
  }
  if (unit === 's') return tolerance.abs_lag_s ?? tolerance.abs_s ?? share(tolerance.rel ?? timeShare)
  if (unit === 'm') {
    if (tolerance.abs_m !== undefined) return tolerance.abs_m
    const cells = tolerance.abs_front_cells === undefined ? undefined : tolerance.abs_front_cells * cell()
    return fine
      ? (share(tolerance.rel_front ?? tolerance.rel) ?? cells)
      : largest(cells, share(tolerance.rel_front ?? tolerance.rel))
  }
  // The step of a temperature and the share of a time are set alike in these files; heat follows the temperature.
  if (unit !== undefined && HEAT.has(unit)) return share(tolerance.rel ?? timeShare ?? tolerance.abs)
  return tolerance.abs ?? share(tolerance.rel)
}

/** Digits with which the files write their numbers; what rounding took away is nobody's error. */
const WRITTEN_DIGITS = 7

/** Half a unit of the last written digit. */
const rounding = (size: number): number =>
  size === 0 ? 0 : 0.5 * 10 ** (Math.floor(Math.log10(size)) + 1 - WRITTEN_DIGITS)

/**
 * How far an output may be off, in its own unit; undefined where the case says nothing that fits.
 * @param size  size of the expected value, for shares of it
 */
export function toleranceOf(
  entry: Case,
  output: CaseOutput,
  fidelity: Fidelity,
  size: number,
  cell: CellWidth,
): number | undefined {
  const fine = fidelity === 'fine'
  const own = output.tolerance === undefined ? undefined : of(output.tolerance, output, size, fine, cell)
  const allowed = own ?? (entry.tolerance === undefined ? undefined : of(entry.tolerance, output, size, fine, cell))
  return allowed === undefined ? undefined : allowed + rounding(size)
}
