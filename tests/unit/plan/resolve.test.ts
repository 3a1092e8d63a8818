import { describe, expect, test } from 'vitest'
import type { FaceCondition, LawFace } from '../../../src/core/boundary/face.ts'
import { getWall } from '../../../src/core/materials/wall.ts'
import { findPlanFaults } from '../../../src/core/plan/read.ts'
import { resolvePlan } from '../../../src/core/plan/resolve.ts'
import type { Plan, PlanStage, PlanSurroundings } from '../../../src/core/plan/schema/plan.ts'
import { say } from '../../../src/core/words/sentences.ts'
import { metric } from '../../../src/core/words/show.ts'
import { aPlan } from './a-plan.ts'

const h = 3600

/** A plan made ready, after the same checks that every plan passes. */
function resolved(change: Partial<Plan> = {}) {
  const plan = aPlan(change)
  expect(findPlanFaults(plan)).toEqual([])
  return resolvePlan(plan)
}

const stagesOf = (stages: readonly PlanStage[], change: Partial<Plan> = {}) =>
  resolved({ ...change, stages: [...stages] }).job.stages
const inside = (given: PlanSurroundings | string, change: Partial<Plan> = {}) =>
  stagesOf([{ name: 'there', in: given, until: { after_h: 1 } }], change)[0]!.faces

function convective(condition: FaceCondition | undefined): Extract<FaceCondition, { kind: 'convective' }> {
  if (condition?.kind !== 'convective') throw new Error(`not convective: ${condition?.kind}`)
  return condition
}

describe('layers in SI', () => {
  test('names, metres, materials looked up once each', () => {
    const { job, materials } = resolved({
      piece: {
        shape: { kind: 'bar', width_mm: 120, length_mm: 800 },
        lining: [{ material: 'sponge-crumb', thickness_mm: 12, start_C: 20 }],
        fill: [
          { material: 'pastry-cream', thickness_mm: 60, start_C: 70 },
          { material: 'sponge-crumb', thickness_mm: 15, start_C: 20 },
        ],
      },
      stages: [
        {
          name: 'Chill',
          in: 'fridge-static',
          start: [{ do: 'pour', material: 'ganache', thickness_mm: 8, start_C: 36 }],
          until: { after_h: 12 },
        },
      ],
    })
    expect(job.body.kind).toBe('bar')
    expect(job.lining.map(({ name, thickness }) => [name, thickness])).toEqual([['lining[0]', 0.012]])
    expect(job.fill.map(({ name, thickness, start_C }) => [name, thickness, start_C])).toEqual([
      ['fill[0]', 0.06, 70],
      ['fill[1]', 0.015, 20],
    ])
    expect(job.stages[0]!.start[0]).toMatchObject({
      do: 'pour',
      layer: { name: 'stages[0].start[0]', thickness: 0.008 },
    })
    expect(materials.map(({ id }) => id)).toEqual(['sponge-crumb', 'pastry-cream', 'ganache'])
    expect(job.fill[1]!.material).toBe(job.lining[0]!.material)
  })

  test('the fill of a ball takes the rest', () => {
    const { job } = resolved({
      piece: { shape: { kind: 'ball', diameter_mm: 100 }, fill: [{ material: 'ganache', start_C: 30 }] },
    })
    expect(job.fill[0]!.thickness).toBeNull()
  })

  test("the plan's own material goes before a built-in one of the same name, and that is said", () => {
    const { job, notes } = resolved({
      materials: { 'pastry-cream': { fixed: { k_W_mK: 0.4, rho_kg_m3: 777, c_J_kgK: 3500 } } },
    })
    expect(job.fill[0]!.material.density).toBe(777)
    expect(notes).toContainEqual({ code: 'own-material-first', values: { id: 'pastry-cream' } })
  })
})

