import { length_mm } from '../../geometry/shapes/definition.ts'
import { z } from '../../zod.ts'
import { finite, id, localTime, temperature } from './values.ts'

/* What is asked of the piece. */

const by = localTime.meta({ title: 'Asked by', description: 'Local date and time at which it must be so.' })
const core_C = temperature.meta({ description: 'Temperature of the last place to get there, °C.' })

const ofMaterial = id
  .meta({ description: 'Judge only layers of this material; every layer whose setting is known, if left out.' })
  .exactOptional()
export const target = z
  .discriminatedUnion('kind', [
    z.strictObject({ kind: z.literal('cooled'), core_C, by: by.exactOptional() }).meta({ title: 'Cooled to' }),
    z.strictObject({ kind: z.literal('frozen'), core_C, by: by.exactOptional() }).meta({ title: 'Frozen to' }),
    z
      .strictObject({
        kind: z.literal('baked'),
        core_C,
        most_C: temperature.meta({ description: 'Upper end of the core window, °C.' }).exactOptional(),
        by: by.exactOptional(),
      })
      .meta({ title: 'Baked' }),
    z
      .strictObject({ kind: z.literal('set'), material: ofMaterial, by: by.exactOptional() })
      .meta({ title: 'Set', description: 'Every place holds together, by the setting laws of its material.' }),
    z
      .strictObject({ kind: z.literal('unmould'), material: ofMaterial, by: by.exactOptional() })
      .meta({ title: 'Ready to unmould', description: 'Firm enough at every place to stand by itself.' }),
    z
      .strictObject({
        kind: z.literal('coat'),
        core_C: core_C.exactOptional(),
        humidity_pct: finite
          .gt(0)
          .max(100)
          .meta({ description: 'Humidity of the air in which it is coated, %; without it sweating is not judged.' })
          .exactOptional(),
        by: by.exactOptional(),
      })
      .meta({ title: 'Ready to coat', description: 'Firm, as cold as asked, and its surface dry.' }),
    z
      .strictObject({ kind: z.literal('cut'), material: ofMaterial, by: by.exactOptional() })
      .meta({ title: 'Ready to cut', description: 'Clean to cut at every place: set, and not frozen hard.' }),
    z
      .strictObject({ kind: z.literal('stay'), material: ofMaterial, by: by.exactOptional() })
      .meta({ title: 'Stays set', description: 'Once set, no place gets too warm again until then.' }),
    z
      .strictObject({
        kind: z.literal('edge'),
        most_mm: length_mm.meta({ description: 'Crust that is still welcome, mm; 10 if left out.' }).exactOptional(),
        by: by.exactOptional(),
      })
      .meta({ title: 'Edge not over-baked', description: 'Neither burnt nor dried deeper than asked.' }),
  ])
  .meta({ title: 'Target' })
