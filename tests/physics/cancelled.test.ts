import { describe, expect, it } from 'vitest'

import { changes } from '../../src/core/choosing/changes/registry.ts'
import { whatWouldHelp } from '../../src/core/choosing/help.ts'
import { findLimit } from '../../src/core/choosing/limit.ts'
import { oneNumber } from '../../src/core/choosing/one-number.ts'
import type { Control } from '../../src/core/control.ts'
import { computeSamples, prepareSpread } from '../../src/core/deciding/spread-samples.ts'
import { Cancelled } from '../../src/core/errors.ts'
import { fitPlan } from '../../src/core/fitting/fit.ts'
import { forecast } from '../../src/core/forecast.ts'
import type { Plan } from '../../src/core/plan/schema/plan.ts'

// Work stops where it is asked to: at the first look that says so nothing more is done, wherever in the work it falls.

const plan: Plan = {
  format: 'thickset-plan',
  version: 1,
  title: 'Cream, a hand high',
  startsAt: '2027-03-12T16:00',
  fidelity: 'quick',
  materials: { cream: { fixed: { k_W_mK: 0.48, rho_kg_m3: 1050, c_J_kgK: 3500 } } },
  piece: { shape: { kind: 'sheet', area_m2: 0.2 }, fill: [{ material: 'cream', thickness_mm: 90, start_C: 70 }] },
  stages: [{ name: 'Chill', in: { air_C: 3, h_W_m2K: 8 }, until: { after_h: 20 } }],
  rules: ['fda-food-code-2022'],
  targets: [{ kind: 'cooled', core_C: 10, by: '2027-03-13T08:00' }],
}
const question = { of: 'target', index: 0 } as const
const readings = [55, 41, 33, 26, 21].map((C, hour) => ({ probe: 'core', at_h: hour + 1, C }))

const works: readonly { readonly name: string; readonly run: (control: Control) => unknown }[] = [
  { name: 'forecast', run: (control) => forecast(plan, control) },
  {
    name: 'spread',
    run: (control) => {
      const task = prepareSpread(plan, { runs: 6, seed: 1 }, control)
      return computeSamples(task, 0, 6, control)
    },
  },
  {
    name: 'decide',
    run: (control) => whatWouldHelp(plan, question, { closely: 1, changes: changes.slice(0, 3) }, control),
  },
  {
    name: 'thickest',
    run: (control) =>
      findLimit(
        oneNumber(plan, 'fill[0].thickness_mm'),
        question,
        { end: 'greatest', from: 80, to: 110, points: 3 },
        control,
      ),
  },
  { name: 'fit', run: (control) => fitPlan(plan, readings, { factors: ['film'] }, control) },
]

/** How often work looks whether it is wanted, and how often it goes on after the look that said no. */
function looksOf(run: (control: Control) => unknown, most = Number.POSITIVE_INFINITY) {
  let looks = 0
  let told = 0
  let ended: unknown
  const control: Control = {
    stopped: () => ++looks > most,
    report: () => {
      if (looks > most) told++
    },
  }
  try {
    run(control)
  } catch (error) {
    ended = error
  }
  return { looks, told, ended }
}

describe.each(works)('$name, cancelled', ({ run }) => {
  const all = looksOf(run).looks

  it.each([0, 0.25, 0.5, 0.75, 0.9, 1])('at %f of its looks ends with that look', (share) => {
    const most = Math.min(all - 1, Math.floor(all * share))
    const { looks, told, ended } = looksOf(run, most)
    expect(ended).toBeInstanceOf(Cancelled)
    expect(looks).toBe(most + 1)
    expect(told).toBe(0)
  })
})

it('a forecast is stopped between its judgements too, not only between steps', () => {
  let looks = 0
  let ofCourse = 0
  const stopped = (): boolean => {
    looks++
    return false
  }
  forecast(plan, { stopped }, (_, nominal) => {
    ofCourse = looks
    return { nominal, moved: [] }
  })
  // one before each rule, each target, and each of what is told unasked
  expect(looks - ofCourse).toBeGreaterThanOrEqual(10)
})