describe('ends', () => {
  const endings = (...untils: PlanStage['until'][]) =>
    stagesOf(untils.map((until, index) => ({ name: `${index}`, in: 'room-still', until }))).map(({ until }) => until)

  test('hours, clock and guard in seconds', () => {
    // 16:00 and 3 h make 19:00; the next 07:00 comes at 15 h, 12 h after the second stage begins.
    expect(endings({ after_h: 3 }, { clock: '07:00' }, { clock: '2027-03-14T16:00', max_h: 40 })).toEqual([
      { after: 3 * h, max: 3 * h },
      { clock: 15 * h, max: 12 * h },
      { clock: 48 * h, max: 40 * h },
    ])
  })

  test('the guard of one stage moves the clock of the next', () => {
    expect(endings({ after_h: 20, max_h: 10 }, { clock: '07:00' })[1]).toEqual({ clock: 15 * h, max: 5 * h })
    expect(endings({ after_h: 16 }, { clock: '07:00' })[1]).toEqual({ clock: 39 * h, max: 23 * h })
  })

  test('a time of day after an end that nobody knows yet comes again every day', () => {
    expect(endings({ core_C: 5, max_h: 30 }, { clock: '07:00' })[1]).toEqual({
      clock: 15 * h,
      clockEvery: 24 * h,
      max: 24 * h,
    })
    expect(endings({ core_C: 5 }, { clock: '2027-03-14T16:00' })[1]).toEqual({ clock: 48 * h, max: 48 * h })
  })

  test('an end by core temperature alone gets a guard, and that is said', () => {
    const { job, notes } = resolved({ stages: [{ name: 'Freeze', in: 'chest-freezer', until: { core_C: -12 } }] })
    expect(job.stages[0]!.until).toEqual({ core_C: -12, max: 168 * h })
    const note = notes.find(({ code }) => code === 'guard-default')!
    expect(say(note, metric)).toBe('"Freeze" has no max_h: it stops after 168 h at the latest')
  })
})

