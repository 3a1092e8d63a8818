import type { Body, FaceName } from '../geometry/body.ts'
import type { Draft } from './draft.ts'
import { facesCoveredFirst, facesNamed } from './face-names.ts'
import type { PlanAction } from './schema.ts'

/** A cover as the plan names it. */
export interface Cover {
  readonly with: string
  readonly thickness_mm?: number
}

/** What lies on the piece's faces at a moment of the plan. */
export interface Wrapping {
  readonly moulded: boolean
  readonly covers: ReadonlyMap<FaceName, Cover>
}

/** Why an action can't be done on what is there. */
export type Obstacle =
  | { readonly kind: 'covered already' | 'not covered'; readonly faces: readonly FaceName[] }
  | { readonly kind: 'no mould' }

/** The faces that an action is about. */
export function facesOf(action: Draft<PlanAction>, wrapping: Wrapping, body: Body): readonly FaceName[] {
  if (action.do !== 'cover' && action.do !== 'uncover') return []
  const named = action.faces?.filter((name) => name !== undefined)
  if (named !== undefined) return facesNamed(body, named)
  return action.do === 'cover' ? facesCoveredFirst(body) : [...wrapping.covers.keys()]
}

/** What lies on the faces after an action, and what stood in its way. */
export function wrapped(
  wrapping: Wrapping,
  action: Draft<PlanAction>,
  body: Body,
): { readonly wrapping: Wrapping; readonly obstacle?: Obstacle } {
  const faces = facesOf(action, wrapping, body)
  if (action.do === 'cover') {
    const again = faces.filter((face) => wrapping.covers.has(face))
    if (again.length > 0) return { wrapping, obstacle: { kind: 'covered already', faces: again } }
    const { thickness_mm } = action
    const cover = { with: action.with ?? '', ...(thickness_mm === undefined ? {} : { thickness_mm }) }
    const covers = new Map([...wrapping.covers, ...faces.map((face) => [face, cover] as const)])
    return { wrapping: { ...wrapping, covers } }
  }
  if (action.do === 'uncover') {
    const bare = faces.filter((face) => !wrapping.covers.has(face))
    if (bare.length > 0 || faces.length === 0) return { wrapping, obstacle: { kind: 'not covered', faces: bare } }
    return {
      wrapping: { ...wrapping, covers: new Map([...wrapping.covers].filter(([face]) => !faces.includes(face))) },
    }
  }
  if (action.do === 'unmould') {
    if (!wrapping.moulded) return { wrapping, obstacle: { kind: 'no mould' } }
    return { wrapping: { ...wrapping, moulded: false } }
  }
  return { wrapping }
}
