import { z } from '../../zod.ts'
import { action } from './action.ts'
import { surroundings } from './surroundings.ts'
import { clockPattern, finite, id, name, temperature } from './values.ts'

/* Stages: where, what is done, until when. */

const hours = finite.gt(0).max(24 * 60)
const until = z
  .strictObject({
    after_h: hours.meta({ description: 'Ends after so many hours.' }).exactOptional(),
    core_C: temperature
      .meta({ description: 'Ends when the last place to get there has this temperature, °C.' })
      .exactOptional(),
    surface_C: temperature
      .meta({ description: 'Ends when the mean of the open faces has this temperature, °C.' })
      .exactOptional(),
    mean_C: temperature
      .meta({ description: 'Ends when the mean of the mass has this temperature, °C.' })
      .exactOptional(),
    probe: z
      .strictObject({ name, C: temperature })
      .meta({ description: 'Ends when a probe of the plan shows this temperature, °C.' })
      .exactOptional(),
    target: name
      .meta({
        description:
          'Ends when what the target of this kind asks for is so: its core temperature, or set, firm enough, dry.',
      })
      .exactOptional(),
    clock: z
      .string()
      .regex(clockPattern)
      .meta({ description: 'Ends at this time: the next such time of day, or a local date and time.' })
      .exactOptional(),
    max_h: hours.meta({ description: 'Ends after so many hours at the latest.' }).exactOptional(),
  })
  .meta({ title: 'End of the stage', description: 'Whichever comes first.' })
export const stage = z
  .strictObject({
    name,
    in: z.union([id, surroundings]).meta({ description: 'Built-in surroundings by name, or described here.' }),
    start: z.array(action).max(20).meta({ description: 'What is done at the start, in order.' }).exactOptional(),
    power_W: finite
      .gt(0)
      .max(1e6)
      .meta({ description: 'Heat that a burner or a heater gives to a stirred mass, W.' })
      .exactOptional(),
    until,
    repeat: z
      .strictObject({
        from: name.meta({ description: 'Earlier stage to go back to; this one if left out.' }).exactOptional(),
        times: finite.min(2).max(50).multipleOf(1).meta({ description: 'How many times in all.' }),
      })
      .meta({ title: 'Repeat', description: 'What lies between is done several times, one after the other.' })
      .exactOptional(),
  })
  .meta({ title: 'Stage' })
