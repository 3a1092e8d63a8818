import type { Place } from './geometry/body.ts'
import type { IngredientMass, Look } from './materials/material.ts'
import type { Message } from './messages.ts'
import type { TimeBand } from './words/banded.ts'

export type Verdict = 'yes' | 'not yet' | 'no'

/** What is said to one target. Hours since the plan's start. */
export interface Answer {
  /** Kind of the target: `frozen`, `cooled`, `baked`, … */
  readonly target: string
  /** Index in the plan's targets. */
  readonly index: number
  readonly answer: Verdict
  /** Likely moment; absent when not reached within the plan. */
  readonly at_h?: number
  readonly early_h?: number
  readonly late_h?: number
  /** Asked moment minus the likely one; absent when nothing was asked or nothing reached. */
  readonly margin_h?: number
  /** Asked moment, hours since the start. */
  readonly by_h?: number
  /** The place that decides. */
  readonly where: Place
  readonly layer: string
  readonly why: Message
  /** The place that was first to get there, hours since the start; absent where there is none or nobody asked. */
  readonly first?: TimeBand & { readonly where: Place; readonly layer: string; readonly at_h: number }
  /** What was left out, what can't be known, and what happens afterwards. */
  readonly notes?: readonly Message[]
  /** The laws that it rests on, with their sources, in words. */
  readonly sources?: readonly string[]
}

/** What is said of one published rule. */
export interface RuleVerdict {
  readonly rule: string
  readonly title: string
  /** `open`: met by the likely course, not by the late one. */
  readonly answer: 'meets' | 'open' | 'does not meet' | 'not yet' | 'does not apply'
  /** One entry a step, at the worst place. */
  readonly steps: readonly {
    readonly from_C: number
    readonly to_C: number
    readonly within_h: number
    /** Whether the hours are those of a fall, or all time spent between the two. */
    readonly counts: 'fall' | 'inside'
    readonly taken_h?: number
    /** Used so far, where the step isn't done by the end of the plan. */
    readonly at_least_h?: number
    readonly early_h?: number
    readonly late_h?: number
    readonly outcome: 'pass' | 'fail' | 'pending' | 'not-started'
  }[]
  readonly worst: { readonly where: Place; readonly layer: string; readonly margin_h?: number }
  /**
   * The last place to come down to where a cooling rule ends, and what the rule says of it by its own hours; absent for
   * rules of another kind. Moment of coming down, or temperature at the end where it has not.
   */
  readonly slowest?: {
    readonly where: Place
    readonly layer: string
    readonly answer: RuleVerdict['answer']
    readonly margin_h?: number
    readonly down_h?: number
    readonly last_C?: number
    /** When it was laid on; absent where it was there from the start. */
    readonly laid_h?: number
  }
  /** A layer laid on later that needs no control itself, where it comes down after all that does: it keeps that warm. */
  readonly coat?: {
    readonly where: Place
    readonly layer: string
    readonly laid_h: number
    readonly down_h?: number
    readonly last_C?: number
  }
  /** What the rule says of the core alone, told beside the worst place. */
  readonly core: { readonly where: Place; readonly answer: RuleVerdict['answer']; readonly margin_h?: number }
  readonly why: Message
  /** How the clock was set, other readings of the rule, and the core where it isn't the worst place. */
  readonly notes: readonly Message[]
  readonly source: string
}

/** How far one organism may grow at its worst place. No verdict: no decision rests on such a figure. */
export interface GrowthReport {
  readonly organism: string
  readonly name: string
  /** Powers of ten, with the span that the length of the lag makes; absent where nothing was computed, `why` says it. */
  readonly log10?: number
  readonly low_log10?: number
  readonly high_log10?: number
  /** The same at the core. */
  readonly core_log10?: number
  /** What authorities or outbreaks speak of, powers of ten. */
  readonly yardstick_log10: number
  readonly where?: Place
  readonly layer?: string
  readonly why: Message
  readonly notes: readonly Message[]
  readonly source: string
}

/** Whether a mass made with raw egg is heated enough at the place that is heated least. */
export interface KillingReport {
  readonly target: string
  readonly title: string
  readonly answer: 'reached' | 'not reached' | 'not known' | 'no credit'
  /** Minutes at the target's temperature that the heating is worth, and powers of ten; absent where not credited. */
  readonly minutes?: number
  readonly log10?: number
  readonly where: Place
  readonly layer: string
  readonly why: Message
  /** What can't be known. */
  readonly notes: readonly Message[]
  readonly source: string
}

/** Whether a soft layer carries what lies on it at a moment. */
export interface CarriedReport extends TimeBand {
  readonly layer: string
  readonly title: string
  /** Something comes on it, it leaves its mould, or the plan ends. */
  readonly occasion: 'loaded' | 'unmoulded' | 'end'
  readonly at_h: number
  /** `warning`: told by weak figures, or carried by the likely ones and not by the low ones; no verdict. */
  readonly answer: 'carries' | 'gives way' | 'warning'
  /** The weakest place. */
  readonly where: Place
  /** What lies on its foot, itself included. */
  readonly load_Pa: number
  readonly modulus_Pa?: number
  /** Strength over load; 1 breaks. */
  readonly factor?: number
  /** Share of its height that a free column sags. */
  readonly sag?: number
  /** Height to which such a mass could stand free, by the likely, the low and the high figures of its law. */
  readonly standing_m?: number
  readonly low_standing_m?: number
  readonly high_standing_m?: number
  readonly why: Message
  readonly notes: readonly Message[]
  readonly source: string
}

