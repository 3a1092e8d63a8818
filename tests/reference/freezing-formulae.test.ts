import { afterAll, describe, expect, test } from 'vitest'
import { thawingTime } from '../../src/core/verification/freezing-formulae.ts'
import { formulae } from '../evidence/formulae.ts'
import { keptEvidence, RENEW } from '../evidence/kept.ts'
import { ALLOWED, besides, frozen, MISSES, missOf, off, shapes, thawed } from './freezing-runs.ts'

/* The solver beside published formulae for freezing and thawing times; printed as a table. */

/** Share of the pieces within what the authors say. */
const LEVEL = 0.95

describe.each([
  ['Cleland–Earle', frozen],
  ['Pham', frozen],
  ['thawing', thawed],
] as const)('%s', (formula, runs) => {
  test.each(shapes)('%s: within its published accuracy, known misses aside', (shape) => {
    const judged = runs.filter((run) => run.shape === shape && missOf(formula, run) === undefined)
    const within = judged.filter((run) => off(formula, run) <= ALLOWED)
    expect(judged.length).toBeGreaterThan(runs.length / 9)
    expect(within.length / judged.length).toBeGreaterThanOrEqual(LEVEL)
    for (const run of judged) expect(off(formula, run)).toBeLessThan(0.12)
  })
  test('knows no miss that has become a hit', () => {
    for (const miss of MISSES.filter((one) => one.formula === formula)) {
      const missed = runs.filter((run) => run.shape === miss.shape && miss.where(run))
      expect(Math.max(...missed.map((run) => off(formula, run))), miss.reason).toBeGreaterThan(ALLOWED)
    }
  })
  test('where Cleland and Earle miss, Pham does not', () => {
    for (const run of frozen.filter((one) => missOf('Cleland–Earle', one) !== undefined))
      expect(off('Pham', run)).toBeLessThanOrEqual(ALLOWED)
  })
})

test('the window shows what is computed', () => {
  const now = formulae()
  expect(keptEvidence.formulae, RENEW).toHaveLength(now.length)
  for (const [index, one] of now.entries()) {
    const kept = keptEvidence.formulae[index]!
    expect({ ...kept, low: 0, high: 0, within: 0 }, RENEW).toEqual({ ...one, low: 0, high: 0, within: 0 })
    expect(Math.abs(kept.low - one.low) + Math.abs(kept.high - one.high), RENEW).toBeLessThan(0.01)
    // One that lies on the border falls to this side or that by the last digits of a machine's exponentials.
    const runs = (one.formula === 'thawing' ? thawed : frozen).filter(({ shape }) => shape === one.shape)
    const onBorder = runs.filter((run) => Math.abs(off(one.formula, run) - ALLOWED) < 0.001)
    expect(Math.abs(kept.within - one.within), RENEW).toBeLessThanOrEqual(onBorder.length)
  }
})

test('Plank falls short, the more heat comes before and after freezing', () => {
  for (const run of frozen) expect(run.ratio.Plank).toBeLessThan(1)
  const mean = (start_C: number): number => {
    const those = frozen.filter((run) => run.start_C === start_C).map((run) => run.ratio.Plank!)
    return those.reduce((sum, value) => sum + value, 0) / those.length
  }
  expect(mean(3)).toBeGreaterThan(0.72)
  expect(mean(3)).toBeLessThan(0.88)
  expect(mean(20)).toBeLessThan(mean(3))
  expect(mean(33)).toBeLessThan(mean(20))
})

test.each(besides)('$id', ({ solver, Ste, plank, clelandEarle, pham }) => {
  expect(plank / solver).toBeLessThan(1)
  expect(Math.abs(pham / solver - 1)).toBeLessThan(ALLOWED)
  // Beyond the range for which it is given, Cleland and Earle's may miss: the sphere of cream, by 13 %.
  if (Ste < 0.35) expect(Math.abs(clelandEarle / solver - 1)).toBeLessThan(ALLOWED)
  else expect(Math.abs(clelandEarle / solver - 1)).toBeGreaterThan(ALLOWED)
})

test('A14-thaw-slab', () => {
  const mass = { freezes_C: -1, k: 0.5, unfrozen: 3.78e6, frozen: 2.1e6, from10: 239_510_250 }
  const formula = thawingTime({ D: 0.08, h: 9, air_C: 5, start_C: -18 }, mass, 1)
  expect(Math.abs(formula / 185_377.4 - 1)).toBeLessThan(ALLOWED)
})

afterAll(() => {
  const percent = (value: number): string => `${value >= 1 ? '+' : '−'}${Math.abs(100 * (value - 1)).toFixed(1)}`
  const lines = ['Plank', 'Cleland–Earle', 'Pham', 'thawing'].flatMap((formula) =>
    shapes.map((shape) => {
      const runs = (formula === 'thawing' ? thawed : frozen).filter((run) => run.shape === shape)
      const ratios = runs.map((run) => run.ratio[formula]!)
      const mean = ratios.reduce((sum, value) => sum + value, 0) / ratios.length
      const within = ratios.filter((value) => Math.abs(value - 1) <= ALLOWED).length
      return `${formula.padEnd(14)} ${shape.padEnd(9)} ${ratios.length} pieces  mean ${percent(mean)} %  ${percent(Math.min(...ratios))} to ${percent(Math.max(...ratios))} %  within 10 %: ${within}`
    }),
  )
  const hours = (s: number): string => (s / 3600).toFixed(2).padStart(10)
  const table = besides.map(
    ({ id, solver, numerical, plank, clelandEarle, pham }) =>
      `${id.padEnd(18)}${[solver, numerical, plank, clelandEarle, pham].map(hours).join('')}`,
  )
  const heads = ['solver', 'other sol.', 'Plank', 'Cl.–Earle', 'Pham'].map((head) => head.padStart(10)).join('')
  process.stdout.write(
    `\nFormula over solver:\n${lines.join('\n')}\n\n${'Hours to −10 °C'.padEnd(18)}${heads}\n${table.join('\n')}\n`,
  )
})
