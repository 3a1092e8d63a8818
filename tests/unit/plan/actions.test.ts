import { describe, expect, test } from 'vitest'
import type { LawFace } from '../../../src/core/boundary/face.ts'
import { elementaryFaces } from '../../../src/core/geometry/body.ts'
import type { Action } from '../../../src/core/journey/job.ts'
import { findPlanFaults } from '../../../src/core/plan/read.ts'
import { resolvePlan } from '../../../src/core/plan/resolve.ts'
import { drainedThickness } from '../../../src/core/plan/resolve-actions.ts'
import type { Plan, PlanAction, PlanStage } from '../../../src/core/plan/schema/plan.ts'
import { aPlan } from './a-plan.ts'

const trough: Plan['piece'] = {
  shape: { kind: 'trough', radius_mm: 120, length_mm: 900 },
  fill: [{ material: 'egg-custard', start_C: 20 }],
}
const bar: Plan['piece'] = {
  shape: { kind: 'bar', width_mm: 200, length_mm: 900 },
  fill: [{ material: 'egg-custard', thickness_mm: 80, start_C: 20 }],
}
const still = { air_C: 4, h_W_m2K: 8 }
const sides = { ...still, faces: { top: { h_W_m2K: 20 }, bottom: { h_W_m2K: 3 } } }
const stage = (start: PlanAction[], change: Partial<PlanStage> = {}): PlanStage => ({
  name: 'one',
  in: sides,
  start,
  until: { after_h: 1 },
  ...change,
})
const plan = (piece: Plan['piece'], stages: PlanStage[], change: Partial<Plan> = {}): Plan =>
  aPlan({ piece, stages, ...change })
const faultsOf = (one: Plan): string[] =>
  findPlanFaults(one).map(({ path, problem, remedy }) => `${path}: ${problem}; ${remedy}`)
const firstFault = (one: Plan): string => faultsOf(one)[0] ?? 'none'
const coat: PlanAction = { do: 'coat', material: 'dark-chocolate', thickness_mm: 2, start_C: 34 }
const pour: PlanAction = { do: 'pour', material: 'dark-chocolate', thickness_mm: 2, start_C: 34 }
const films = (one: Plan, at: number): Record<string, number> =>
  Object.fromEntries(
    Object.entries(resolvePlan(one).job.stages[at]!.faces).map(([face, condition]) => [
      face,
      condition.kind === 'convective' ? condition.h : Number.NaN,
    ]),
  )
const actionsOf = <Kind extends Action['do']>(one: Plan, kind: Kind): Extract<Action, { do: Kind }>[] =>
  resolvePlan(one).job.stages.flatMap(({ start }) =>
    start.filter((action): action is Extract<Action, { do: Kind }> => action.do === kind),
  )

describe('turning over', () => {
  test('top and bottom of the surroundings are what lies so', () => {
    const one = plan(bar, [stage([]), stage([{ do: 'turn' }])])
    expect(faultsOf(one)).toEqual([])
    expect(films(one, 0)).toMatchObject({ top: 20, bottom: 3, left: 8 })
    expect(films(one, 1)).toMatchObject({ top: 3, bottom: 20, left: 8 })
  })

  test('the flat side of a half-round is its top in the mould, its bottom after', () => {
    const turned = { ...still, faces: { bottom: { h_W_m2K: 3 } } }
    const one = plan(trough, [stage([], { in: still }), stage([{ do: 'turn' }], { in: turned })])
    expect(faultsOf(one)).toEqual([])
    expect(films(one, 1)).toMatchObject({ top: 3, curved: 8 })
    expect(faultsOf(plan(trough, [stage([{ do: 'turn' }, pour], { in: still })]))).toEqual([
      'stages[0].start[1]: pour, but nothing can be laid on a trough as it lies; give it as the fill or a lining',
    ])
  })

  test('what is poured on a turned bar lies on what was its bottom', () => {
    expect(actionsOf(plan(bar, [stage([{ do: 'turn' }, pour])]), 'pour')[0]!.end).toBe('low')
    expect(actionsOf(plan(bar, [stage([{ do: 'turn' }, { do: 'turn' }, pour])]), 'pour')[0]!.end).toBe('high')
  })

  test('a cover stays on the face that it was laid on', () => {
    const one = plan(bar, [
      stage([{ do: 'cover', with: 'film', faces: ['top'] }, { do: 'turn' }]),
      stage([{ do: 'uncover', faces: ['bottom'] }]),
    ])
    expect(faultsOf(one)).toEqual([])
    const resistances = (at: number, face: string): number => {
      const condition = resolvePlan(one).job.stages[at]!.faces[face]!
      return condition.kind === 'convective' ? condition.resistances.length : Number.NaN
    }
    expect([resistances(0, 'top'), resistances(0, 'bottom'), resistances(1, 'top')]).toEqual([1, 0, 0])
  })

  test('what is the same either way up is not turned', () => {
    const ball: Plan['piece'] = {
      shape: { kind: 'ball', diameter_mm: 200 },
      fill: [{ material: 'egg-custard', start_C: 20 }],
    }
    expect(faultsOf(plan(ball, [stage([{ do: 'turn' }], { in: still })]))).toEqual([
      'stages[0].start[0]: turn, but a ball is the same either way up; take this out',
    ])
  })
})

