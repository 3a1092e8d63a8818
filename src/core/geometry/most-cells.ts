import { PlanError } from '../errors.ts'

/* Grids beyond which a computation would take more memory and patience than anybody has: refused before they are made. */

/** Cells of one grid. A large block with linings, inserts and three directions of heat has some ten thousand when fine. */
const MOST_CELLS = 250_000
/** Cells of all grids of a journey together: one for each change of the piece. */
const MOST_CELLS_IN_ALL = 1_000_000

const thousand = (cells: number): string => `${Math.round(cells / 1000)} thousand`

const refusal = (path: string, problem: string, remedy: string): PlanError => new PlanError([{ path, problem, remedy }])

/** Throws: `PlanError` for a grid of so many cells. */
export function refuseGiant(cells: number): void {
  if (cells <= MOST_CELLS) return
  throw refusal(
    'piece',
    `needs a grid of ${thousand(cells)} cells, and ${thousand(MOST_CELLS)} at most can be computed`,
    'give fewer linings, layers or inserts, or ask for a lower fidelity',
  )
}

/** Throws: `PlanError` for a journey whose grids have so many cells. */
export function refuseGiantJourney(cells: number, grids: number): void {
  if (cells <= MOST_CELLS_IN_ALL) return
  throw refusal(
    'stages',
    `change the piece so often that the first ${grids} grids alone have ${thousand(cells)} cells, and ${thousand(MOST_CELLS_IN_ALL)} at most can be computed`,
    'do fewer things at the starts of stages, repeat fewer times, or ask for a lower fidelity',
  )
}
