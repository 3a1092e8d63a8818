import type { StepHeat } from '../boundary/appliance.ts'

/** Heat by its way into the piece and water by its way out, since the stage began; J and kg of the modelled body. */
export interface FaceBook {
  convected: number
  radiated: number
  /** Taken by what evaporates. */
  latent: number
  /** Taken by frost that melts. */
  melting: number
  evaporated: number
  condensed: number
  /** Taken by mould, boards and lids, and what came with walls that the piece has newly met. */
  stored: number
  joined: number
}

/** What the appliance has exchanged since the stage began, J. */
export interface ApplianceBook extends Record<keyof StepHeat, number> {
  /** Latent heat that reached its coil. */
  latent: number
}

/** A book of nothing. */
export const emptyFaceBook = (): FaceBook => ({
  convected: 0,
  radiated: 0,
  latent: 0,
  melting: 0,
  evaporated: 0,
  condensed: 0,
  stored: 0,
  joined: 0,
})
