import type { StageAppliance } from '../boundary/appliance.ts'
import type { ApplianceFigures } from '../boundary/appliance-figures.ts'
import type { FaceCondition } from '../boundary/face.ts'
import type { Profile } from '../boundary/profile.ts'
import type { Body, FaceName, Place } from '../geometry/body.ts'
import type { Insert, Layer } from '../geometry/layer.ts'
import type { StateLaw } from '../materials/state-law.ts'
import type { Course } from './course.ts'

export type Fidelity = 'quick' | 'standard' | 'fine'

/** A place that has to reach a temperature, °C. */
export interface PlaceEnd {
  readonly place: Place
  readonly T_C: number
}

/** When a stage ends. Whichever comes first; `max` always guards. Seconds after the stage's start. */
export interface Ending {
  readonly after?: number
  /** The slowest place of all (found each step) passes this temperature, °C; the direction is that of the stage. */
  readonly core_C?: number
  /** The mean over the open faces, and the mean over the volume, pass this temperature, °C. */
  readonly surface_C?: number
  readonly mean_C?: number
  readonly place?: PlaceEnd
  /**
   * Something asked of the piece that its temperatures alone don't tell: reads from a course the first moment from
   * `from` on at which it is so, s; nothing where it never is.
   */
  readonly met?: (course: Course, from: number) => number | undefined
  /** Whether `after` stands for such a moment. */
  readonly afterIsMet?: boolean
  /** As a moment of the plan, seconds after its start. */
  readonly clock?: number
  /**
   * Seconds after which `clock` comes again, where the plan gives a time of day and only the journey itself can tell
   * when the stage begins: it ends at the first such moment later than its start.
   */
  readonly clockEvery?: number
  /** All such moments, in order, where the clock is moved between them. */
  readonly clockAll?: readonly number[]
  readonly max: number
}

/** A stretch of an axis to keep, as shares of what the piece spans along it. */
export interface Keep {
  readonly axis: number
  readonly low: number
  readonly high: number
}

/** What is done at a stage's start, in order. */
export type Action =
  /** `low` lays it on the low end of the stack: on what is the bottom until the piece is turned over. */
  | { readonly do: 'pour'; readonly layer: Layer; readonly end?: 'low' | 'high' }
  /** A layer all over elementary faces of the body. */
  | { readonly do: 'coat'; readonly layer: Layer; readonly faces: readonly FaceName[] }
  /** One of `pieces` alike is followed from here on. */
  | { readonly do: 'cut'; readonly keep: readonly Keep[]; readonly pieces: number }
  | { readonly do: 'turn' }
  /** Names the change for the record; what it does to heat is in the stage's faces. */
  | { readonly do: 'cover' | 'uncover' | 'unmould' | 'move'; readonly title: string }

export interface Stage {
  readonly name: string
  readonly start: readonly Action[]
  /** For every elementary face of the body, and for `cut` once there are such faces. */
  readonly faces: Readonly<Record<FaceName, FaceCondition>>
  /** What the `air` curve shows during this stage, °C; with an appliance its own air does. */
  readonly air_C: Profile
  /** What the stage happens in, where its power is limited; law faces without an ambient of their own are in it. */
  readonly appliance?: StageAppliance
  /** What that appliance is and is judged by, for words. */
  readonly applianceFigures?: ApplianceFigures
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
  /** Cores within the fills. */
  readonly inserts?: readonly Insert[]
  readonly stages: readonly Stage[]
  readonly probes: readonly Probe[]
  /** Values that every place carries along, beside those of its material. */
  readonly states?: readonly StateLaw[]
  /** A job of the same shape, layers and symmetry, whose grids serve for this one. */
  readonly shapedLike?: Job
  /** Temperatures that the tables of its materials cover, °C; from its causes where left out. */
  readonly tables_C?: readonly [number, number]
}

/** Every layer that is ever part of a job's piece, in the order in which they come. */
export function layersOfJob(job: Job): Layer[] {
  const added = job.stages.flatMap((stage) =>
    stage.start.flatMap((action) => (action.do === 'pour' || action.do === 'coat' ? [action.layer] : [])),
  )
  return [...job.lining, ...job.fill, ...(job.inserts ?? []).map(({ layer }) => layer), ...added]
}
