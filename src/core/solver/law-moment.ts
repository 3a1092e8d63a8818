import type { AmbientMoment } from '../boundary/ambient.ts'

/** Sums over the faces at one moment, W and kg/s of the modelled body. Shape of each: faces of the conduction */
export interface Sums {
  readonly convected: Float64Array
  readonly radiated: Float64Array
  readonly latent: Float64Array
  readonly melting: Float64Array
  /** W/K: how what the air gives grows with its temperature, the piece's cells held. */
  readonly grip: Float64Array
  /** The same for what the walls give and their temperature. */
  readonly wallGrip: Float64Array
  /** °C, mean over the face's outermost surface, and Pa there. */
  readonly surface_C: Float64Array
  /** °C, mean over the mass's own surface, and the activity of its water. */
  readonly mass_C: Float64Array
  readonly activity: Float64Array
  readonly surfaceVapour: Float64Array
}

/** One moment of all law links. Shape of each: outer links */
export interface Moment {
  readonly outer_C: Float64Array
  readonly slope: Float64Array
  readonly vapour: Float64Array
  readonly melting: Float64Array
  readonly sums: Sums
  appliance: AmbientMoment
}

export function allocateMoment(links: number, faces: number): Moment {
  const link = () => new Float64Array(links)
  const face = () => new Float64Array(faces)
  return {
    outer_C: link().fill(Number.NaN),
    slope: link(),
    vapour: link(),
    melting: link(),
    sums: {
      convected: face(),
      radiated: face(),
      latent: face(),
      melting: face(),
      grip: face(),
      wallGrip: face(),
      surface_C: face(),
      mass_C: face(),
      activity: face(),
      surfaceVapour: face(),
    },
    appliance: { air_C: Number.NaN, walls_C: Number.NaN, vapour: Number.NaN },
  }
}
