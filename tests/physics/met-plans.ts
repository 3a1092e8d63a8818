import { readPlan } from '../../src/core/plan/read.ts'
import type { Plan, PlanStage } from '../../src/core/plan/schema/plan.ts'

/** A gelatin jelly in a cold or warm place, whose first stage ends as told, and three hours of a fridge after it. */
export const parsePlan = (until: PlanStage['until'], fidelity: NonNullable<Plan['fidelity']>, air_C = 4): Plan =>
  readPlan(
    JSON.stringify({
      format: 'thickset-plan',
      version: 1,
      title: 'Jelly',
      startsAt: '2027-03-12T16:00',
      fidelity,
      piece: {
        shape: { kind: 'round', diameter_mm: 240 },
        fill: [{ material: 'gelatin-jelly', thickness_mm: 80, start_C: 60 }],
      },
      stages: [
        { name: 'Set', in: { air_C, h_W_m2K: 10 }, until },
        { name: 'Hold', in: { air_C: 4, h_W_m2K: 10 }, until: { after_h: 3 } },
      ],
      targets: [{ kind: 'set' }],
    }),
  )
