import type { FormulaEvidence } from '../../src/core/verification/evidence.ts'
import { ALLOWED, frozen, MISSES, off, shapes, thawed } from '../reference/freezing-runs.ts'

/** Published freezing and thawing formulae over the solver, by shape. Plank's gives no accuracy: it must fall short. */
export const formulae = (): FormulaEvidence[] =>
  ['Cleland–Earle', 'Pham', 'thawing'].flatMap((formula) =>
    shapes.map((shape) => {
      const runs = (formula === 'thawing' ? thawed : frozen).filter((run) => run.shape === shape)
      const ratios = runs.map((run) => run.ratio[formula]!)
      return {
        formula,
        shape,
        pieces: runs.length,
        within: runs.filter((run) => off(formula, run) <= ALLOWED).length,
        low: Math.min(...ratios),
        high: Math.max(...ratios),
        reasons: MISSES.filter((miss) => miss.formula === formula && miss.shape === shape).map(({ reason }) => reason),
      }
    }),
  )
