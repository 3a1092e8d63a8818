import type { Plan } from '../../../src/core/plan/schema/plan.ts'

/** A bar of custard in its section, four hours on the bench and two days in a freezer: what is edited and sampled. */
export const barPlan: Plan = {
  format: 'thickset-plan',
  version: 1,
  title: 'Custard bar, two days',
  startsAt: '2027-03-12T16:00',
  rules: ['fda-food-code-2022'],
  dimensions: 2,
  piece: {
    shape: { kind: 'bar', width_mm: 300, length_mm: 1200 },
    fill: [{ material: 'egg-custard', thickness_mm: 150, start_C: 70 }],
  },
  stages: [
    { name: 'Bench', in: { air_C: 20, h_W_m2K: 12 }, until: { after_h: 4 } },
    { name: 'Freeze', in: { air_C: -20, h_W_m2K: 12 }, until: { after_h: 44 } },
  ],
  targets: [{ kind: 'frozen', core_C: -10 }],
}
