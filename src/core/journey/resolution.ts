import type { Fidelity } from './job.ts'

/** How finely a journey is computed. */
export interface Resolution {
  /** Cells between the middle and the surface of a plain axis, for one, two and three dimensions. */
  readonly perHalf: readonly [number, number, number]
  /** The coarse partner: every layer gets half of its cells. */
  readonly halved: boolean
  /** Estimated error allowed in a step, K. */
  readonly tolerance_K: number
  /** First step after a sudden change, s. */
  readonly firstStep: number
  /** s */
  readonly longestStep: number
}

/** Half the cells and twice the steps: the error of a step grows with the cube of its length. */
export function coarsePartner(resolution: Resolution): Resolution {
  return {
    ...resolution,
    halved: true,
    tolerance_K: 8 * resolution.tolerance_K,
    firstStep: 2 * resolution.firstStep,
    longestStep: 2 * resolution.longestStep,
  }
}

/**
 * Grids and steps of each fidelity. Quick is one grid; the others are joined with their coarse partner.
 * Accuracy, measured on the reference jobs of tests/physics: quick about 1 K, standard 0.2 K, fine 0.05 K.
 */
export const resolutions: Readonly<Record<Fidelity, Resolution>> = {
  quick: { perHalf: [8, 6, 5], halved: false, tolerance_K: 1, firstStep: 20, longestStep: 3600 },
  standard: { perHalf: [16, 12, 10], halved: false, tolerance_K: 0.15, firstStep: 10, longestStep: 3600 },
  fine: { perHalf: [40, 24, 14], halved: false, tolerance_K: 0.02, firstStep: 2, longestStep: 3600 },
}