describe('faces', () => {
  test("a plan's own surroundings: whole, group and face, the narrowest counts", () => {
    const faces = inside(
      {
        air_C: -18,
        h_W_m2K: 8,
        faces: { sides: { h_W_m2K: 6 }, left: { air_C: 4 }, bottom: { h_W_m2K: 4, board_mm: 18 } },
      },
      { piece: { ...aPlan().piece, shape: { kind: 'block', width_mm: 300, length_mm: 300 } } },
    )
    expect(Object.keys(faces).sort()).toEqual(['back', 'bottom', 'front', 'left', 'right', 'top'])
    expect(faces.top).toMatchObject({ kind: 'convective', h: 8, resistances: [] })
    expect(convective(faces.right)).toMatchObject({ h: 6 })
    expect(convective(faces.left).air_C.at(0)).toBe(4)
    expect(convective(faces.left).h).toBe(6)
    expect(convective(faces.right).air_C.at(0)).toBe(-18)
    // Within an hour wood takes heat of its own, so this face is followed.
    const bottom = faces.bottom!
    if (bottom.kind !== 'law') throw new Error(`not followed: ${bottom.kind}`)
    const board = bottom.resistances[0]!
    expect(bottom.film({ T_C: 60, vapour: 0 }, { T_C: -18, vapour: 0 })).toBe(4)
    expect(bottom.held!.nodes.reduce((sum, { heat }) => sum + heat, 0)).toBeGreaterThan(10e3)
    expect(board.R).toBeCloseTo(0.018 / getWall('plywood').k, 12)
  })

  test('insulated and held faces, and a held one behind a wall', () => {
    const faces = inside(
      {
        h_W_m2K: 0,
        faces: {
          bottom: {
            surface_C: [
              [0, 0],
              [2, -10],
            ],
          },
          top: { surface_C: -30 },
        },
      },
      { piece: { ...aPlan().piece, mould: [{ faces: ['top'], material: 'stainless', thickness_mm: 2 }] } },
    )
    expect(faces.sides).toEqual({ kind: 'insulated' })
    if (faces.bottom?.kind !== 'fixed') throw new Error('not held')
    expect(faces.bottom.surface_C.at(h)).toBeCloseTo(-5, 12)
    // 2 mm of steel and as good as nothing beyond.
    const top = convective(faces.top)
    expect(1 / top.h + top.resistances[0]!.R).toBeCloseTo(0.002 / getWall('stainless').k, 4)
    expect(top.air_C.at(0)).toBe(-30)
  })

  const lawful = (face: FaceCondition | undefined): LawFace => {
    if (face?.kind !== 'law') throw new Error(`no law but ${face?.kind}`)
    return face
  }
  const dry = (T_C: number) => ({ T_C, vapour: 0 })

  test('built-in surroundings: films by law, radiation to the walls, the appliance with its power, all said', () => {
    const { job, notes } = resolved({ stages: [{ name: 'Freeze', in: 'chest-freezer', until: { after_h: 1 } }] })
    const [stage] = job.stages
    const { top, bottom, sides } = stage!.faces
    // Warm surface in cold air: the air lies still under the piece, rises from its top and along its sides.
    const [up, down, upright] = [top, bottom, sides].map((face) => lawful(face).film(dry(20), dry(-18)))
    expect(up).toBeGreaterThan(1.5 * down!)
    expect(upright).toBeGreaterThan(1.5 * down!)
    expect(lawful(top).emissivity).toBe(0.9)
    expect(lawful(top).ambient).toBeUndefined()
    expect(stage!.appliance?.appliance.machine).toMatchObject({ kind: 'cooling', set_C: -18, rated: 80 })
    expect(stage!.appliance?.humidity).toEqual({ relative: 0.85 })
    expect(stage!.air_C.at(0)).toBe(-18)
    expect(notes.map(({ code }) => code)).toEqual([
      ...['film-by-laws', 'evaporation-by-laws', 'surroundings-note', 'air-default', 'appliance-typical-cold'],
    ])
  })

  test('a course of the air is the air, whatever the appliance: the walls go with it', () => {
    const air_C: [number, number][] = [
      [0, 160],
      [2, 80],
    ]
    const [stage] = stagesOf([{ name: 'a', in: { like: 'oven-off-shut', air_C }, until: { after_h: 1 } }])
    const { ambient } = lawful(stage!.faces.top)
    expect(stage!.appliance).toBeUndefined()
    expect([ambient?.air_C.at(0), ambient?.air_C.at(2 * h)]).toEqual([160, 80])
    expect([ambient?.walls_C.at(0), ambient?.walls_C.at(2 * h)]).toEqual([165, 85])
    expect(ambient?.air_C.breaks).toEqual([2 * h])
  })

  test('a temperature of the air is what the appliance is set to; without one it is the air', () => {
    const given = { like: 'chest-freezer', air_C: -24 }
    const [set, without] = [given, { ...given, appliance: false as const }].map(
      (surroundings) => stagesOf([{ name: 'a', in: surroundings, until: { after_h: 1 } }])[0]!,
    )
    expect(set!.appliance?.appliance.machine).toMatchObject({ set_C: -24, rated_C: -18 })
    expect(without!.appliance).toBeUndefined()
    expect(lawful(without!.faces.top).ambient?.air_C.at(0)).toBe(-24)
  })

  test('a film of its own in an appliance counts as the whole exchange with its air', () => {
    const faces = inside({ like: 'chest-freezer', faces: { bottom: { h_W_m2K: 4 } } })
    expect(lawful(faces.bottom)).toMatchObject({ emissivity: 0, open: true })
    expect(lawful(faces.bottom).film(dry(20), dry(-18))).toBe(4)
    expect(lawful(faces.bottom).ambient).toBeUndefined()
    expect(lawful(faces.top).emissivity).toBe(0.9)
  })

  test('water at the mould, the room above it', () => {
    const faces = inside('ice-bath-still')
    // Still ice water at 1 °C, an upright wall at 10 °C: 200 W/(m² K) at 0.2 m, worked apart; a little more lower down.
    const wet = lawful(faces.sides).film(dry(10), dry(1))
    expect(wet).toBeGreaterThan(180)
    expect(wet).toBeLessThan(300)
    expect(lawful(faces.sides)).toMatchObject({ emissivity: 0, open: false })
    expect(lawful(faces.top).ambient?.air_C.at(0)).toBe(20)
    expect(lawful(faces.top).ambient?.walls_C.at(0)).toBe(20)
    expect(lawful(faces.top).film(dry(40), dry(20))).toBeLessThan(10)
  })

  test('own surroundings with a speed of the air have films by law', () => {
    const { job, notes } = resolved({
      stages: [
        { name: 'a', in: { air_C: 4, air_speed_m_s: 3, humidity: { relative_pct: 70 } }, until: { after_h: 1 } },
      ],
    })
    const face = lawful(job.stages[0]!.faces.top)
    // A rough plate of 0.3 to 0.4 m in air of 4 °C at 3 m/s: 18 to 19 W/(m² K), worked apart.
    expect(face.film(dry(20), dry(4))).toBeGreaterThan(17)
    expect(face.film(dry(20), dry(4))).toBeLessThan(21)
    expect(face.ambient?.humidity).toEqual({ relative: 0.7 })
    expect(notes.map(({ code }) => code)).toEqual([
      ...['film-by-laws', 'evaporation-by-laws', 'emissivity-default', 'walls-as-air'],
    ])
  })

  test('an oven that is switched off is that of the stage before', () => {
    const [bake, rest] = stagesOf([
      { name: 'bake', in: { like: 'oven-convection', appliance: { heater_W: 7000 } }, until: { after_h: 1 } },
      { name: 'rest', in: 'oven-off-shut', until: { after_h: 1 } },
    ]).map((stage) => stage.appliance?.appliance)
    expect(bake).toMatchObject({ name: 'oven-half', machine: { kind: 'heating', set_C: 165, rated: 7000 } })
    expect(rest).toMatchObject({ name: 'oven-half', heat: bake?.heat, machine: { kind: 'off' } })
  })

  test('an appliance of the plan alone', () => {
    const own: PlanSurroundings = {
      air_speed_m_s: 0.1,
      appliance: {
        ...{ kind: 'cold', set_C: -18, capacity_W: 90, UA_W_K: 0.7, thermostat_K: 2 },
        goods: { mass_kg: 20 },
        door: [{ at_h: 1, minutes: 2 }],
      },
    }
    const { appliance } = stagesOf([{ name: 'a', in: own, until: { after_h: 1 } }])[0]!.appliance!
    expect(appliance).toMatchObject({ toRoom: 0.7, room_C: 22, machine: { rated: 90, rated_C: -18, band: 2 } })
    expect(appliance.stores).toMatchObject([{ name: 'goods', heat: 40_000 }])
    expect(appliance.openings).toEqual([{ from: 3600, to: 3720, conductance: 20 }])
  })

  test('an appliance of which too little is known is a fault', () => {
    const faultsOf = (appliance: NonNullable<PlanSurroundings['appliance']>) =>
      findPlanFaults(
        aPlan({ stages: [{ name: 'a', in: { air_speed_m_s: 1, air_C: 4, appliance }, until: { after_h: 1 } }] }),
      ).map(({ path, problem }) => `${path}: ${problem}`)
    expect(faultsOf({})).toEqual(['stages[0].in.appliance: kind missing'])
    expect(faultsOf({ kind: 'cold' })).toEqual(['stages[0].in.appliance: capacity_W missing'])
    expect(faultsOf({ kind: 'oven' })).toEqual(['stages[0].in.appliance: heater_W missing'])
    expect(faultsOf({ kind: 'bath' })).toEqual(['stages[0].in.appliance: water_kg missing'])
    expect(faultsOf({ kind: 'cold', capacity_W: 90 })).toEqual([])
  })

  test('radiation where the plan asks for it, with what was taken', () => {
    const { notes, job } = resolved({
      stages: [
        { name: 'a', in: { air_C: 20, h_W_m2K: 5, walls_C: 18 }, until: { after_h: 1 } },
        { name: 'b', in: { air_C: 20, h_W_m2K: 5, emissivity: 0.3 }, until: { after_h: 1 } },
        { name: 'c', in: { air_C: 20, h_W_m2K: 5 }, until: { after_h: 1 } },
      ],
    })
    const [a, b, c] = job.stages.map((stage) => convective(stage.faces.top).radiation)
    expect([a?.emissivity, a?.walls_C.at(0)]).toEqual([0.9, 18])
    expect([b?.emissivity, b?.walls_C.at(0)]).toEqual([0.3, 20])
    expect(c).toBeUndefined()
    expect(notes).toEqual([
      { code: 'emissivity-default', values: { stage: 'a', emissivity: 0.9 } },
      { code: 'walls-as-air', values: { stage: 'b' } },
      { code: 'radiation-within-film', values: { stage: 'c' } },
    ])
  })

  test('a face that the shape names but does not model is said to have no effect', () => {
    const { notes } = resolved({
      piece: { ...aPlan().piece, shape: { kind: 'bar', width_mm: 120, length_mm: 800 } },
      stages: [{ name: 'a', in: { surface_C: 0, faces: { ends: { surface_C: 5 } } }, until: { after_h: 1 } }],
    })
    expect(notes).toContainEqual({ code: 'face-left-out', values: { face: 'ends' } })
  })
})

