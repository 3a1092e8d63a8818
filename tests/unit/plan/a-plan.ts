import type { Plan } from '../../../src/core/plan/schema/plan.ts'

/** A plain plan that can be computed, for tests to change. */
export function aPlan(change: Partial<Plan> = {}): Plan {
  return {
    format: 'thickset-plan',
    version: 1,
    title: 'A tall round',
    startsAt: '2027-03-12T16:00',
    piece: {
      shape: { kind: 'round', diameter_mm: 400 },
      fill: [{ material: 'pastry-cream', thickness_mm: 100, start_C: 80 }],
    },
    stages: [{ name: 'Chill', in: 'fridge-static', until: { after_h: 12 } }],
    ...change,
  }
}
