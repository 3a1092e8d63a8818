import { describe, expect, test } from 'vitest'
import { buildMesh, cellAt, type Mesh, NOTHING } from '../../../src/core/geometry/mesh.ts'
import { formsOf, referenceOf } from '../../../src/core/journey/forms.ts'
import { findPlanFaults } from '../../../src/core/plan/read.ts'
import { resolvePlan } from '../../../src/core/plan/resolve.ts'
import type { Plan, PlanAction, PlanShape } from '../../../src/core/plan/schema/plan.ts'
import { cutPiece } from '../../../src/renderer/section/areas.ts'
import { isWithin } from './path-area.ts'

/*
 * What is drawn is what is computed: wherever one looks in the section, the drawing shows the layer that owns the cell
 * there, for every shape, with linings, inserts, air, pours and coats.
 */

const layer = (material: string, thickness_mm: number) => ({ material, thickness_mm, start_C: 20 })
const coat: PlanAction = { do: 'coat', material: 'dark-chocolate', thickness_mm: 4, start_C: 32 }
const place: PlanAction = { do: 'place', material: 'sponge-crumb', thickness_mm: 10, start_C: 20 }

type Piece = Omit<Plan['piece'], 'shape'>
const stacked: Piece = {
  lining: [layer('sponge-crumb', 8), layer('dark-chocolate', 4)],
  fill: [layer('egg-custard', 30), layer('air', 8), layer('sponge-crumb', 12)],
  inserts: [{ material: 'fruit-puree', start_C: 4, margin_mm: 9 }],
}
const single: Piece = {
  lining: [layer('sponge-crumb', 8), layer('dark-chocolate', 4)],
  fill: [{ material: 'egg-custard', start_C: 20 }],
  inserts: [{ material: 'fruit-puree', start_C: 4, margin_mm: 9 }],
}
const hollow: Piece = { lining: [layer('dark-chocolate', 8)], fill: [{ material: 'air', start_C: 20 }] }
const filledHalf: Piece = {
  lining: [layer('sponge-crumb', 8)],
  fill: [layer('egg-custard', 40), layer('fruit-puree', 25), layer('sponge-crumb', 12)],
  inserts: [{ material: 'fruit-puree', start_C: 4, within: 0, margin_mm: 9 }],
}
const bare: Piece = { fill: [layer('egg-custard', 30), layer('sponge-crumb', 42)] }

const cases: readonly [name: string, shape: PlanShape, piece: Piece, start: readonly PlanAction[]][] = [
  ['sheet', { kind: 'sheet' }, { fill: [layer('egg-custard', 40), layer('air', 6), layer('sponge-crumb', 12)] }, []],
  ['bar', { kind: 'bar', width_mm: 160, length_mm: 700 }, stacked, [place, coat]],
  ['bar turned', { kind: 'bar', width_mm: 160, length_mm: 700 }, stacked, [{ do: 'turn' }, place, coat]],
  ['block', { kind: 'block', width_mm: 160, length_mm: 200 }, stacked, [place]],
  ['round', { kind: 'round', diameter_mm: 200 }, stacked, [coat]],
  ['ring', { kind: 'ring', outer_mm: 260, inner_mm: 80 }, { ...stacked, inserts: [] }, [coat]],
  [
    'tiers',
    { kind: 'tiers', tiers: [{ diameter_mm: 220, height_mm: 40 }, { diameter_mm: 140 }] },
    bare,
    [{ ...coat, faces: ['sides', 'top'] }],
  ],
  ['trough', { kind: 'trough', radius_mm: 110, length_mm: 700 }, filledHalf, [place]],
  ['trough, flat down', { kind: 'trough', radius_mm: 110, length_mm: 700, flat: 'down' }, bare, [coat]],
  ['dome', { kind: 'dome', radius_mm: 110 }, bare, [coat]],
  [
    'hollow dome',
    { kind: 'dome', radius_mm: 110 },
    { ...hollow, fill: [layer('dark-chocolate', 8), ...hollow.fill] },
    [coat],
  ],
  ['dome in its bowl', { kind: 'dome', radius_mm: 110, flat: 'up' }, filledHalf, [{ do: 'turn' }, coat]],
  ['log', { kind: 'log', diameter_mm: 140, length_mm: 600 }, single, [coat]],
  ['ball', { kind: 'ball', diameter_mm: 160 }, single, [coat]],
  ['hollow ball by air', { kind: 'ball', diameter_mm: 160 }, hollow, [coat]],
  ['shell', { kind: 'shell', diameter_mm: 160, hollow_mm: 90 }, { fill: single.fill }, [coat]],
  ['stirred', { kind: 'stirred', volume_L: 8 }, { fill: single.fill }, []],
]

