import { describe, expect, test } from 'vitest'
import { forecast } from '../../src/core/forecast.ts'
import { sheetBody } from '../../src/core/geometry/shapes/sheet.ts'
import { runJourney } from '../../src/core/journey/journey.ts'
import { fixedMaterial } from '../../src/core/materials/fixed.ts'
import { judgeTarget } from '../../src/core/outcomes/targets/index.ts'
import type { Plan } from '../../src/core/plan/schema/plan.ts'
import { held, insulated, jobOf, stage } from './jobs.ts'

/*
 * How deep an edge dries, against the solid that is heated from one side: its crust ends where 100.5 °C does, and in a
 * half-infinite solid whose face is held at a temperature that lies at x = 2 z √(α t), with erfc z the share of the rise
 * (Carslaw and Jaeger 1959, Conduction of Heat in Solids, section 2.5). That crust and crumb part at 100 °C: Zanoni,
 * Peri, Pierucci 1993, J. Food Eng. 19, 389 (from memory).
 */

const [k, rho, c] = [0.4, 500, 2800]
/** So hot that it dries, and not so hot that it burns meanwhile. */
const [start_C, face_C] = [20, 140]
/** erfc z = (100.5 − 20) / (140 − 20) = 0.6708: erf is 0.32863 at 0.30 and 0.33891 at 0.31 (Abramowitz and Stegun 1964, table 7.1, from memory). */
const Z = 0.3005
const depthAfter = (seconds: number): number => 2 * Z * Math.sqrt((k / (rho * c)) * seconds)

const crumb = fixedMaterial({ id: 'crumb', title: 'Crumb', k, rho, c })
const body = sheetBody({})
/** So thick that the far side stays as it was. */
const THICK = 0.16

const course = (hours: number) =>
  runJourney(jobOf(body, crumb, THICK, start_C, [stage(body, insulated, hours, { top: held(face_C) })]), {
    fidelity: 'fine',
  })

describe('the depth to which an edge dries', () => {
  test.each([0.25, 0.5, 1])('after %s h in the hot', (hours) => {
    const exact = depthAfter(3600 * hours)
    const baked = course(hours)
    const { why } = judgeTarget({ kind: 'edge', index: 0, most: 0.1 }, baked)
    expect(why.values.depth_m).toBeGreaterThan(exact * 0.98)
    expect(why.values.depth_m).toBeLessThan(exact * 1.02)
  })

  test('is told where no more than the outer part of a cell has dried', () => {
    const { why } = judgeTarget({ kind: 'edge', index: 0, most: 0.1 }, course(1 / 3600))
    expect(why.code).toBe('edge-kept')
    expect(why.values.depth_m).toBeGreaterThan(0)
    expect(why.values.depth_m).toBeLessThan(2 * depthAfter(1))
  })

  test('is too much from the moment on at which the exact one is', () => {
    const most = 0.015
    const exact_h = most ** 2 / (4 * Z * Z * (k / (rho * c))) / 3600
    const answerAfter = (hours: number) => judgeTarget({ kind: 'edge', index: 0, most }, course(hours)).answer
    expect(answerAfter(exact_h * 0.96)).toBe('yes')
    expect(answerAfter(exact_h * 1.04)).toBe('no')
  })
})

describe('its band', () => {
  /** A crust that lies so many times as deep as asked when the heat ends, by the exact depth. */
  const answerAt = (times: number) => {
    const plan: Plan = {
      format: 'thickset-plan',
      version: 1,
      title: 'Crumb',
      startsAt: '2027-03-12T16:00',
      fidelity: 'fine',
      materials: { crumb: { fixed: { k_W_mK: k, rho_kg_m3: rho, c_J_kgK: c } } },
      piece: { shape: { kind: 'sheet' }, fill: [{ material: 'crumb', thickness_mm: 1000 * THICK, start_C }] },
      stages: [
        {
          name: 'Bake',
          in: { faces: { top: { surface_C: face_C }, bottom: { h_W_m2K: 0 } }, air_C: 20 },
          until: { after_h: 0.5 },
        },
      ],
      targets: [{ kind: 'edge', most_mm: (1000 * depthAfter(1800)) / times }],
    }
    return forecast(plan).answers[0]!
  }

  test('is closed where the crust is far from too deep, and there is none where it is', () => {
    const far = answerAt(0.8)
    expect(far).toMatchObject({ answer: 'yes' })
    // The heat ends by the clock.
    expect(far.early_h).toBeCloseTo(0.5, 6)
    expect(far.late_h).toBeCloseTo(0.5, 6)
    expect(answerAt(1.3)).toMatchObject({ answer: 'no' })
    expect(answerAt(1.3)).not.toHaveProperty('late_h')
  })
})