/** What a fat coat does on the face that it meets. Warnings only: neither crystals nor cracks are computed. */
export interface CoatReport extends TimeBand {
  readonly title: string
  readonly at_h: number
  /** Face and coat when they meet, and where they touch. */
  readonly face_C: number
  readonly coat_C: number
  readonly contact_C: number
  readonly thickness_m: number
  /** Until the cold of the face alone has set it; absent where the face is too warm for that. */
  readonly setting_s?: number
  /** Relative humidity of the air from which on the face sweats. */
  readonly sweats_pct: number
  readonly why: Message
  readonly notes: readonly Message[]
  readonly source: string
}

/** A value over a stage. */
export interface Stretch {
  readonly start: number
  readonly end: number
  readonly low: number
  readonly high: number
}

/** What the surroundings of one stage did to the piece. Heat in J of the whole piece, positive into it. */
export interface StageReport {
  readonly stage: string
  /** Of the stage. */
  readonly index: number
  readonly faces: readonly {
    readonly face: string
    /** W/(m² K) of the air alone, or of the contact; absent where the face is held or insulated. */
    readonly film?: Stretch
    readonly heat_J: number
  }[]
  /** By its way; what a plan gives as one film counts as convection. */
  readonly heat_J: Readonly<Record<'convection' | 'radiation' | 'evaporation' | 'contact' | 'walls', number>>
  /** °C */
  readonly air_C?: Stretch
}

/** Whether an appliance copes with the piece in one stage. Hours since the plan's start unless said otherwise. */
export interface ApplianceReport {
  readonly stage: string
  /** Of the stage. */
  readonly index: number
  readonly title: string
  readonly answer: 'copes' | 'is overloaded'
  readonly set_C: number
  /** Beyond this it should not go, and whether beyond is above. */
  readonly limit_C: number
  readonly above: boolean
  /** Whose temperature is judged. */
  readonly followed: 'air' | 'goods'
  /** Furthest from the set point, with its band, and when. */
  readonly extreme_C: number
  readonly extreme_low_C?: number
  readonly extreme_high_C?: number
  readonly extreme_h: number
  /** How long beyond the limit, with its band, and when back for good; absent where it never is. */
  readonly beyond_h: number
  readonly beyond_low_h?: number
  readonly beyond_high_h?: number
  readonly back_h?: number
  /** Heat that its machine moved, MJ, and the share of its full power. */
  readonly energy_MJ: number
  readonly duty?: number
  /** What was put in, and what its maker says it freezes in a day. */
  readonly mass_kg?: number
  readonly rating_kg_24h?: number
  /** Heat asked of it in its busiest day, in kilograms of a maker's test load. */
  readonly asked_kg_24h?: number
  readonly why: Message
  readonly notes: readonly Message[]
}

/**
 * The section as a curvilinear grid of cells, symmetry expanded, ready to draw: x to the right, y upward, metres.
 * Nodes: (nu + 1) × (nv + 1), index = iv * (nu + 1) + iu. Cells: nu × nv, index = iv * nu + iu.
 */
export interface SectionGrid {
  readonly nu: number
  readonly nv: number
  readonly x_m: Float64Array
  readonly y_m: Float64Array
  /** Index into `SectionFilm.layers` of every cell; −1 where nothing is. Shape: nu × nv */
  readonly layer: Int16Array
  readonly width_m: number
  readonly height_m: number
}

export interface SectionLayer {
  readonly name: string
  readonly material: string
  readonly title: string
  readonly look: Look
}

/** Where the whole piece lies behind a section, which may show less of it. */
export interface SectionFrame {
  readonly left: number
  readonly bottom: number
  readonly width: number
  readonly height: number
  /** The piece lies upside down here, as against the start: shares upward count downward. */
  readonly turned: boolean
}

/** The fields of the section between two changes of its shape. */
export interface SectionFilm {
  readonly grid: SectionGrid
  /** Box to whose shares places refer, in the grid's coordinates, m. */
  readonly frame: SectionFrame
  readonly layers: readonly SectionLayer[]
  /** Shape: frames */
  readonly times_h: readonly number[]
  /** °C. Shape: frames × (nu × nv) */
  readonly T_C: readonly Float32Array[]
  /** Height of the piece at each frame, m, where a batter makes it rise; the grid shows it as poured. Shape: frames */
  readonly risen_m?: readonly number[]
  /** Hours between 5 and 60 °C up to the last frame. Shape: nu × nv */
  readonly danger_h: Float32Array
  /** How far each cell has set by its laws, and how much of its water is ice, %. Shape: frames × (nu × nv) */
  readonly set_pct: readonly Float32Array[]
  readonly ice_pct: readonly Float32Array[]
  /** Layers of which no law tells whether they set; shown as not set. */
  readonly setUnknown: readonly string[]
  /** Most that any organism may have grown up to the end, powers of ten; the finished piece only. Shape: nu × nv */
  readonly growth_log10?: Float32Array
  /** The same in other cuts, where heat is followed in all three directions. */
  readonly others?: Readonly<Record<'along' | 'level', SectionFilm>>
}

