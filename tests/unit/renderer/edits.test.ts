import { describe, expect, test } from 'vitest'
import { shapeTitles } from '../../../src/core/geometry/shapes/index.ts'

import { planSchema } from '../../../src/core/plan/schema/plan.ts'
import { addFill, addLining, addMould, layerRows, moveLayer, removeLayer } from '../../../src/renderer/edits/layers.ts'
import { pathKeys, readAt, writeAt } from '../../../src/renderer/edits/path.ts'
import { mouldFaces, type ShapeKind, withShape } from '../../../src/renderer/edits/shape.ts'
import * as stages from '../../../src/renderer/edits/stages.ts'
import { addTarget, removeTarget, withRule, withTargetKind } from '../../../src/renderer/edits/targets.ts'
import { ball, bar } from './plans.ts'

const rowOf = (plan: typeof bar, name: string) => {
  const row = layerRows(plan).find((one) => one.name === name)
  if (row === undefined) throw new Error(`no ${name}`)
  return row
}

describe('fields by their path', () => {
  test('paths are written as the core writes them in faults', () => {
    expect(pathKeys('stages[1].start[0].start_C')).toEqual(['stages', 1, 'start', 0, 'start_C'])
    expect(readAt(bar, 'stages[1].start[1].start_C')).toBe(70)
    expect(readAt(bar, 'stages[9].until.after_h')).toBe(undefined)
  })

  test('a change touches its own branch only, and none at all when nothing changes', () => {
    const next = writeAt(bar, 'piece.fill[0].thickness_mm', 90)
    expect(readAt(next, 'piece.fill[0].thickness_mm')).toBe(90)
    expect(next.stages).toBe(bar.stages)
    expect(next.piece.fill[1]).toBe(bar.piece.fill[1])
    expect(readAt(bar, 'piece.fill[0].thickness_mm')).toBe(80)
    expect(writeAt(bar, 'piece.fill[0].thickness_mm', 80)).toBe(bar)
  })

  test('undefined takes a key away', () => {
    expect('targets' in writeAt(bar, 'targets', undefined)).toBe(false)
  })
})

describe('layers', () => {
  test('the list goes from the top of the piece to its outside', () => {
    expect(layerRows(bar).map(({ name }) => name)).toEqual([
      'stages[1].start[1]',
      'fill[1]',
      'fill[0]',
      'lining[0]',
      'mould[0]',
    ])
  })

  test('a fill moves up in the list by moving up in the piece', () => {
    const { plan, name } = moveLayer(bar, rowOf(bar, 'fill[0]'), true)
    expect(name).toBe('fill[1]')
    expect(plan.piece.fill.map(({ material }) => material)).toEqual(['sponge', 'custard'])
    const top = rowOf(bar, 'fill[1]')
    expect(top.canRise).toBe(false)
    expect(moveLayer(bar, top, true).plan).toBe(bar)
  })

  test('linings and walls move the way the list shows them', () => {
    const lined = addLining(bar, 'biscuit').plan
    expect(layerRows(lined).map(({ name }) => name)).toContain('lining[1]')
    // listed from within: lining[1] above lining[0]; moving lining[0] up takes it inward
    expect(moveLayer(lined, rowOf(lined, 'lining[0]'), true).name).toBe('lining[1]')
    const walled = addMould(bar, 'board', mouldFaces(bar.piece.shape)).plan
    expect(moveLayer(walled, rowOf(walled, 'mould[1]'), true).name).toBe('mould[0]')
  })

  test('the last fill can’t be taken away; empty lists go', () => {
    const one = removeLayer(bar, rowOf(bar, 'fill[1]'))
    expect(removeLayer(one, rowOf(one, 'fill[0]'))).toBe(one)
    expect('lining' in removeLayer(bar, rowOf(bar, 'lining[0]')).piece).toBe(false)
    const unpoured = removeLayer(bar, rowOf(bar, 'stages[1].start[1]'))
    expect(unpoured.stages[1]?.start?.map((action) => action.do)).toEqual(['cover'])
  })

  test('every edit leaves a plan that the schema takes', () => {
    for (const plan of [
      addFill(bar).plan,
      addLining(bar, 'sponge').plan,
      addMould(bar, 'steel', mouldFaces(bar.piece.shape)).plan,
      stages.addStage(bar),
      stages.duplicateStage(bar, 1),
      stages.moveStage(bar, 0, 1),
      stages.removeStage(bar, 0),
      ...(['pour', 'cover', 'uncover', 'unmould', 'coat', 'turn', 'stand', 'cut'] as const).map((kind) =>
        stages.addAction(bar, 0, kind),
      ),
      ...(['after', 'core', 'surface', 'mean', 'probe', 'target', 'clock', 'moment'] as const).flatMap((kind) =>
        [0, 1, 2].map((i) => stages.withEnd(bar, i, kind)),
      ),
      ...(['cooled', 'frozen', 'baked'] as const).flatMap((kind) => [
        addTarget(bar, kind),
        withTargetKind(bar, 0, kind),
      ]),
      removeTarget(bar, 0),
      withRule(bar, 'a-rule', true),
    ]) {
      expect(planSchema.safeParse(plan).error?.issues ?? []).toEqual([])
    }
  })
})

