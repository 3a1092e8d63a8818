import type { Plan } from '../../../src/core/plan/schema/plan.ts'

/** A small bar with everything that the drawing and the lists can show. */
export const bar: Plan = {
  format: 'thickset-plan',
  version: 1,
  title: 'Quince bar',
  startsAt: '2027-03-12T16:00',
  piece: {
    shape: { kind: 'bar', width_mm: 200, length_mm: 900 },
    lining: [{ material: 'sponge', thickness_mm: 10, start_C: 20 }],
    fill: [
      { material: 'custard', thickness_mm: 80, start_C: 60 },
      { material: 'sponge', thickness_mm: 20, start_C: 20 },
    ],
    mould: [{ faces: ['bottom', 'sides'], material: 'steel', thickness_mm: 1 }],
  },
  stages: [
    { name: 'Bench', in: 'room', until: { after_h: 2 } },
    {
      name: 'Cold room',
      in: { air_C: 2, h_W_m2K: 12 },
      start: [
        { do: 'cover', with: 'film', faces: ['top'] },
        { do: 'pour', material: 'custard', thickness_mm: 30, start_C: 70 },
      ],
      until: { clock: '08:00' },
    },
    { name: 'Freezer', in: 'freezer-static', until: { core_C: -12, max_h: 72 } },
  ],
  targets: [{ kind: 'frozen', core_C: -12, by: '2027-03-16T08:00' }],
}

export const ball: Plan = {
  ...bar,
  piece: {
    shape: { kind: 'ball', diameter_mm: 240 },
    lining: [{ material: 'chocolate', thickness_mm: 6, start_C: 20 }],
    fill: [{ material: 'custard', start_C: 4 }],
  },
  stages: [{ name: 'Freezer', in: 'freezer-static', until: { after_h: 12 } }],
}
