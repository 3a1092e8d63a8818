import { length_mm } from '../../geometry/shapes/definition.ts'
import { z } from '../../zod.ts'
import { power } from './surroundings.ts'
import { count, faceNames, finite, id, temperature } from './values.ts'

/* What is done at a stage's start. */

export const action = z.discriminatedUnion('do', [
  z
    .strictObject({ do: z.literal('pour'), material: id, thickness_mm: length_mm, start_C: temperature })
    .meta({ title: 'Pour one more layer on top' }),
  z
    .strictObject({ do: z.literal('place'), material: id, thickness_mm: length_mm, start_C: temperature })
    .meta({ title: 'Place a ready layer on top', description: 'Baked, set or frozen before it is laid on.' }),
  z
    .strictObject({
      do: z.literal('cover'),
      with: id.meta({ description: 'What the cover is made of.' }),
      thickness_mm: length_mm.meta({ description: 'Thickness, mm; the usual one if left out.' }).exactOptional(),
      gap_mm: length_mm
        .meta({ description: 'Air between the face and a lid, mm; it touches if left out.' })
        .exactOptional(),
      start_C: temperature.meta({ description: 'Its temperature when laid on, °C; 20 if left out.' }).exactOptional(),
      faces: faceNames.exactOptional(),
    })
    .meta({ title: 'Cover', description: 'Without faces: the top, or every face where there is no top.' }),
  z
    .strictObject({
      do: z.literal('wrap'),
      with: id.meta({ description: 'What it is wrapped in; film if left out.' }).exactOptional(),
      thickness_mm: length_mm.meta({ description: 'Thickness, mm; the usual one if left out.' }).exactOptional(),
    })
    .meta({ title: 'Wrap', description: 'Every face that is not covered yet, the one below too.' }),
  z
    .strictObject({ do: z.literal('uncover'), faces: faceNames.exactOptional() })
    .meta({ title: 'Uncover', description: 'Without faces: whatever is covered.' }),
  z.strictObject({ do: z.literal('unmould') }).meta({ title: 'Take out of the mould' }),
  z
    .strictObject({
      do: z.literal('coat'),
      material: id,
      thickness_mm: length_mm.meta({ description: 'Thickness when set, mm.' }).exactOptional(),
      yield_Pa: finite
        .gt(0)
        .max(5_000)
        .meta({
          description: 'Yield stress of the melt, Pa: in place of the thickness, which is then what drains no further.',
        })
        .exactOptional(),
      start_C: temperature,
      faces: faceNames.exactOptional(),
    })
    .meta({ title: 'Coat', description: 'By dipping or pouring. Without faces: all but the bottom.' }),
  z
    .strictObject({ do: z.literal('turn') })
    .meta({ title: 'Turn over', description: 'From here on "top" and "bottom" are what lies so then.' }),
  z
    .strictObject({
      do: z.literal('stand'),
      on: z.enum(['board', 'tray', 'rack', 'spacers', 'shelf']),
      board_mm: length_mm
        .meta({ description: 'Thickness of the board or tray, mm; 18 and 1 if left out.' })
        .exactOptional(),
      board: id
        .meta({ description: 'What it is made of, such as "foam"; wood and stainless steel if left out.' })
        .exactOptional(),
      start_C: temperature.meta({ description: 'Its temperature, °C; 20 if left out.' }).exactOptional(),
    })
    .meta({ title: 'Put on a board, a tray, a wire rack, spacers, or straight on the shelf' }),
  z
    .strictObject({
      do: z.literal('open-door'),
      minutes: finite.gt(0).max(24 * 60),
      W_K: power.meta({ description: 'Heat through the open door, W/K.' }).exactOptional(),
    })
    .meta({ title: 'Open the door', description: 'Of the appliance, from the start of the stage for some minutes.' }),
  z
    .strictObject({
      do: z.literal('cut'),
      across: count.meta({ description: 'Pieces across.' }).exactOptional(),
      along: count.meta({ description: 'Pieces along the length.' }).exactOptional(),
      wedges: count.meta({ description: 'Wedges of a round or a ring.' }).exactOptional(),
      slice_mm: length_mm.meta({ description: 'Thickness of slices along the length, mm.' }).exactOptional(),
    })
    .meta({ title: 'Cut', description: 'Into pieces alike; one from the middle is followed.' }),
])
/** Everything that can be done at a stage's start. */
export const actionKinds = action.options.map((option) => option.shape.do.value)
