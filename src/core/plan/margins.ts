import { type Body, elementaryFaces, type FaceName } from '../geometry/body.ts'
import type { Draft } from './draft.ts'
import { facesNamed } from './face-names.ts'
import type { PlanInsert } from './schema/plan.ts'

/** What of a fill is left on each side of an insert, mm, by elementary face; of several names the narrowest counts. */
export function marginsOf(body: Body, margin_mm: Draft<PlanInsert>['margin_mm']): Readonly<Record<FaceName, number>> {
  if (margin_mm === undefined) return {}
  if (typeof margin_mm === 'number') return Object.fromEntries(elementaryFaces(body).map((face) => [face, margin_mm]))
  return Object.fromEntries(
    Object.entries(margin_mm)
      .map(([name, mm]) => ({ mm, faces: facesNamed(body, [name]) }))
      .sort((a, b) => b.faces.length - a.faces.length)
      .flatMap(({ mm, faces }) => (mm === undefined ? [] : faces.map((face) => [face, mm] as const))),
  )
}
