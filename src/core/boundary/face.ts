import type { Profile } from './profile.ts'

/** A layer without heat capacity between the piece and what surrounds it: board, film, tray, mould wall. */
export interface Resistance {
  readonly name: string
  /** m² K/W */
  readonly R: number
}

/** What happens at one outer face during a stage. All kinds are per m² of the face. */
export type FaceCondition =
  | { readonly kind: 'insulated' }
  | { readonly kind: 'fixed'; readonly surface_C: Profile }
  | {
      readonly kind: 'convective'
      /** W/(m² K), outside all resistances. */
      readonly h: number
      readonly air_C: Profile
      readonly resistances: readonly Resistance[]
      /** Long-wave exchange of the outermost surface with walls of another temperature. */
      readonly radiation?: { readonly emissivity: number; readonly walls_C: Profile }
    }
  | { readonly kind: 'flux' /** W/m² into the piece */; readonly q: Profile }