describe('coats', () => {
  test('all but the bottom where no faces are named', () => {
    const [first] = actionsOf(plan(bar, [stage([coat])]), 'coat')
    expect(first!.faces).toEqual(['left', 'right', 'top', 'front', 'back'])
    expect(first!.layer.thickness).toBeCloseTo(0.002, 12)
    expect(actionsOf(plan(bar, [stage([{ do: 'turn' }, coat])]), 'coat')[0]!.faces).not.toContain('top')
  })

  /* Film held on an upright face: ρ g h = τ; 5, 10, 20 Pa hold 0.42, 0.85, 1.7 mm of 1200 kg/m³ (from memory). */
  test('what a melt of some yield stress leaves when it has drained', () => {
    expect(drainedThickness(5, 1200)).toBeCloseTo(0.42e-3, 5)
    expect(drainedThickness(10, 1200)).toBeCloseTo(0.85e-3, 5)
    expect(drainedThickness(20, 1200)).toBeCloseTo(1.7e-3, 5)
    const { thickness_mm: _, ...bare } = coat
    const drained = plan(bar, [stage([{ ...bare, yield_Pa: 10 }])])
    const { layer } = actionsOf(drained, 'coat')[0]!
    expect(layer.thickness).toBeCloseTo(10 / (layer.material.density * 9.80665), 12)
    expect(resolvePlan(drained).notes.map(({ code }) => code)).toContain('coat-drained')
  })

  test('not in the mould, not under a cover, not without a thickness, not with two', () => {
    const moulded = { ...bar, mould: [{ faces: ['bottom', 'sides'], material: 'silicone', thickness_mm: 5 }] }
    expect(faultsOf(plan(moulded, [stage([coat])]))).toEqual([
      'stages[0].start[0]: coat, but the piece is in its mould; unmould it first',
    ])
    expect(faultsOf(plan(moulded, [stage([{ do: 'unmould' }, coat])]))).toEqual([])
    expect(faultsOf(plan(bar, [stage([{ do: 'cover', with: 'film' }, coat])]))).toEqual([
      'stages[0].start[1]: coat, but the top is covered; uncover it first',
    ])
    const { thickness_mm: _, ...bare } = coat
    expect(faultsOf(plan(bar, [stage([bare])]))).toEqual([
      'stages[0].start[0].thickness_mm: is missing; give it in mm, or the yield stress of the melt in Pa',
    ])
    expect(faultsOf(plan(bar, [stage([{ ...coat, yield_Pa: 5 }])]))).toEqual([
      'stages[0].start[0].yield_Pa: stands beside thickness_mm; give one of them',
    ])
  })
})

describe('cuts', () => {
  test('one from the middle, and how many there are', () => {
    const cut = actionsOf(plan(bar, [stage([{ do: 'cut', across: 3, along: 5 }])]), 'cut')[0]!
    expect(cut.pieces).toBe(15)
    expect(cut.keep).toEqual([
      { axis: 0, low: 0.5 - 0.5 / 3, high: 0.5 + 0.5 / 3 },
      { axis: 2, low: 0.4, high: 0.6 },
    ])
    // Of two halves the one just above the middle.
    const halved = actionsOf(plan(bar, [stage([{ do: 'cut', across: 2 }])]), 'cut')[0]!
    expect(halved.keep).toEqual([{ axis: 0, low: 0.5, high: 1 }])
    const slice = actionsOf(plan(trough, [stage([{ do: 'cut', slice_mm: 90 }], { in: still })]), 'cut')[0]!
    expect(slice.pieces).toBeCloseTo(10, 9)
  })

  test('the new faces take the film of the sides, or what the plan says of "cut"', () => {
    const one = plan(bar, [
      stage([{ do: 'cut', along: 5 }]),
      stage([], { in: { ...sides, faces: { cut: { h_W_m2K: 1 } } } }),
    ])
    expect(faultsOf(one)).toEqual([])
    expect(films(one, 0)).toMatchObject({ cut: 8, top: 20 })
    expect(films(one, 1)).toMatchObject({ cut: 1 })
    expect(Object.keys(films(one, 0))).not.toContain('front')
  })

  test('ways that a shape can not be cut, cuts that say nothing, cuts in the mould and twice', () => {
    const cutting = (action: PlanAction): string => firstFault(plan(bar, [stage([action])]))
    expect(cutting({ do: 'cut', wedges: 6 })).toBe(
      'stages[0].start[0]: cut, but not so: a bar of this size can be cut by across, along, slice_mm; give across or along or slice_mm',
    )
    expect(cutting({ do: 'cut' })).toContain('into how many?')
    expect(cutting({ do: 'cut', along: 2, slice_mm: 20 })).toContain('stands beside along')
    expect(cutting({ do: 'cut', along: 1.5 })).toContain('give a whole number')
    const twice: PlanAction[] = [
      { do: 'cut', along: 2 },
      { do: 'cut', across: 2 },
    ]
    expect(firstFault(plan(bar, [stage(twice)]))).toContain('it was cut before')
  })
})

