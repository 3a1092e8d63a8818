import { fromMm } from '../../units.ts'
import { z } from '../../zod.ts'
import type { Body } from '../body.ts'
import { dome as coordinates } from '../coordinates/bowl.ts'
import { defineShape, length_mm, rounded_mm } from './definition.ts'
import { fitHalfRound, halfRoundAxes } from './half-round.ts'

interface DomeSize {
  /** m */
  readonly radius: number
  /** Whether the flat side is up at the start, as in a bowl. */
  readonly flatUp?: boolean
}

/** A half ball: lined along its curved side, filled level by level. */
export function domeBody({ radius, flatUp = false }: DomeSize): Body {
  const flat = flatUp ? 'top' : 'bottom'
  return {
    kind: 'dome',
    coordinates: coordinates({ radius, depth: radius }),
    axes: halfRoundAxes(radius, flat),
    stackAxis: 1,
    measure: 1,
    faces: { curved: ['curved'], [flat]: [flat] },
    invertedAtStart: !flatUp,
    fit: (wall, depths) => fitHalfRound(radius, wall, depths, coordinates),
  }
}

export const dome = defineShape({
  kind: 'dome',
  title: 'Dome',
  fields: z
    .strictObject({
      kind: z.literal('dome'),
      radius_mm: length_mm,
      flat: z
        .enum(['up', 'down'])
        .meta({ description: 'Where the flat side is at the start: down, or up as in a bowl; down if left out.' })
        .exactOptional(),
    })
    .meta({ title: 'Dome', description: 'A half ball.' }),
  sizes: [{ key: 'radius_mm', label: 'Radius', quantity: 'length', drawn: 'radius' }],
  body: (shape) => domeBody({ radius: fromMm(shape.radius_mm), flatUp: shape.flat === 'up' }),
  like: ({ across }) => ({ kind: 'dome' as const, radius_mm: rounded_mm(across / 2) }),
})
