import { runOnGrid } from '../../src/core/journey/grid-journey.ts'
import type { Resolution } from '../../src/core/journey/resolution.ts'
import { buildCaseJob, durationOf } from '../../src/core/verification/case-run.ts'
import { type Case, readCases } from '../../src/core/verification/case-schema.ts'
import type { Convergence } from '../../src/core/verification/evidence.ts'
import { valueAt } from '../../src/core/verification/history.ts'

/** Cases with an exact solution, and what each of them adds. */
const STUDIES: readonly { readonly id: string; readonly title: string }[] = [
  { id: 'A1-slab-Bi5', title: 'Slab under a film' },
  { id: 'A1-cyl-Bi5', title: 'Round, endless, under a film' },
  { id: 'A1-sph-Bi1', title: 'Ball under a film' },
  { id: 'A4-bar', title: 'Bar, two directions of heat' },
  { id: 'A7-slab-3', title: 'Three layers, one on another' },
  { id: 'A10-kirchhoff-slab', title: 'Conductivity that follows temperature' },
]
const CELLS = [4, 8, 16, 32, 64]
const VARIANT = { size: 0, film: 0 } as const

/** A plain grid with steps so short that their error is far below that of the cells. */
const grid = (cells: number): Resolution => ({
  perHalf: [cells, cells, cells],
  halved: false,
  tolerance_K: 2e-5,
  firstStep: 0.05,
  longestStep: 600,
})

/** Exact temperatures of a case with their places and moments. */
const figuresOf = (entry: Case) =>
  entry.outputs.flatMap(({ quantity, position, t_s, value }) =>
    quantity === 'temperature' && position !== undefined && t_s !== undefined && typeof value === 'number'
      ? [{ position, t_s, value }]
      : [],
  )

function errorOf(entry: Case, cells: number): number {
  const { job, specimen } = buildCaseJob(entry, VARIANT, 'moments', durationOf(entry))
  const course = runOnGrid(job, grid(cells))
  const figures = figuresOf(entry)
  const squares = figures.map(({ position, t_s, value }) => {
    const history = { t: course.t, value: course.follow(specimen.place(position)) }
    return (valueAt(history, t_s) - value) ** 2
  })
  return Math.sqrt(squares.reduce((sum, square) => sum + square, 0) / figures.length)
}

/** How errors against exact solutions fall with finer grids, by the cases of the file. */
export function convergence(cases: readonly unknown[]): Convergence[] {
  const known = readCases(cases).cases
  return STUDIES.map(({ id, title }) => {
    const entry = known.find((one) => one.id === id)
    if (entry === undefined) throw new Error(`there is no case ${id}`)
    const points = CELLS.map((cells) => ({ cells, error_K: errorOf(entry, cells) }))
    const [coarse, fine] = points.slice(-2)
    const order = Math.log2(coarse!.error_K / fine!.error_K) / Math.log2(fine!.cells / coarse!.cells)
    const source = [entry.source?.ref, entry.source?.locator].filter(Boolean).join(', ')
    return { case: id, title, source, figures: figuresOf(entry).length, points, order }
  })
}
