import { type Body, elementaryFaces, endOf, type FaceName, topOf } from '../geometry/body.ts'
import { CUT_FACE } from '../geometry/form.ts'
import type { Keep } from '../journey/job.ts'
import { type CutWish, keepsOf } from './cutting.ts'
import type { Draft } from './draft.ts'
import { facesCoveredFirst, facesNamed } from './face-names.ts'
import type { PlanAction } from './schema/plan.ts'

/** A cover as the plan names it. */
export interface Cover {
  readonly with: string
  readonly thickness_mm?: number
  readonly gap_mm?: number
  readonly start_C?: number
}

export type StandOn = Extract<PlanAction, { do: 'stand' }>['on']

/** What the piece stands on, where the plan says so. */
export interface Stand {
  readonly on: StandOn
  readonly board_mm?: number
  readonly board?: string
  readonly start_C?: number
}

/** What lies on the piece's faces at a moment of the plan, and how it lies. Faces by their elementary names. */
export interface Wrapping {
  readonly moulded: boolean
  readonly covers: ReadonlyMap<FaceName, Cover>
  /** Upside down, as against the start. */
  readonly turned: boolean
  readonly stand: Stand | null
  /** What was cut, by axis; empty while the piece is whole. */
  readonly cut: readonly Keep[]
}

export const startWrapping = (moulded: boolean): Wrapping => ({
  moulded,
  covers: new Map(),
  turned: false,
  stand: null,
  cut: [],
})

/** What a piece is wrapped in where the plan doesn't say. */
const WRAP = 'film'

/** Why an action can't be done on what is there. */
export type Obstacle =
  | { readonly kind: 'covered already' | 'not covered' | 'under a cover'; readonly faces: readonly FaceName[] }
  | { readonly kind: 'no mould' | 'in its mould' | 'no top' | 'alike' | 'no bottom' | 'cut already' | 'stirred' }
  | { readonly kind: 'no such cut'; readonly can: readonly string[] }

/** The body as it lies: names of faces are those of the plan at that moment, cut faces among them. */
export function bodyAs(body: Body, { turned, cut }: Pick<Wrapping, 'turned' | 'cut'>): Body {
  if (!turned && cut.length === 0) return body
  const { top, bottom, ...others } = body.faces
  const upright = turned ? { top: bottom, bottom: top } : { top, bottom }
  const faces: Record<FaceName, readonly FaceName[]> = { ...others }
  for (const [name, own] of Object.entries(upright)) if (own !== undefined) faces[name] = own
  if (cut.length === 0) return { ...body, faces }
  faces[CUT_FACE] = [CUT_FACE]
  if (faces.sides !== undefined) faces.sides = [...faces.sides, CUT_FACE]
  const axes = body.axes.map((axis, index) => {
    const keep = cut.find((one) => one.axis === index)
    if (keep === undefined) return axis
    const { idle, ...whole } = axis
    const end = (face: FaceName | null): FaceName | null => (idle === true ? null : face)
    return {
      ...whole,
      low: keep.low > 0 ? CUT_FACE : end(axis.low),
      high: keep.high < 1 ? CUT_FACE : end(axis.high),
    }
  })
  return { ...body, axes, faces }
}

/** Which film coefficient of the surroundings a face takes as the piece lies: upright and round faces count as sides. */
export function sideAs(body: Body, face: FaceName, { stand }: Pick<Wrapping, 'stand'>): 'top' | 'bottom' | 'sides' {
  if (body.faces.top?.includes(face)) return 'top'
  if (!body.faces.bottom?.includes(face)) return 'sides'
  // On spacers the air goes round below as it does at the sides.
  return stand?.on === 'spacers' ? 'sides' : 'bottom'
}

/** The faces that an action is about, on the body as it lies. */
export function facesOf(action: Draft<PlanAction>, wrapping: Wrapping, lying: Body): readonly FaceName[] {
  if (action.do === 'wrap') return elementaryFaces(lying)
  if (action.do !== 'cover' && action.do !== 'uncover' && action.do !== 'coat') return []
  const named = action.faces?.filter((name) => name !== undefined)
  if (named !== undefined) return facesNamed(lying, named)
  if (action.do === 'coat') {
    const below = lying.faces.bottom ?? []
    return elementaryFaces(lying).filter((face) => !below.includes(face))
  }
  return action.do === 'cover' ? facesCoveredFirst(lying) : [...wrapping.covers.keys()]
}

