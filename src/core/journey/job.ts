import type { FaceCondition } from '../boundary/face.ts'
import type { Profile } from '../boundary/profile.ts'
import type { Body, FaceName, Place } from '../geometry/body.ts'
import type { Layer } from '../geometry/layer.ts'

export type Fidelity = 'quick' | 'standard' | 'fine'

/** When a stage ends. Whichever comes first; `max` always guards. Seconds after the stage's start. */
export interface Ending {
  readonly after?: number
  /** The slowest place of all (found each step) passes this temperature, °C; the direction is that of the stage. */
  readonly core_C?: number
  /** As a moment of the plan, seconds after its start. */
  readonly clock?: number
  /**
   * Seconds after which `clock` comes again, where the plan gives a time of day and only the journey itself can tell
   * when the stage begins: it ends at the first such moment later than its start.
   */
  readonly clockEvery?: number
  readonly max: number
}

/** What is done at a stage's start, in order. */
export type Action =
  | { readonly do: 'pour'; readonly layer: Layer }
  /** Names the change for the record; what it does to heat is in the stage's faces. */
  | { readonly do: 'cover' | 'uncover' | 'unmould'; readonly title: string }

export interface Stage {
  readonly name: string
  readonly start: readonly Action[]
  /** For every elementary face of the body. */
  readonly faces: Readonly<Record<FaceName, FaceCondition>>
  /** What the `air` curve shows during this stage, °C. */
  readonly air_C: Profile
  readonly until: Ending
  /** Uniform heat source, W/m³; 0 when left out. */
  readonly source?: number
}

export interface Probe {
  readonly name: string
  readonly place: Place
}

/** A plan made ready to compute: SI, names looked up, defaults filled in. */
export interface Job {
  readonly body: Body
  /** Outside in. */
  readonly lining: readonly Layer[]
  /** Bottom up; what is there at the start. */
  readonly fill: readonly Layer[]
  readonly stages: readonly Stage[]
  readonly probes: readonly Probe[]
}