/** The grid of the whole piece when everything lies on it, none of its halves left out. */
function meshOf(plan: Plan): Mesh {
  const { job } = resolvePlan(plan)
  const forms = formsOf(job)
  return buildMesh(forms[forms.length - 1]!, {
    perHalf: 2,
    halved: false,
    mirrored: [false, false, false],
    insulated: new Set(),
    reference: referenceOf(forms),
  })
}

describe('the drawn section is the computed one', () => {
  test.each(cases)('%s', (_, shape, piece, start) => {
    const plan: Plan = {
      format: 'thickset-plan',
      version: 1,
      title: 'drawn',
      startsAt: '2027-03-12T16:00',
      piece: { shape, ...piece },
      stages: [{ name: 'Rest', in: { air_C: 4, h_W_m2K: 8 }, start: [...start], until: { after_h: 1 } }],
    }
    expect(findPlanFaults(plan)).toEqual([])
    const mesh = meshOf(plan)
    const cut = cutPiece(plan)
    const shown = cut.areas.map(({ row, figure }) => ({ name: row.name, loops: figure.loops(0) }))
    const { low, high } = mesh.reference.bounds
    const flipped = mesh.body.invertedAtStart === true
    const width = cut.broken ? cut.width / 1000 : high[0] - low[0]
    expect(cut.height / 1000).toBeCloseTo(high[1] - low[1], 4)
    if (!cut.broken) expect(cut.width / 1000).toBeCloseTo(width, 4)

    const COUNT = 45
    let wrong = 0
    const seen = new Set<string>()
    for (let i = 0; i < COUNT; i++)
      for (let j = 0; j < COUNT; j++) {
        const [across, up] = [(i + 0.47) / COUNT, (j + 0.53) / COUNT]
        const drawn = shown.findLast(({ loops }) => isWithin(loops, [across * cut.width, up * cut.height]))?.name ?? ''
        const x = cut.broken ? low[0] + 0.5 * (high[0] - low[0]) : low[0] + across * width
        const y = low[1] + (flipped ? 1 - up : up) * (high[1] - low[1])
        const at = mesh.coordinates.fromSpace([x, y, (low[2] + high[2]) / 2])
        const inside = mesh.axes.every((axis, index) => at[index]! >= axis.from - 1e-9 && at[index]! <= axis.to + 1e-9)
        const cell = cellAt(mesh, at)
        const own = inside ? mesh.layerOf[cell]! : NOTHING
        const air = inside && own === NOTHING ? airAt(mesh, cell) : ''
        const computed = own === NOTHING ? air : mesh.layers[own]!.name
        seen.add(drawn)
        if (drawn !== computed) wrong++
      }
    // Points on a border may fall to either side, and arcs are drawn in short chords.
    expect(wrong / COUNT ** 2).toBeLessThan(0.004)
    // Every layer of the piece shows somewhere.
    for (const { name } of mesh.layers) expect(seen).toContain(name)
  })
})

/** Name of the air in a cell of nothing. */
const airAt = (mesh: Mesh, cell: number): string => mesh.layers[mesh.airOf[cell] ?? NOTHING]?.name ?? ''
