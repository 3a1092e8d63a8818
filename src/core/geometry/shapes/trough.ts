import { fromMm } from '../../units.ts'
import { z } from '../../zod.ts'
import type { Body } from '../body.ts'
import { trough as coordinates } from '../coordinates/bowl.ts'
import { defineShape, length_mm, rounded_mm } from './definition.ts'
import { fitHalfRound, halfRoundAxes } from './half-round.ts'
import { keepAxes } from './keep-axes.ts'
import { lengthAxis } from './length-axis.ts'

interface TroughSize {
  /** m */
  readonly radius: number
  /** m */
  readonly length: number
  /** Whether the flat side is up at the start, as it is in the mould. */
  readonly flatUp?: boolean
}

/** Cells more along it than a bar has: within thirds of a per cent near its ends. */
const LENGTH_FINER = 1.5

/** A half-round bar with its ends: lined along the arc, filled level by level. */
export function wholeTrough({ radius, length, flatUp = true }: TroughSize): Body {
  const flat = flatUp ? 'top' : 'bottom'
  return {
    kind: 'trough',
    coordinates: coordinates({ radius, depth: radius }),
    axes: [...halfRoundAxes(radius, flat), { ...lengthAxis(length), finer: LENGTH_FINER }],
    stackAxis: 1,
    measure: 1,
    faces: { [flat]: [flat], curved: ['curved'], ends: ['front', 'back'] },
    invertedAtStart: !flatUp,
    fit: (wall, depths) => fitHalfRound(radius, wall, depths, coordinates),
  }
}

/** A half-round bar long enough that heat through its ends may be left out. */
export const troughBody = (size: TroughSize): Body => keepAxes(wholeTrough(size), (axis) => axis !== 2)

export const trough = defineShape({
  kind: 'trough',
  title: 'Half-round',
  fields: z
    .strictObject({
      kind: z.literal('trough'),
      radius_mm: length_mm,
      length_mm,
      flat: z
        .enum(['up', 'down'])
        .meta({ description: 'Where the flat side is at the start; up if left out.' })
        .exactOptional(),
    })
    .meta({ title: 'Half-round', description: 'A half-round bar, in its mould with the flat side up.' }),
  sizes: [
    { key: 'radius_mm', label: 'Radius', quantity: 'length', drawn: 'radius' },
    { key: 'length_mm', label: 'Length', quantity: 'length' },
  ],
  body: (shape) =>
    wholeTrough({
      radius: fromMm(shape.radius_mm),
      length: fromMm(shape.length_mm),
      flatUp: shape.flat !== 'down',
    }),
  like: ({ across, along }) => ({
    kind: 'trough' as const,
    radius_mm: rounded_mm(across / 2),
    length_mm: rounded_mm(along),
  }),
})