describe('moulds and covers from stage to stage', () => {
  const piece: Plan['piece'] = {
    shape: { kind: 'block', width_mm: 300, length_mm: 300 },
    fill: [{ material: 'pastry-cream', thickness_mm: 100, start_C: 80 }],
    mould: [
      { faces: ['sides', 'bottom'], material: 'stainless', thickness_mm: 1 },
      { faces: ['sides'], material: 'foam', thickness_mm: 20 },
    ],
  }
  const at: Pick<PlanStage, 'in' | 'until'> = { in: { air_C: 4, h_W_m2K: 8, walls_C: 4 }, until: { after_h: 1 } }
  const stages = stagesOf(
    [
      { name: 'in the mould', ...at },
      { name: 'covered', ...at, start: [{ do: 'cover', with: 'aluminium-foil' }] },
      {
        name: 'out',
        ...at,
        start: [{ do: 'unmould' }, { do: 'cover', with: 'film', thickness_mm: 0.05, faces: ['sides'] }],
      },
      { name: 'bare', ...at, start: [{ do: 'uncover' }] },
    ],
    { piece },
  )
  const names = (stage: number, face: string): string[] =>
    convective(stages[stage]!.faces[face]).resistances.map(({ name }) => name)

  test('the first wall of the plan lies on the piece, the next on it', () => {
    expect(names(0, 'left')).toEqual(['Stainless steel', 'Polystyrene foam'])
    expect(names(0, 'bottom')).toEqual(['Stainless steel'])
    expect(names(0, 'top')).toEqual([])
    const foam = convective(stages[0]!.faces.left).resistances[1]!
    expect(foam.R).toBeCloseTo(0.02 / getWall('foam').k, 12)
  })

  test('a cover lies on the top where no face is named, and stays until it is taken off', () => {
    expect([1, 2, 3].map((stage) => names(stage, 'top'))).toEqual([['Aluminium foil'], ['Aluminium foil'], []])
    expect(names(2, 'left')).toEqual(['Polyethylene film'])
    expect(names(3, 'left')).toEqual([])
  })

  test('what lies outermost shines in place of the food', () => {
    const shine = (stage: number, face: string) => convective(stages[stage]!.faces[face]).radiation?.emissivity
    expect(shine(0, 'top')).toBe(0.9)
    expect(shine(1, 'top')).toBe(getWall('aluminium-foil').emissivity)
    expect(shine(0, 'bottom')).toBe(getWall('stainless').emissivity)
    expect(shine(3, 'bottom')).toBe(0.9)
  })

  test('an emissivity that the plan gives counts for what lies outermost too', () => {
    const own = { in: { air_C: 4, h_W_m2K: 8, walls_C: 4, emissivity: 0.3 }, until: { after_h: 1 } }
    const [stage] = stagesOf([{ name: 'typed', ...own }], { piece })
    expect(convective(stage!.faces.bottom).radiation?.emissivity).toBe(0.3)
    expect(convective(stage!.faces.top).radiation?.emissivity).toBe(0.3)
  })

  test('air under a lid follows its temperatures over a film coefficient of the plan too', () => {
    const cover = { do: 'cover' as const, with: 'stainless', thickness_mm: 1, gap_mm: 20, faces: ['top'] }
    const [stage] = stagesOf([{ name: 'lid', ...at, start: [cover] }], { piece })
    const { top, left } = stage!.faces
    expect(top).toMatchObject({ kind: 'law', ambient: { air_C: expect.anything() } })
    expect(JSON.stringify(top)).toContain('"gap')
    expect(left!.kind).toBe('convective')
  })

  test('what was done is in the record', () => {
    expect(stages.map((stage) => stage.start)).toEqual([
      [],
      [{ do: 'cover', title: 'cover top with aluminium foil' }],
      [
        { do: 'unmould', title: 'take out of the mould' },
        { do: 'cover', title: 'cover left, right, front, back with polyethylene film' },
      ],
      [{ do: 'uncover', title: 'uncover top, left, right, front, back' }],
    ])
  })

  test('the thickness of a cover that was not given is told', () => {
    const { notes } = resolved({
      stages: [{ name: 'a', ...at, start: [{ do: 'cover', with: 'film' }] }],
    })
    expect(notes).toContainEqual({
      code: 'cover-default',
      values: { title: 'Polyethylene film', thickness_m: 0.02e-3 },
    })
  })

  test('the heat of a thick wall is followed once it is 2 % of the mass behind it, from a start that is told', () => {
    const made = (thickness_mm: number, material: string, more: object = {}) => {
      const { job, notes } = resolved({
        piece: { ...piece, mould: [{ faces: ['bottom'], material, thickness_mm, ...more }] },
      })
      const { bottom } = job.stages[0]!.faces
      const held = bottom?.kind === 'law' ? bottom.held : undefined
      return { held, said: notes.filter(({ code }) => code === 'mould-start-default') }
    }
    // 1 mm of steel 3.6 kJ/(m² K), 30 mm of stone 68; the cream behind, 100 mm of it, about 350.
    expect(made(1, 'stainless')).toEqual({ held: undefined, said: [] })
    const stone = made(30, 'stone')
    expect(stone.held!.nodes.reduce((sum, { heat }) => sum + heat, 0)).toBeGreaterThan(50e3)
    expect(stone.held!.nodes[0]!.start_C).toBe(20)
    expect(stone.said).toHaveLength(1)
    const chilled = made(30, 'stone', { start_C: -18 })
    expect(chilled.held!.nodes[0]!.start_C).toBe(-18)
    expect(chilled.said).toEqual([])
  })
})