/** The end of the stack that is up as the piece lies; null where nothing can be laid on it. */
export function upperEnd(body: Body, { turned }: Pick<Wrapping, 'turned'>): 'low' | 'high' | null {
  if (body.stackAxis === null) return null
  const { low, high } = body.axes[body.stackAxis]!
  const top = topOf(body)
  const up = turned ? (top === high ? low : high) : top
  if (up === null) return null
  return endOf(body, up)?.end ?? null
}

interface Outcome {
  readonly wrapping: Wrapping
  readonly obstacle?: Obstacle
}

/**
 * What lies on the faces after an action, and what stood in its way.
 * @param body  as it lay at the start
 */
export function wrapped(wrapping: Wrapping, action: Draft<PlanAction>, body: Body): Outcome {
  const lying = bodyAs(body, wrapping)
  const faces = facesOf(action, wrapping, lying)
  const refuse = (obstacle: Obstacle): Outcome => ({ wrapping, obstacle })
  switch (action.do) {
    case 'cover': {
      const again = faces.filter((face) => wrapping.covers.has(face))
      if (again.length > 0) return refuse({ kind: 'covered already', faces: again })
      const { thickness_mm, gap_mm, start_C } = action
      const cover = {
        with: action.with ?? '',
        ...(thickness_mm === undefined ? {} : { thickness_mm }),
        ...(gap_mm === undefined ? {} : { gap_mm }),
        ...(start_C === undefined ? {} : { start_C }),
      }
      return {
        wrapping: {
          ...wrapping,
          covers: new Map([...wrapping.covers, ...faces.map((face) => [face, cover] as const)]),
        },
      }
    }
    case 'wrap': {
      const bare = faces.filter((face) => !wrapping.covers.has(face))
      if (bare.length === 0) return refuse({ kind: 'covered already', faces })
      const { thickness_mm } = action
      const cover = { with: action.with ?? WRAP, ...(thickness_mm === undefined ? {} : { thickness_mm }) }
      return {
        wrapping: {
          ...wrapping,
          covers: new Map([...wrapping.covers, ...bare.map((face) => [face, cover] as const)]),
        },
      }
    }
    case 'uncover': {
      const bare = faces.filter((face) => !wrapping.covers.has(face))
      if (bare.length > 0 || faces.length === 0) return refuse({ kind: 'not covered', faces: bare })
      const covers = new Map([...wrapping.covers].filter(([face]) => !faces.includes(face)))
      return { wrapping: { ...wrapping, covers } }
    }
    case 'unmould':
      if (!wrapping.moulded) return refuse({ kind: 'no mould' })
      return { wrapping: { ...wrapping, moulded: false } }
    case 'pour':
    case 'place':
      if (upperEnd(body, wrapping) === null) return refuse({ kind: 'no top' })
      if ((lying.faces.top ?? []).some((face) => wrapping.covers.has(face)))
        return refuse({ kind: 'under a cover', faces: ['top'] })
      return { wrapping }
    case 'coat': {
      if (body.mixed === true) return refuse({ kind: 'stirred' })
      if (wrapping.moulded) return refuse({ kind: 'in its mould' })
      const under = faces.filter((face) => wrapping.covers.has(face))
      return under.length > 0 ? refuse({ kind: 'under a cover', faces: under }) : { wrapping }
    }
    case 'turn':
      if (body.stackAxis === null) return refuse({ kind: 'alike' })
      return { wrapping: { ...wrapping, turned: !wrapping.turned, stand: null } }
    case 'stand': {
      if (lying.faces.bottom === undefined) return refuse({ kind: 'no bottom' })
      const { on = 'shelf', board_mm, board, start_C } = action
      const stand: Stand = {
        on,
        ...(board_mm === undefined ? {} : { board_mm }),
        ...(board === undefined ? {} : { board }),
        ...(start_C === undefined ? {} : { start_C }),
      }
      return { wrapping: { ...wrapping, stand } }
    }
    case 'cut': {
      if (wrapping.moulded) return refuse({ kind: 'in its mould' })
      if (wrapping.cut.length > 0) return refuse({ kind: 'cut already' })
      const { keeps, cannot } = keepsOf(body, action as CutWish)
      if (cannot.length > 0) return refuse({ kind: 'no such cut', can: cutsPossible(body) })
      return { wrapping: { ...wrapping, cut: keeps } }
    }
    default:
      return { wrapping }
  }
}

/** Ways in which a body can be cut, in the plan's words. */
export const cutsPossible = (body: Body): string[] => [
  ...new Set(
    body.axes.flatMap(({ cuts }) =>
      cuts === undefined || body.mixed === true ? [] : cuts === 'along' ? ['along', 'slice_mm'] : [cuts],
    ),
  ),
]
