import type { Answer } from '../forecast-types.ts'
import type { Course } from '../journey/course.ts'

interface Asked {
  /** Place in the plan's list of targets. */
  readonly index: number
  /** Seconds after the start by which it must be so; absent: any time within the plan. */
  readonly by?: number
}

/** What is asked of layers that set; `material` narrows it to layers of one material. */
interface OfSetting extends Asked {
  readonly material?: string
}

/** What a plan asks of the piece, temperatures of the last place to get there. */
export type Target =
  | (Asked & { readonly kind: 'cooled'; readonly core_C: number })
  | (Asked & { readonly kind: 'frozen'; readonly core_C: number })
  | (Asked & {
      readonly kind: 'baked'
      readonly core_C: number /** Upper end of the window. */
      readonly most_C?: number
    })
  | (OfSetting & { readonly kind: 'set' })
  | (OfSetting & { readonly kind: 'unmould' })
  | (OfSetting & { readonly kind: 'cut' })
  | (OfSetting & { readonly kind: 'stay' })
  | (Asked & { readonly kind: 'coat'; readonly core_C?: number; readonly humidity_pct?: number })
  | (Asked & { readonly kind: 'edge' /** m */; readonly most?: number })

export type TargetKind = Target['kind']
export type TargetOf<Kind extends TargetKind> = Extract<Target, { readonly kind: Kind }>

/** Answers targets of one kind from a computed course. */
export type Judge<Kind extends TargetKind> = (target: TargetOf<Kind>, course: Course) => Answer