describe('boards and spacers', () => {
  const faceAt = (name: string, start: PlanAction[]): LawFace => {
    const condition = resolvePlan(plan(bar, [stage(start, { in: 'room-still' })])).job.stages[0]!.faces[name]!
    if (condition.kind !== 'law') throw new Error(condition.kind)
    return condition
  }
  const under = (start: PlanAction[]): number => faceAt('bottom', start).resistances.reduce((sum, { R }) => sum + R, 0)

  test('a board is a resistance below, spacers let the air of the sides under', () => {
    expect(under([{ do: 'stand', on: 'shelf' }])).toBe(0)
    expect(under([{ do: 'stand', on: 'board', board_mm: 18 }])).toBeGreaterThan(0.1)
    expect(faceAt('bottom', [{ do: 'stand', on: 'spacers' }]).key).toBe(faceAt('left', []).key)
    expect(faceAt('bottom', [{ do: 'stand', on: 'shelf' }]).key).not.toBe(faceAt('left', []).key)
  })

  test('nothing flat below, no thickness of spacers', () => {
    expect(faultsOf(plan(trough, [stage([{ do: 'stand', on: 'board' }], { in: still })]))).toEqual([
      'stages[0].start[0]: stand, but there is no flat side below; turn it over first, or take this out',
    ])
    expect(faultsOf(plan(bar, [stage([{ do: 'stand', on: 'spacers', board_mm: 10 }])]))).toEqual([
      'stages[0].start[0].board_mm: is not asked on spacers; leave it out',
    ])
  })
})

describe('repeats', () => {
  test('what lies between is done so many times in all, each with its own name', () => {
    const one = plan(bar, [
      stage([]),
      stage([coat], { name: 'Dip' }),
      stage([], { name: 'Set', repeat: { from: 'Dip', times: 3 } }),
      stage([], { name: 'Hold' }),
    ])
    expect(faultsOf(one)).toEqual([])
    expect(resolvePlan(one).job.stages.map(({ name }) => name)).toEqual([
      'one',
      'Dip',
      'Set',
      'Dip (2)',
      'Set (2)',
      'Dip (3)',
      'Set (3)',
      'Hold',
    ])
    expect(new Set(actionsOf(one, 'coat').map(({ layer }) => layer.name)).size).toBe(3)
  })

  test('no such stage, a later one, a cut again and again', () => {
    const repeating = (repeat: NonNullable<PlanStage['repeat']>, start: PlanAction[] = []): string[] =>
      faultsOf(plan(bar, [stage(start, { name: 'a', repeat }), stage([], { name: 'b' })]))
    expect(repeating({ from: 'c', times: 2 })[0]).toContain('no stage is called "c"')
    expect(repeating({ from: 'b', times: 2 })[0]).toContain('"b" comes later')
    expect(repeating({ times: 2 }, [{ do: 'cut', along: 2 }])).toContain(
      'stages[0].repeat: repeats a cut; cut once, before or after',
    )
  })
})

