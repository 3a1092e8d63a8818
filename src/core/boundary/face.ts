import type { Ambient, Film } from './ambient.ts'
import type { Gap } from './gap.ts'
import type { HeldHeat } from './held-heat.ts'
import type { Profile } from './profile.ts'

/** A layer between the piece and what surrounds it, as heat crosses it: board, film, tray, mould wall. */
export interface Resistance {
  readonly name: string
  /** m² K/W; of a gap what it has at room temperature, dry. */
  readonly R: number
  /** A closed layer of air: its resistance follows from the temperatures on both sides. */
  readonly gap?: Gap
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
  | LawFace

/** A face whose film follows from its place, its temperature and the air, renewed as both change. */
export interface LawFace {
  readonly kind: 'law'
  /** Of the outermost surface, per m² of it. */
  readonly film: Film
  /** Faces with the same key have the same film. */
  readonly key: string
  /** What the face meets; absent: the air of the stage's appliance. */
  readonly ambient?: Ambient
  /** Per m² of the piece's own face. */
  readonly resistances: readonly Resistance[]
  /** Those of the layers that hold heat of their own; absent where what they hold doesn't count. */
  readonly held?: HeldHeat
  /** Outermost surface over the piece's own face. */
  readonly spread: number
  /** Of the outermost surface; 0 leaves radiation out. */
  readonly emissivity: number
  /** Whether water can leave: nothing lies on the face, and nothing seals it. */
  readonly open: boolean
  /** Lies on something solid: its film is that of the contact. */
  readonly contact?: true
}
