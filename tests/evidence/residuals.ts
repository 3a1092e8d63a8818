import { runJourney } from '../../src/core/journey/journey.ts'
import { readPlan } from '../../src/core/plan/read.ts'
import { resolvePlan } from '../../src/core/plan/resolve.ts'
import type { Residual } from '../../src/core/verification/evidence.ts'

/** What heat in and heat stored differ by in each of the plans given as texts, at the fidelity that they ask for. */
export function residuals(texts: readonly string[]): Residual[] {
  return texts.map((text) => {
    const plan = readPlan(text)
    const { job, fidelity } = resolvePlan(plan)
    const course = runJourney(job, { fidelity })
    return { of: plan.title, cells: course.cells, steps: course.steps, residual: course.energyResidual }
  })
}