describe('shapes', () => {
  test('every change of shape gives a plan that the schema takes, with faces that the shape has', () => {
    const kinds = Object.keys(shapeTitles) as ShapeKind[]
    for (const from of [bar, ball]) {
      for (const first of kinds) {
        for (const second of kinds) {
          const plan = withShape(withShape(from, first), second)
          expect(planSchema.safeParse(plan).error?.issues ?? [], `${first} to ${second}`).toEqual([])
        }
      }
    }
  })

  test('a ball keeps one fill and no thickness; back again the fill gets one', () => {
    const round = withShape(bar, 'ball')
    expect(round.piece.fill).toEqual([{ material: 'custard', start_C: 60 }])
    expect(withShape(round, 'block').piece.fill[0]?.thickness_mm).toBeGreaterThan(0)
  })

  test('the faces of a mould follow the shape', () => {
    expect(withShape(bar, 'ball').piece.mould?.[0]?.faces).toEqual(['curved'])
    expect(withShape(bar, 'sheet').piece.mould?.[0]?.faces).toEqual(['bottom'])
  })
})

describe('stages', () => {
  test('an end that waits for a probe or a target is offered where there is one, and waits with a guard', () => {
    const probed = { ...bar, probes: [{ name: 'heart' }] }
    const first = probed.stages[0]!
    expect(stages.endKinds({ ...probed, targets: [] }, first)).not.toContain('target')
    expect(stages.endKinds({ ...bar, probes: [] }, first)).not.toContain('probe')
    expect(stages.withEnd(probed, 0, 'probe').stages[0]?.until).toEqual({ probe: { name: 'heart', C: 5 }, max_h: 2 })
    expect(stages.withEnd(probed, 0, 'target').stages[0]?.until).toEqual({ target: 'frozen', max_h: 2 })
    for (const kind of stages.endKinds(probed, first)) {
      expect(stages.endKind(stages.withEnd(probed, 0, kind).stages[0]!)).toBe(kind)
    }
  })

  test('starts are known from hours and clock, and from the forecast behind a core end', () => {
    // 16:00 + 2 h = 18:00; the next 08:00 is 16 h after the start
    const after = { ...bar, stages: [...bar.stages, { name: 'Fridge', in: 'fridge-static', until: { after_h: 4 } }] }
    expect(stages.stageStarts(after, null).map((start) => start?.at_h ?? null)).toEqual([0, 2, 16, null])
  })

  test('a copy does not pour again', () => {
    const plan = stages.duplicateStage(bar, 1)
    expect(plan.stages[2]).toEqual({
      name: 'Cold room, again',
      in: { air_C: 2, h_W_m2K: 12 },
      until: { clock: '08:00' },
    })
  })

  test('the last stage stays; nothing moves past the ends', () => {
    const one = stages.removeStage(ball, 0)
    expect(one).toBe(ball)
    expect(stages.moveStage(bar, 0, -1)).toBe(bar)
    expect(stages.moveStage(bar, 2, 1)).toBe(bar)
  })
})
