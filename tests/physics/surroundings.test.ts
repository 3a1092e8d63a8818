import { describe, expect, test } from 'vitest'
import { steady } from '../../src/core/boundary/profile.ts'
import { sheetBody } from '../../src/core/geometry/shapes/sheet.ts'
import type { Job, Stage } from '../../src/core/journey/job.ts'
import { runJourney } from '../../src/core/journey/journey.ts'
import { getMaterial } from '../../src/core/materials/index.ts'
import { around, chest, inRoom, lawFaces, oven } from './appliance-jobs.ts'
import { cream, freezingCustard, hours, insulated, jobOf } from './jobs.ts'

const stageOf = (faces: Stage['faces'], h: number, over: Partial<Stage> = {}): Stage => ({
  name: 'stage',
  start: [],
  faces,
  air_C: steady(20),
  until: { after: hours(h), max: hours(h) },
  ...over,
})

describe('conservation with films of laws', () => {
  const slab = sheetBody({ area: 0.24 })
  const custard = getMaterial('pastry-cream')
  const open = lawFaces(['top', 'bottom'], { open: true })
  const switching = chest(120)
  const jobs: Record<string, Job> = {
    'hot and open in a room': jobOf(slab, custard, 0.08, 85, [
      stageOf({ top: inRoom(open.top!, 20, { relative: 0.5 }), bottom: insulated }, 6),
    ]),
    'warm in a chest freezer': jobOf(slab, custard, 0.08, 60, [
      stageOf(open, 24, { appliance: around(chest(), { humidity: { relative: 0.85 } }) }),
    ]),
    'in a freezer whose thermostat switches': jobOf(slab, custard, 0.08, 20, [
      stageOf(open, 24, {
        appliance: around({
          ...switching,
          machine: { ...(switching.machine as Extract<typeof switching.machine, { kind: 'cooling' }>), band: 2 },
        }),
      }),
    ]),
    'in an oven, then in the same oven switched off': jobOf(slab, cream, 0.05, 20, [
      stageOf(open, 0.7, {
        appliance: around(oven({ kind: 'heating', set_C: 180, rated: 2500 }), {
          vapour: 'leaves',
          humidity: { kg_kg: 0.03 },
        }),
      }),
      stageOf(open, 2, { appliance: around(oven({ kind: 'off' }), { vapour: 'leaves', humidity: { kg_kg: 0.03 } }) }),
    ]),
    'frozen, then into a damp room: frost, dew, thaw': jobOf(slab, freezingCustard, 0.04, -18, [
      stageOf({ top: inRoom(open.top!, 25, { relative: 0.6 }), bottom: insulated }, 10),
    ]),
    'with a door that opens': jobOf(slab, cream, 0.05, 4, [
      stageOf(open, 3, {
        appliance: around({ ...chest(), openings: [{ from: 3600, to: 3660, conductance: 40 }] }),
      }),
    ]),
  }
  test.each(Object.entries(jobs))('%s', (_, job) => {
    const course = runJourney(job, { fidelity: 'quick' })
    expect(course.energyResidual).toBeLessThan(1e-8)
  })
})
