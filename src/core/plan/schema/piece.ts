import { length_mm } from '../../geometry/shapes/definition.ts'
import { shapeFields } from '../../geometry/shapes/index.ts'
import { z } from '../../zod.ts'
import { faceNames, finite, id, name, share, temperature } from './values.ts'

/* The piece: its shape, what it is filled with, what it lies in. */

export const layer = z.strictObject({
  material: id.meta({ description: "Name of a built-in material, or of one of the plan's own." }),
  thickness_mm: length_mm
    .meta({ description: 'Thickness, mm; left out only where the layer takes all that the lining leaves.' })
    .exactOptional(),
  start_C: temperature.meta({ description: 'Temperature when it is poured or laid, °C.' }),
})

export const shape = z
  .discriminatedUnion('kind', shapeFields)
  .meta({ title: 'Shape', description: 'Outer shape; its height is the sum of the layers.' })

const margin_mm = finite.min(0).max(10_000)
export const insert = z
  .strictObject({
    material: id.meta({ description: "Name of a built-in material, or of one of the plan's own." }),
    start_C: temperature.meta({ description: 'Temperature when it is laid in, °C.' }),
    within: finite
      .min(0)
      .max(11)
      .multipleOf(1)
      .meta({ description: 'Which fill it lies in, from 0 for the lowest; the lowest if left out.' })
      .exactOptional(),
    margin_mm: z.union([margin_mm, z.record(name, margin_mm)]).meta({
      description:
        'What of the fill is left between it and the border of the fill, mm: on every side, or by face; none on a face left out.',
    }),
  })
  .meta({ title: 'Insert', description: 'A core of another material within a fill.' })

const mouldWall = z.strictObject({
  faces: faceNames,
  material: id.meta({ description: 'What the mould is made of.' }),
  thickness_mm: length_mm,
  start_C: temperature
    .meta({ description: 'Its temperature when it is filled, °C: a chilled mould; that of the room if left out.' })
    .exactOptional(),
  emissivity: share
    .meta({ description: 'How its outside radiates: 0.05 bright, 0.9 dark; as its material does if left out.' })
    .exactOptional(),
  food_grade: z
    .boolean()
    .meta({ description: 'Declared for food by its maker; left out where the material is usually not.' })
    .exactOptional(),
})
export const piece = z
  .strictObject({
    shape,
    lining: z.array(layer).max(8).meta({ description: 'Layers along the mould, outside in.' }).exactOptional(),
    fill: z.array(layer).min(1).max(12).meta({ description: 'Layers on each other, bottom up.' }),
    inserts: z.array(insert).max(8).meta({ description: 'Cores within the fills.' }).exactOptional(),
    mould: z
      .array(mouldWall)
      .max(12)
      .meta({ description: 'Walls of the mould; of several on one face the nearest to the piece first.' })
      .exactOptional(),
  })
  .meta({ title: 'Piece' })