describe('ends', () => {
  const ending = (until: PlanStage['until'], change: Partial<Plan> = {}) => {
    const one = plan(bar, [stage([], { until })], change)
    return { fault: firstFault(one), until: () => resolvePlan(one).job.stages[0]!.until }
  }

  test('surface, mean, a probe, a target', () => {
    expect(ending({ surface_C: 5, mean_C: 6 }).until()).toMatchObject({ surface_C: 5, mean_C: 6 })
    const probes = [{ name: 'rim', x: 0.9 }]
    expect(ending({ probe: { name: 'rim', C: 7 } }, { probes }).until()).toMatchObject({
      place: { place: { x: 0.9, y: 0.5, z: 0.5 }, T_C: 7 },
    })
    const targets: Plan['targets'] = [{ kind: 'cooled', core_C: 5 }]
    expect(ending({ target: 'cooled' }, { targets }).until()).toMatchObject({ core_C: 5 })
    expect(ending({ probe: { name: 'rim', C: 7 } }).fault).toContain('no probe is called "rim"')
    expect(ending({ target: 'frozen' }, { targets }).fault).toContain('no target that a stage can wait for')
    const asked: Plan['targets'] = [{ kind: 'set' }, { kind: 'edge' }]
    expect(ending({ target: 'set', max_h: 40 }, { targets: asked }).until()).toMatchObject({ max: 40 * 3600 })
    expect(ending({ target: 'set' }, { targets: asked }).until().met).toBeTypeOf('function')
    expect(ending({ target: 'edge' }, { targets: asked }).fault).toContain('no target that a stage can wait for')
    expect(ending({ target: 'cooled', core_C: 4 }, { targets }).fault).toContain('stands beside core_C')
  })
})

describe('a stirred mass', () => {
  const vessel: Plan['piece'] = {
    shape: { kind: 'stirred', volume_L: 20, diameter_mm: 300 },
    fill: [{ material: 'egg-custard', start_C: 5 }],
  }

  test('a burner gives its power evenly', () => {
    const one = plan(vessel, [stage([], { in: still, power_W: 2000 })])
    expect(faultsOf(one)).toEqual([])
    const { job } = resolvePlan(one)
    expect(job.stages[0]!.source).toBeCloseTo(2000 / 0.02, 6)
    expect(elementaryFaces(job.body)).toEqual(['sides', 'bottom', 'top'])
  })

  test('no lining, no coat, no burner under what is not stirred', () => {
    const lined = { ...vessel, lining: [{ material: 'almond-sponge', thickness_mm: 5, start_C: 20 }] }
    expect(firstFault(plan(lined, [stage([], { in: still })]))).toContain('has no lining')
    expect(firstFault(plan(vessel, [stage([coat], { in: still })]))).toContain('the mass is stirred')
    expect(firstFault(plan(bar, [stage([], { power_W: 100 })]))).toContain('is for a stirred mass')
  })
})

describe('half-round moulds', () => {
  const custard = { material: 'egg-custard', start_C: 20 }
  const filled = (fill: Plan['piece']['fill'], lining: NonNullable<Plan['piece']['lining']> = []): string =>
    firstFault(plan({ ...trough, fill, lining }, [stage([], { in: still })]))

  test('one layer may take what is left; more than the mould takes is too much', () => {
    expect(filled([custard, { ...custard, thickness_mm: 9 }])).toBe('none')
    expect(filled([{ ...custard, thickness_mm: 50 }])).toBe('none')
    expect(filled([custard, custard])).toContain('is missing as well')
    const [high, low] = [
      { ...custard, thickness_mm: 80 },
      { ...custard, thickness_mm: 50 },
    ]
    expect(filled([high, low])).toContain('the mould takes 120 mm')
    expect(filled([custard, { ...custard, thickness_mm: 115 }], [{ ...custard, thickness_mm: 9 }])).toContain(
      'the mould takes 111 mm',
    )
    expect(filled([{ ...custard, thickness_mm: 5 }])).toContain('too shallow')
  })

  test('a shallow lowest layer says what it costs', () => {
    const notes = (thickness_mm: number) =>
      resolvePlan(plan({ ...trough, fill: [{ ...custard, thickness_mm }] }, [stage([], { in: still })])).notes
    expect(notes(30).find(({ code }) => code === 'level-shallow')?.values).toEqual({ error_pct: 0.9 })
    expect(notes(115).some(({ code }) => code === 'level-shallow')).toBe(false)
  })
})

test('a ring has a hole that is smaller than itself', () => {
  const ring: Plan['piece'] = {
    shape: { kind: 'ring', outer_mm: 200, inner_mm: 220 },
    fill: [{ material: 'egg-custard', thickness_mm: 80, start_C: 20 }],
  }
  expect(faultsOf(plan(ring, [stage([])]))).toContain(
    'piece.shape.inner_mm: is no smaller than the ring; give less than 200',
  )
})

