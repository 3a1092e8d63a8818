import { z } from '../../zod.ts'
import { finite, LATEST_H, name, READING_RANGE_C, share } from './values.ts'

/* Probes, and what was measured, promised and found on the day. */

export const probe = z
  .strictObject({ name, x: share.exactOptional(), y: share.exactOptional(), z: share.exactOptional() })
  .meta({
    title: 'Probe',
    description: 'A place as shares of the bounding box: x across, y upward, z along; 0.5 where left out.',
  })
const moment_h = finite.min(0).max(LATEST_H)
export const reading = z
  .strictObject({ probe: name, at_h: moment_h, C: finite.min(READING_RANGE_C[0]).max(READING_RANGE_C[1]) })
  .meta({ title: 'Reading', description: 'A temperature measured on the day, hours since the start.' })
export const promise = z
  .strictObject({
    target: finite.min(0).max(29).multipleOf(1).meta({ description: 'Which of the targets, from 0.' }),
    at_h: moment_h.meta({ description: 'Likely moment, hours since the start.' }).exactOptional(),
    early_h: moment_h.exactOptional(),
    late_h: moment_h.exactOptional(),
  })
  .meta({ title: 'Promise', description: 'What was forecast of a target before anything was measured.' })
export const arrival = z
  .strictObject({
    target: finite.min(0).max(29).multipleOf(1).meta({ description: 'Which of the targets, from 0.' }),
    at_h: moment_h.meta({ description: 'When it was so, hours since the start.' }),
  })
  .meta({ title: 'What came', description: 'When a target was found met.' })
