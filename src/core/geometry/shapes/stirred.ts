import { fromMm, toMm } from '../../units.ts'
import { z } from '../../zod.ts'
import type { Body } from '../body.ts'
import { upright } from '../coordinates/cylinder.ts'
import { defineShape, length_mm, type ShapeSize } from './definition.ts'
import { wholeTurn } from './round.ts'

interface StirredSize {
  /** m³ */
  readonly volume: number
  /** m, of the vessel; left out, it is as high as it is wide. */
  readonly diameter?: number | undefined
}

/** Diameter at which a mass is as high as it is wide, m. */
const usualDiameter = (volume: number): number => Math.cbrt((4 * volume) / Math.PI)

/** A mass stirred all the time in an upright vessel: one temperature within, heat through the vessel's faces. */
export function stirredBody({ volume, diameter = usualDiameter(volume) }: StirredSize): Body {
  const height = volume / ((Math.PI / 4) * diameter * diameter)
  return {
    kind: 'stirred',
    coordinates: upright,
    axes: [
      { carries: 'x', length: diameter / 2, low: null, high: 'sides', linedLow: false, linedHigh: false },
      { carries: 'y', length: height, low: 'bottom', high: 'top', linedLow: false, linedHigh: false },
      wholeTurn,
    ],
    stackAxis: null,
    measure: 1,
    faces: { bottom: ['bottom'], top: ['top'], sides: ['sides'] },
    mixed: true,
  }
}

const volumeSize: ShapeSize = { key: 'volume_L', label: 'Volume', quantity: 'volume' }
const diameterSize: ShapeSize = {
  key: 'diameter_mm',
  label: 'Diameter',
  quantity: 'length',
  drawn: 'across',
  fallback: 0,
}

export const stirred = defineShape({
  kind: 'stirred',
  title: 'Stirred vessel',
  fields: z
    .strictObject({
      kind: z.literal('stirred'),
      volume_L: z.number().gt(0).max(10_000).meta({ description: 'Volume of the mass, L.' }),
      diameter_mm: length_mm
        .meta({ description: 'Diameter of the vessel, mm; as wide as the mass is high if left out.' })
        .exactOptional(),
    })
    .meta({ title: 'Stirred vessel', description: 'Mixed all the time: one temperature throughout.' }),
  sizes: [volumeSize, diameterSize],
  sizesFor: ({ volume_L }) => [volumeSize, { ...diameterSize, fallback: toMm(usualDiameter(volume_L / 1000)) }],
  body: (shape) =>
    stirredBody({
      volume: shape.volume_L / 1000,
      diameter: shape.diameter_mm === undefined ? undefined : fromMm(shape.diameter_mm),
    }),
  like: ({ across }) => ({
    kind: 'stirred' as const,
    volume_L: Math.max(0.1, Math.round((across ** 3 * Math.PI * 1e4) / 4) / 10),
  }),
})