/** What baking makes of the whole piece by the end of the plan. */
export interface BakedQuantity {
  /** Without the water that has boiled out. */
  readonly mass_kg: number
  readonly water_lost_kg: number
  /** Of what was poured, %. */
  readonly water_lost_pct: number
  /** Height as poured, and as risen; absent where the shape doesn't let it rise. */
  readonly poured_m?: number
  readonly risen_m?: number
}

export interface LayerQuantity {
  readonly name: string
  readonly material: string
  readonly title: string
  readonly thickness_m: number | null
  readonly volume_m3: number
  readonly mass_kg: number
  /** What goes into it; only of a recipe. */
  readonly ingredients?: readonly IngredientMass[]
}

/** The computed course with its answers: what window, command line and sheet show. Everything in SI, hours and °C. */
export interface Forecast {
  readonly title: string
  readonly model: {
    readonly dimensions: number
    readonly cells: number
    readonly steps: number
    readonly wall_ms: number
    readonly energyResidual: number
    readonly fidelity: 'quick' | 'standard' | 'fine'
    /** `carried`: as wide as they were before a number of the plan was changed. */
    readonly bands: 'own' | 'carried' | 'sampled'
    /** Pieces that were sampled for them. */
    readonly sampled_runs?: number
    /** Estimated error of the curves from two grids, K: root mean square and largest. */
    readonly error_K: { readonly mean: number; readonly largest: number }
    readonly notes: readonly Message[]
  }
  /** Straight lines between these moments stay within 0.05 K of the computed course. */
  readonly times_h: readonly number[]
  /** `core`, `surface`, `mean`, `air`, `probe:<name>`, °C; NaN never occurs: a probe begins when its layer is there (null before). */
  readonly curves: Readonly<Record<string, readonly (number | null)[]>>
  /** Early-to-late envelope of the curves that have one, °C. */
  readonly bands: Readonly<
    Record<string, { readonly low: readonly (number | null)[]; readonly high: readonly (number | null)[] }>
  >
  readonly stages: readonly {
    readonly name: string
    readonly from_h: number
    readonly to_h: number
    /** Where its end depends on what is uncertain. */
    readonly to_early_h?: number
    readonly to_late_h?: number
    /** How long it may last, where that too depends on it. */
    readonly lasts_early_h?: number
    readonly lasts_late_h?: number
    readonly endedBy: 'after_h' | 'target' | 'core_C' | 'surface_C' | 'mean_C' | 'probe' | 'clock' | 'max_h'
  }[]
  readonly answers: readonly Answer[]
  readonly safety: readonly RuleVerdict[]
  /** Growth of each organism at its worst place; figures beside the rules, never in their stead. */
  readonly growth: readonly GrowthReport[]
  /** One entry for each kind of raw egg in the piece. */
  readonly killing: readonly KillingReport[]
  /** What soft layers carry: when something comes on them, when they leave their mould, and at the end. */
  readonly carried: readonly CarriedReport[]
  /** One entry for each coat of fat or chocolate that is poured on. */
  readonly coats: readonly CoatReport[]
  /** What the surroundings of each stage did to the piece. */
  readonly surroundings: readonly StageReport[]
  /** One entry for each stage in an appliance whose power is limited. */
  readonly appliances: readonly ApplianceReport[]
  readonly danger: {
    readonly low_C: number
    readonly high_C: number
    /** Longest stay of any place, and of the core. */
    readonly longest_h: number
    readonly where: Place
    readonly layer: string
    readonly core_h: number
    readonly longest_early_h?: number
    readonly longest_late_h?: number
    readonly core_early_h?: number
    readonly core_late_h?: number
  }
  readonly core: { readonly where: Place; readonly layer: string; readonly depth_m: number }
  readonly cautions: readonly Message[]
  readonly quantities: {
    readonly mass_kg: number
    readonly volume_m3: number
    readonly layers: readonly LayerQuantity[]
    /** Heat that left (negative: entered), MJ. */
    readonly heat_MJ: number
    /** kg/m² on the shelf under the piece's footprint. */
    readonly shelf_kg_m2: number
    /** Water that open surfaces gave off below boiling, and that settled on them from the air, kg. */
    readonly evaporated_kg?: number
    readonly condensed_kg?: number
    /** Where something of the piece bakes. */
    readonly baked?: BakedQuantity
  }
  readonly film: readonly SectionFilm[]
}

/** A course before its bands are computed: curves and stages, nothing that is told of a moment. */
export interface LikelyCourse extends Pick<Forecast, 'times_h' | 'curves'> {
  readonly stages: readonly Pick<Forecast['stages'][number], 'name' | 'from_h' | 'to_h'>[]
  readonly danger: Pick<Forecast['danger'], 'low_C' | 'high_C'>
}