describe('directions of the model', () => {
  const modelled = (length_mm: number, change: Partial<Plan> = {}) => {
    const long = { ...bar, shape: { kind: 'bar' as const, width_mm: 200, length_mm } }
    const { job, notes } = resolvePlan(plan(long, [stage([])], change))
    return { faces: elementaryFaces(job.body), codes: notes.map(({ code }) => code) }
  }

  test('ends of a long bar are left out, those of a short one are in the model; both are said', () => {
    expect(modelled(1500).faces).toEqual(['left', 'right', 'bottom', 'top'])
    expect(modelled(1500).codes).toContain('axis-left-out')
    expect(modelled(250).faces).toContain('front')
    expect(modelled(250).codes).toContain('axis-kept')
  })

  test('a plan may ask for a number of directions', () => {
    expect(modelled(1500, { dimensions: 3 }).faces).toContain('front')
    expect(modelled(250, { dimensions: 2 }).faces).toEqual(['left', 'right', 'bottom', 'top'])
    expect(modelled(250, { dimensions: 1 }).faces).toEqual(['bottom', 'top'])
  })
})

describe('laying on, wrapping, opening the door', () => {
  const place: PlanAction = { do: 'place', material: 'sponge-crumb', thickness_mm: 12, start_C: -18 }
  const codes = (one: Plan): string[] => resolvePlan(one).notes.map(({ code }) => code)

  test('a ready layer is laid on like a pour, as cold as it is', () => {
    const one = plan(bar, [stage([place])])
    expect(faultsOf(one)).toEqual([])
    expect(actionsOf(one, 'pour')).toMatchObject([{ end: 'high', layer: { thickness: 0.012, start_C: -18 } }])
    expect(codes(one)).toContain('layer-laid')
  })

  test('wrapping covers every face that is bare, and is taken off by uncovering', () => {
    const one = plan(bar, [
      stage([{ do: 'cover', with: 'aluminium-foil' }, { do: 'wrap' }], { in: sides }),
      stage([{ do: 'uncover' }], { in: sides }),
    ])
    expect(faultsOf(one)).toEqual([])
    const layersOn = (at: number) =>
      Object.fromEntries(
        Object.entries(resolvePlan(one).job.stages[at]!.faces).map(([face, condition]) => [
          face,
          condition.kind === 'convective' ? condition.resistances.map(({ name }) => name) : null,
        ]),
      )
    const [top, other] = [layersOn(0).top, layersOn(0).bottom]
    expect(top).toHaveLength(1)
    expect(other).toHaveLength(1)
    expect(top).not.toEqual(other)
    expect(layersOn(0)).toMatchObject({ left: other, right: other })
    expect(layersOn(1)).toMatchObject({ top: [], bottom: [], left: [] })
    expect(firstFault(plan(bar, [stage([{ do: 'wrap' }, { do: 'wrap' }])]))).toMatch(/wrap, but .* covered already/)
  })

  test('an open door is one of its appliance; plain air stays as given, and that is said', () => {
    const cabinet = plan(bar, [stage([{ do: 'open-door', minutes: 10 }], { in: 'cabinet-fridge' })])
    expect(resolvePlan(cabinet).job.stages[0]!.applianceFigures?.openings).toEqual([
      { from: 0, to: 600, conductance: 20 },
    ])
    expect(codes(cabinet)).not.toContain('door-without-appliance')
    expect(codes(plan(bar, [stage([{ do: 'open-door', minutes: 10 }])]))).toContain('door-without-appliance')
  })

  test('what a new face begins with is said', () => {
    expect(codes(plan(bar, [stage([{ do: 'cut', along: 3 }])]))).toContain('faces-cut')
    const moulded = { ...bar, mould: [{ faces: ['sides'], material: 'silicone', thickness_mm: 4 }] }
    expect(codes(plan(moulded, [stage([{ do: 'unmould' }])]))).toContain('faces-bared')
  })

  test('air can be placed, not poured, and needs something around it', () => {
    const gap = { ...place, material: 'air' } as PlanAction
    expect(faultsOf(plan(bar, [stage([gap, place])]))).toEqual([])
    expect(firstFault(plan(bar, [stage([{ ...gap, do: 'pour' } as PlanAction])]))).toMatch(/is air, which can't/)
    const bare = { ...bar, fill: [{ material: 'air', thickness_mm: 10, start_C: 20 }, ...bar.fill] }
    expect(firstFault(plan(bare, [stage([])]))).toMatch(/nothing around to hold it/)
    const outside = { ...bar, lining: [{ material: 'air', thickness_mm: 4, start_C: 20 }] }
    expect(firstFault(plan(outside, [stage([])]))).toMatch(/nothing outside to hold it/)
  })
})
