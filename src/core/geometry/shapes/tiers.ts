import { fromMm } from '../../units.ts'
import { z } from '../../zod.ts'
import type { Body } from '../body.ts'
import { defineShape, length_mm, rounded_mm, type ShapeSize, type SizeFault } from './definition.ts'
import { roundBody } from './round.ts'

interface TierSize {
  /** m */
  readonly diameter: number
  /** m; of the uppermost one it is what the layers leave. */
  readonly height?: number | undefined
}

/** Rounds on each other about one upright axis, lowest first; layers go through all of them from the bottom up. */
export function tiersBody(sizes: readonly TierSize[]): Body {
  const widest = Math.max(...sizes.map(({ diameter }) => diameter))
  const round = roundBody({ diameter: widest })
  return {
    ...round,
    kind: 'tiers',
    tiers: sizes.map(({ diameter, height = 0 }) => ({ reach: diameter / 2, height })),
  }
}

const tier = z.strictObject({
  diameter_mm: length_mm,
  height_mm: length_mm
    .meta({ description: 'Height, mm; left out of the uppermost tier, which takes what the layers leave.' })
    .exactOptional(),
})

const MOST_TIERS = 8
/** Height of a tier that nobody has sized yet, mm. */
const NEW_HEIGHT_MM = 40

/** Sizes of so many tiers, lowest first. */
const sizesOf = (count: number): ShapeSize[] =>
  Array.from({ length: count }, (_, index): ShapeSize[] => [
    {
      key: `tiers[${index}].diameter_mm`,
      label: `Diameter, tier ${index + 1}`,
      quantity: 'length',
      drawn: { tier: index },
    },
    ...(index < count - 1
      ? [{ key: `tiers[${index}].height_mm`, label: `Height, tier ${index + 1}`, quantity: 'length' } as const]
      : []),
  ]).flat()

export const tiers = defineShape({
  kind: 'tiers',
  title: 'Tiers',
  fields: z
    .strictObject({
      kind: z.literal('tiers'),
      tiers: z.array(tier).min(1).max(MOST_TIERS).meta({ description: 'Rounds on each other, lowest first.' }),
    })
    .meta({
      title: 'Tiers',
      description: 'Upright rounds on each other about one axis; layers go from the bottom up.',
    }),
  sizes: sizesOf(3),
  sizesFor: (shape) => sizesOf(shape.tiers.length),
  several: {
    title: 'Tier',
    most: MOST_TIERS,
    count: ({ tiers: all }) => all.length,
    withOneMore: (shape) => {
      const { diameter_mm } = shape.tiers[shape.tiers.length - 1]!
      const below = shape.tiers.map((one) => ({ ...one, height_mm: one.height_mm ?? NEW_HEIGHT_MM }))
      return { ...shape, tiers: [...below, { diameter_mm: Math.max(1, Math.round(diameter_mm * 0.7)) }] }
    },
    without: (shape, index) => {
      const left = shape.tiers.filter((_, i) => i !== index)
      return {
        ...shape,
        tiers: left.map(({ diameter_mm, height_mm }, i) =>
          i === left.length - 1 ? { diameter_mm } : { diameter_mm, height_mm: height_mm ?? NEW_HEIGHT_MM },
        ),
      }
    },
  },
  faults: ({ tiers: all }) =>
    all.flatMap(({ height_mm }, index): SizeFault[] => {
      const key = `tiers[${index}].height_mm`
      const last = index === all.length - 1
      if (last && height_mm !== undefined)
        return [
          { key, problem: 'is not asked', remedy: 'leave it out: the uppermost tier takes what the layers leave' },
        ]
      return last || height_mm !== undefined ? [] : [{ key, problem: 'is missing', remedy: 'give it in mm' }]
    }),
  body: (shape) =>
    tiersBody(
      shape.tiers.map(({ diameter_mm, height_mm }) => ({
        diameter: fromMm(diameter_mm),
        height: height_mm === undefined ? undefined : fromMm(height_mm),
      })),
    ),
  like: ({ across }) => ({
    kind: 'tiers' as const,
    tiers: [
      { diameter_mm: rounded_mm(across), height_mm: 40 },
      { diameter_mm: rounded_mm(across * 0.7), height_mm: 40 },
      { diameter_mm: rounded_mm(across * 0.4) },
    ],
  }),
})
