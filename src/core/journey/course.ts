import type { Place } from '../geometry/body.ts'
import type { Mesh } from '../geometry/mesh.ts'
import type { AroundCourse } from './around.ts'

/** A stage as it went. Seconds since the start of the plan. */
export interface StageSpan {
  readonly name: string
  readonly from: number
  readonly to: number
  readonly endedBy: 'after' | 'met' | 'core' | 'surface' | 'mean' | 'place' | 'clock' | 'max'
  /** Samples of the course that belong to it; the first stands at `from`, after what was done at the start. */
  readonly first: number
  readonly last: number
}

/** The fields between two changes of the piece. Sample i of the course belongs to it when first <= i <= last. */
export interface Segment {
  readonly mesh: Mesh
  /** Whether the piece lies upside down, as against the start. */
  readonly turned: boolean
  readonly first: number
  readonly last: number
  /** °C of every cell, one array a sample. Shape: samples × cells */
  readonly T_C: readonly Float64Array[]
  /** °C of every boundary cell's outer face, one array a sample. Shape: samples × mesh.boundary.length */
  readonly surface_C: readonly Float64Array[]
  /**
   * Values that cells carry along, by name: `set` (0 to 1), `dried` (share of the water that boils out which has),
   * `growth` (volume over volume as poured), `solidFat` (0 to 1), and those of state laws; NaN where a cell has none of
   * that name. Shape of each: samples × cells
   */
  readonly states: Readonly<Record<string, readonly Float64Array[]>>
}

/** One place of the piece followed through the whole course. */
export interface PlaceHistory {
  readonly where: Place
  /** Layer's name in the plan. */
  readonly layer: string
  /** m³ of the whole piece for which this place stands. */
  readonly volume: number
  /** Seconds since the start; begins when the layer is poured. Shape: samples */
  readonly t: Float64Array
  /** °C. Shape: samples */
  readonly T_C: Float64Array
  /** Values that this place carries along, by name. Shape of each: samples */
  readonly states: Readonly<Record<string, Float64Array>>
}

/**
 * A computed journey. `t` holds the end of every accepted step; a moment at which something was done appears twice,
 * before and after. All temperatures °C.
 */
export interface Course {
  readonly t: Float64Array
  readonly stages: readonly StageSpan[]
  readonly segments: readonly Segment[]
  /** Volume mean. Shape: as t */
  readonly mean_C: Float64Array
  /** Area mean of the outer faces. Shape: as t */
  readonly surface_C: Float64Array
  readonly air_C: Float64Array
  readonly hottest_C: Float64Array
  readonly coldest_C: Float64Array
  /** Where the hottest and the coldest place are at each sample. */
  hottestAt(sample: number): Place
  coldestAt(sample: number): Place
  /** The temperature of one place at every sample; NaN before it exists. Shape: as t */
  follow(place: Place): Float64Array
  /** Every cell of the final piece through time. */
  places(): readonly PlaceHistory[]
  /** Layer's name and depth below the nearest face, for words. */
  describe(place: Place): { readonly layer: string; readonly depth: number }
  /** Heat that entered through each elementary face up to each sample, J of the whole piece. */
  readonly heatThrough: Readonly<Record<string, Float64Array>>
  /**
   * Heat that entered since the start less what vapour carried off, J of the whole piece; what layers brought along is
   * left out. Shape: as t
   */
  readonly heat: Float64Array
  /** Heat that vapour has carried off since the start, J of the whole piece; part of what entered. Shape: as t */
  readonly vapourHeat: Float64Array
  /** Water that has boiled out or evaporated since the start, less what settled, kg of the whole piece. Shape: as t */
  readonly waterLost: Float64Array
  /** Height of the piece, m, where a batter may make it rise; absent elsewhere. Shape: as t */
  readonly height?: Float64Array
  /** Films, ways of the heat, water of the surfaces and appliances; absent where all faces are simply given. */
  readonly around?: AroundCourse
  /** |stored − entered + carried off by vapour| / heat moved, of the piece or of its appliances, whichever is more. */
  readonly energyResidual: number
  readonly steps: number
  readonly cells: number
}
