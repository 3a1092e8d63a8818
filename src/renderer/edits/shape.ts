import { buildBody, roughSizeOf, shapeLike } from '../../core/geometry/shapes/index.ts'
import { faceNamesOf } from '../../core/plan/face-names.ts'
import type { Plan, PlanAction, PlanShape } from '../../core/plan/schema/plan.ts'

export type ShapeKind = PlanShape['kind']

export type { ShapeSize } from '../../core/geometry/shapes/definition.ts'

/** Whether fill layers lie on each other; a ball, a log and a vessel have one fill, which takes what is left. */
export const stacks = (shape: PlanShape): boolean => buildBody(shape).stackAxis !== null

/** Whether a fill without thickness takes what the other layers leave. */
export const takesRest = (shape: PlanShape): boolean => !stacks(shape) || canLieEitherWay(shape)

/** Names of the faces that may be covered or stand in a mould. */
export const faceNames = (shape: PlanShape): string[] => faceNamesOf(buildBody(shape))

/** Faces that a mould usually has: all but the open top. */
export function mouldFaces(shape: PlanShape): string[] {
  const names = faceNames(shape)
  if (names.includes('sides')) return names.filter((name) => ['bottom', 'sides', 'inner'].includes(name))
  return names.filter((name) => name !== 'top' && name !== 'all')
}

/** Another shape of about the same size; layers stay, faces that the new shape doesn't have are let go. */
export function withShape(plan: Plan, kind: ShapeKind): Plan {
  if (plan.piece.shape.kind === kind) return plan
  const shape = shapeLike(kind, roughSizeOf(plan.piece.shape))
  const fill = stacks(shape)
    ? plan.piece.fill.map((layer) => ({ ...layer, thickness_mm: layer.thickness_mm ?? 60 }))
    : plan.piece.fill.slice(0, 1).map(({ thickness_mm: _, ...layer }) => layer)
  const known = new Set(faceNames(shape))
  const kept = (faces: string[]): string[] => faces.filter((face) => known.has(face))
  const mould = (plan.piece.mould ?? []).map((wall) => {
    const faces = kept(wall.faces)
    return { ...wall, faces: faces.length > 0 ? faces : mouldFaces(shape) }
  })
  const stages = plan.stages.map((stage) => {
    if (stage.start === undefined) return stage
    return { ...stage, start: stage.start.map((action) => withFaces(action, kept)) }
  })
  return { ...plan, piece: { ...plan.piece, shape, fill, ...(plan.piece.mould ? { mould } : {}) }, stages }
}

/** The other way up at the start; what was said of the flat face stays said of it. */
export function withFlat(plan: Plan, flat: 'up' | 'down'): Plan {
  const { shape } = plan.piece
  if (!canLieEitherWay(shape) || flatOf(shape) === flat) return plan
  const { flat: _, ...bare } = shape
  const turned = { ...bare, ...(flat === usualFlat(shape) ? {} : { flat }) }
  const [from, to] = flat === 'up' ? ['bottom', 'top'] : ['top', 'bottom']
  const renamed = (faces: string[]): string[] => faces.map((face) => (face === from ? to : face))
  const mould = plan.piece.mould?.map((wall) => ({ ...wall, faces: renamed(wall.faces) }))
  const stages = plan.stages.map((stage) => ({
    ...stage,
    in:
      typeof stage.in === 'string' || stage.in.faces === undefined
        ? stage.in
        : {
            ...stage.in,
            faces: Object.fromEntries(
              Object.entries(stage.in.faces).map(([face, of]) => [face === from ? to : face, of]),
            ),
          },
    ...(stage.start === undefined ? {} : { start: stage.start.map((action) => withFaces(action, renamed)) }),
  }))
  return { ...plan, piece: { ...plan.piece, shape: turned, ...(mould === undefined ? {} : { mould }) }, stages }
}

type EitherWay = Extract<PlanShape, { kind: 'trough' | 'dome' }>

/** Whether the shape has a flat side that may be up or down. */
export const canLieEitherWay = (shape: PlanShape): shape is EitherWay =>
  shape.kind === 'trough' || shape.kind === 'dome'

const usualFlat = ({ kind }: EitherWay): 'up' | 'down' => (kind === 'trough' ? 'up' : 'down')

/** Where the flat side is at the start. */
export const flatOf = (shape: EitherWay): 'up' | 'down' => shape.flat ?? usualFlat(shape)

function withFaces(action: PlanAction, kept: (faces: string[]) => string[]): PlanAction {
  if (!('faces' in action) || action.faces === undefined) return action
  const { faces, ...bare } = action
  const left = kept(faces)
  return left.length > 0 ? { ...bare, faces: left } : bare
}
