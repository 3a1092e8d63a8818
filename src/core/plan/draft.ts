import type { Body } from '../geometry/body.ts'
import { shapeLike, wholeBody } from '../geometry/shapes/index.ts'
import { type Path, sayPath } from './path.ts'
import type { Plan, PlanShape } from './schema/plan.ts'

/** A value as far as it could be read: what is wrong is missing. */
export type Draft<T> = T extends string | number | boolean
  ? T
  : T extends readonly (infer Entry)[]
    ? readonly (Draft<Entry> | undefined)[]
    : { readonly [Key in keyof T]?: Draft<T[Key]> | undefined }

/** A plan whose form was checked, on its way to the checks that look at several fields at once. */
export interface DraftPlan {
  readonly plan: Draft<Plan>
  /** Whether a field, with all below it, is free of faults of form: only then its absence means anything. */
  whole(path: Path): boolean
  /** The shape's body; sizes that are missing or wrong are replaced by some, as only the faces count then. */
  readonly body: Body | undefined
  /** Whether the shape's sizes are the plan's own. */
  readonly sized: boolean
}

/** Size in place of one that is missing, m. */
const ROUGH = { across: 0.2, along: 0.2 }

/** A draft of what could be read, with the places that could not. */
export function draftOf(plan: Draft<Plan>, wrong: readonly Path[]): DraftPlan {
  const places = new Set(wrong.map((place) => sayPath(place)))
  const holders = new Set(wrong.flatMap((place) => place.map((_, depth) => sayPath(place.slice(0, depth)))))
  const whole = (path: Path): boolean =>
    !holders.has(sayPath(path)) && !path.some((_, depth) => places.has(sayPath(path.slice(0, depth + 1))))
  const kind = plan.piece?.shape?.kind
  const sized = whole(['piece', 'shape'])
  const given = Object.fromEntries(
    Object.entries(plan.piece?.shape ?? {}).filter(([key]) => whole(['piece', 'shape', key])),
  )
  const shape = kind === undefined ? undefined : ({ ...shapeLike(kind, ROUGH), ...given } as PlanShape)
  return { plan, whole, body: shape === undefined ? undefined : wholeBody(shape), sized }
}
