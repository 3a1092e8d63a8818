import { buildBody } from '../../core/geometry/shapes/index.ts'
import { faceNamesOf } from '../../core/plan/face-names.ts'
import type { Plan, PlanAction, PlanShape } from '../../core/plan/schema.ts'

export type ShapeKind = PlanShape['kind']

/** One size of a shape that can be typed. */
export interface ShapeSize {
  readonly key: string
  readonly label: string
  readonly quantity: 'length' | 'area'
  /** Left out of the plan, this is what counts. */
  readonly fallback?: number
}

/** The sizes of each shape, in the order in which they are asked. */
export const shapeSizes: Readonly<Record<ShapeKind, readonly ShapeSize[]>> = {
  sheet: [{ key: 'area_m2', label: 'Area', quantity: 'area', fallback: 1 }],
  bar: [
    { key: 'width_mm', label: 'Width', quantity: 'length' },
    { key: 'length_mm', label: 'Length', quantity: 'length' },
  ],
  block: [
    { key: 'width_mm', label: 'Width', quantity: 'length' },
    { key: 'length_mm', label: 'Length', quantity: 'length' },
  ],
  round: [{ key: 'diameter_mm', label: 'Diameter', quantity: 'length' }],
  ball: [{ key: 'diameter_mm', label: 'Diameter', quantity: 'length' }],
}

/** Whether fill layers lie on each other; a ball has one fill, which takes what the lining leaves. */
export const stacks = (shape: PlanShape): boolean => buildBody(shape).stackAxis !== null

/** Names of the faces that may be covered or stand in a mould. */
export const faceNames = (shape: PlanShape): string[] => faceNamesOf(buildBody(shape))

/** Faces that a mould usually has: all but the open top. */
export function mouldFaces(shape: PlanShape): string[] {
  const names = faceNames(shape)
  if (names.includes('sides')) return ['bottom', 'sides']
  return names.filter((name) => name !== 'top' && name !== 'all')
}

/** Another shape of about the same size; layers stay, faces that the new shape doesn't have are let go. */
export function withShape(plan: Plan, kind: ShapeKind): Plan {
  if (plan.piece.shape.kind === kind) return plan
  const shape = shapeLike(plan.piece.shape, kind)
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

function withFaces(action: PlanAction, kept: (faces: string[]) => string[]): PlanAction {
  if ((action.do !== 'cover' && action.do !== 'uncover') || action.faces === undefined) return action
  const { faces, ...bare } = action
  const left = kept(faces)
  return left.length > 0 ? { ...bare, faces: left } : bare
}

function shapeLike(from: PlanShape, kind: ShapeKind): PlanShape {
  const across = 'width_mm' in from ? from.width_mm : 'diameter_mm' in from ? from.diameter_mm : 300
  const along = 'length_mm' in from ? from.length_mm : 600
  switch (kind) {
    case 'sheet':
      return { kind, area_m2: Math.max(0.01, Number(((across * along) / 1e6).toFixed(2))) }
    case 'bar':
    case 'block':
      return { kind, width_mm: across, length_mm: along }
    case 'round':
    case 'ball':
      return { kind, diameter_mm: across }
  }
}
