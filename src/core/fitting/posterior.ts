import { CholeskyDecomposition, EigenvalueDecomposition } from 'ml-matrix'
import type { Control } from '../control.ts'
import { type Moved, runVariants } from '../deciding/band.ts'
import { drawnJob } from '../deciding/drawn-job.ts'
import { latinHypercube } from '../deciding/latin-hypercube.ts'
import { stilled } from '../deciding/moved-inputs.ts'
import { forecastResolved } from '../forecast.ts'
import type { Forecast } from '../forecast-types.ts'
import type { Job } from '../journey/job.ts'
import type { Plan } from '../plan/schema/plan.ts'
import type { FittedPlan } from './fit.ts'

/* What is still open after a fit: inputs hang together now, so they are moved along the axes of their covariance. */

/** The job as the readings have it. */
export const fittedJob = ({ drawing, middle }: FittedPlan): Job => drawnJob(drawing, middle)

/** Each axis of what is still open, one standard deviation up and down. */
export function openDirections({ drawing, middle, covariance }: FittedPlan): Moved[] {
  const { realEigenvalues, eigenvectorMatrix } = new EigenvalueDecomposition(covariance, { assumeSymmetric: true })
  const fitted = drawnJob(drawing, middle)
  const axes = realEigenvalues.flatMap((variance, axis) =>
    [1, -1].map((way) => ({
      job: drawnJob(
        drawing,
        middle.map((value, i) => value + way * Math.sqrt(Math.max(0, variance)) * eigenvectorMatrix.get(i, axis)),
      ),
    })),
  )
  return [...axes, ...stilled(fitted)]
}

/** The forecast of a plan as its readings have it, its bands from what they leave open. Throws as `forecast` does. */
export function forecastFitted(plan: Plan, fitted: FittedPlan, control: Control = {}): Forecast {
  return forecastResolved(
    plan,
    () => ({ ...fitted.resolved, job: fittedJob(fitted) }),
    (_, nominal, resolution, running) => runVariants(openDirections(fitted), resolution, nominal, running),
    control,
  )
}

/**
 * Draws of the inputs after the readings, for a spread.
 * @returns Shape: runs × inputs
 */
export function drawsAfter({ middle, covariance }: FittedPlan, runs: number, seed: number): Float64Array[] {
  const lower = new CholeskyDecomposition(covariance).lowerTriangularMatrix
  return latinHypercube(runs, middle.length, seed).map((draw) =>
    middle.map((value, i) => value + draw.reduce((sum, z, j) => sum + (j <= i ? lower.get(i, j) * z : 0), 0)),
  )
}