test('what is asked and what was read, in seconds since the start', () => {
  const { targets, rules, readings, fidelity, job } = resolved({
    rules: ['fsanz-3.2.2-7', 'fda-food-code-2022'],
    fidelity: 'fine',
    targets: [
      { kind: 'cooled', core_C: 5, by: '2027-03-13T07:30' },
      { kind: 'baked', core_C: 93, most_C: 97 },
    ],
    probes: [{ name: 'heart', y: 0.4 }],
    readings: [{ probe: 'heart', at_h: 1.5, C: 62 }],
  })
  expect(targets).toEqual([
    { kind: 'cooled', core_C: 5, index: 0, by: 15.5 * h },
    { kind: 'baked', core_C: 93, most_C: 97, index: 1 },
  ])
  expect(rules.map(({ id }) => id)).toEqual(['fsanz-3.2.2-7', 'fda-food-code-2022'])
  expect(readings).toEqual([{ probe: 'heart', t: 1.5 * h, T_C: 62 }])
  expect(fidelity).toBe('fine')
  expect(job.probes).toEqual([{ name: 'heart', place: { x: 0.5, y: 0.4, z: 0.5 } }])
})

test('defaults that nobody asked about are told', () => {
  const { notes, fidelity } = resolved({
    piece: { shape: { kind: 'sheet' }, fill: [{ material: 'sponge-batter', thickness_mm: 60, start_C: 22 }] },
  })
  expect(fidelity).toBe('standard')
  expect(notes).toContainEqual({ code: 'area-default', values: { area_m2: 1 } })
})

test('every note makes a sentence', () => {
  const { notes } = resolved({
    piece: {
      shape: { kind: 'round', diameter_mm: 300 },
      fill: [{ material: 'pastry-cream', thickness_mm: 80, start_C: 80 }],
      mould: [{ faces: ['all'], material: 'stone', thickness_mm: 40 }],
    },
    stages: [
      { name: 'a', in: 'bench', start: [{ do: 'cover', with: 'film' }], until: { core_C: 30 } },
      { name: 'b', in: { like: 'fridge-fan', faces: { bottom: { board_mm: 12 } } }, until: { core_C: 5 } },
    ],
  })
  expect(notes.length).toBeGreaterThan(8)
  for (const note of notes) expect(say(note, metric)).not.toMatch(/undefined|NaN|\[object/)
})
