import { z } from '../../zod.ts'
import { coldSetFrame, laidKinds, laidWords } from './cold-set.ts'
import { defineLaw, parameter, reached, reachedCold } from './law.ts'

const rolin = 'May 1990, Carbohydr. Polym. 12, 79; Rolin 1993 (from memory)'
const SET = 0.9
/** Cool enough to leave its mould, °C (choice). */
const FIRM_C = 30

/** High-methoxyl pectin at 59 to 66 Brix and pH 3.0 to 3.3; does not melt again below boiling. */
export const pectin = defineLaw({
  id: 'pectin',
  title: 'pectin',
  inputs: z
    .strictObject({
      by: z.literal('pectin'),
      grade: z.enum(['rapid', 'medium', 'slow']).meta({ description: 'How fast its grade sets.' }),
      laid: z.enum(laidKinds).meta({ description: laidWords }).exactOptional(),
    })
    .meta({ title: 'High-methoxyl pectin' }),
  parameters: {
    rapid: parameter([75, 80, 85], 'degC', 'from memory', rolin),
    medium: parameter([60, 68, 75], 'degC', 'from memory', rolin),
    slow: parameter([45, 55, 65], 'degC', 'from memory', rolin),
    tau_set: parameter([1200, 600, 120], 's', 'choice', ''),
  },
  source: rolin,
  weak: 'holds for 59 to 66 Brix and pH 3.0 to 3.3; stirred below its setting point it is broken for good',
  make({ grade, laid = 'dissolved' }, found) {
    const law = { sets_C: found[grade], setting: found.tau_set, melting: Number.POSITIVE_INFINITY }
    return {
      ...coldSetFrame(law, laid === 'undissolved' ? 'dissolved' : laid),
      criteria: {
        set: reached(SET, 1),
        firm: reachedCold(SET, FIRM_C, 1),
        cut: reachedCold(SET, FIRM_C, 1),
      },
    }
  },
})
