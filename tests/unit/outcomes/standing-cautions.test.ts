import { describe, expect, test, vi } from 'vitest'
import { forecast } from '../../../src/core/forecast.ts'
import { readPlan } from '../../../src/core/plan/read.ts'
import { say } from '../../../src/core/words/sentences.ts'
import { metric } from '../../../src/core/words/show.ts'

/*
 * What may not stand, and raw egg: each where its condition holds and nowhere else. Factors of 2 and 3 against breaking
 * and a sag of 15 and 8 %, crumbs of 80 % as they cool, and a quarter of batter under a crust are choices; that a
 * denser mass sinks through a lighter fluid one follows from hydrostatics.
 */

// Some forecasts a test: more than a quick look on a busy machine.
vi.setConfig({ testTimeout: 60_000 })

const plan = (change: {
  readonly fill: readonly unknown[]
  readonly stages: readonly unknown[]
  readonly diameter_mm?: number
}) =>
  readPlan(
    JSON.stringify({
      format: 'thickset-plan',
      version: 1,
      title: 'Standing',
      startsAt: '2027-03-12T16:00',
      fidelity: 'quick',
      piece: { shape: { kind: 'round', diameter_mm: change.diameter_mm ?? 200 }, fill: change.fill },
      stages: change.stages,
    }),
  )
const cautions = (change: Parameters<typeof plan>[0]) => forecast(plan(change)).cautions
const codes = (change: Parameters<typeof plan>[0]): string[] => cautions(change).map(({ code }) => code)

const stand = (air_C: number, hours: number, start: readonly unknown[] = []) => ({
  name: `Stand at ${air_C}`,
  in: { air_C, h_W_m2K: 10 },
  start,
  until: { after_h: hours },
})
const layer = (material: string, thickness_mm: number, start_C: number) => ({ material, thickness_mm, start_C })

describe('a denser layer on a lighter one', () => {
  const cream = layer('pastry-cream', 30, 20)
  // As warm as the cream: whipped cream from the fridge bears by its fat.
  const foam = layer('whipped-cream', 30, 20)

  test('warned while the lower one is soft, not the other way up, nor on what is solid', () => {
    const told = cautions({ fill: [foam, cream], stages: [stand(20, 1)] })
    const warned = told.find(({ code }) => code === 'caution-density-order')!
    expect(Number(warned.values.upper_kg_m3)).toBeGreaterThan(Number(warned.values.lower_kg_m3))
    expect(say(warned, metric)).toMatch(/A warning: it is not computed/)
    expect(codes({ fill: [cream, foam], stages: [stand(4, 1)] })).not.toContain('caution-density-order')
    const sponge = layer('almond-sponge', 30, 20)
    expect(codes({ fill: [sponge, cream], stages: [stand(4, 1)] })).not.toContain('caution-density-order')
  })

  test('poured later: no warning once the lower one is frozen', () => {
    const pour = stand(4, 1, [{ do: 'pour', ...cream }])
    const fill = [layer('fruit-mousse', 30, 20)]
    expect(codes({ fill, stages: [stand(20, 0.2), pour] })).toContain('caution-density-order')
    expect(codes({ fill, stages: [stand(-30, 12), pour] })).not.toContain('caution-density-order')
  })
})

test('what stands is not yet fit for a way', () => {
  const of = (thickness_mm: number) =>
    forecast(plan({ fill: [layer('gelatin-cream', thickness_mm, 8)], stages: [stand(4, 48)], diameter_mm: 300 }))
  const warned = ({ cautions: told }: ReturnType<typeof of>) => told.find(({ code }) => code === 'caution-transport')
  const low = of(20)
  const endOf = ({ carried }: ReturnType<typeof of>) => carried.find(({ occasion }) => occasion === 'end')!
  expect(endOf(low).factor).toBeGreaterThan(3)
  expect(warned(low)).toBeUndefined()
  // Strength over load falls with height: 2.5 times its load is enough to stand and too little for a way.
  const high = of(Math.round((20 * endOf(low).factor!) / 2.5))
  expect(endOf(high).answer).not.toBe('gives way')
  expect(endOf(high).factor).toBeLessThan(3)
  expect(warned(high)).toBeDefined()
  // What may stand free at twice its load: its own height times half of what it bears.
  const { standing_m, factor } = endOf(high)
  const height_m = Math.round((20 * endOf(low).factor!) / 2.5) / 1000
  expect(standing_m! / height_m).toBeCloseTo(factor! / 2, 1)
})

describe('a batter', () => {
  const batter = [layer('pound-batter', 80, 22)]
  const bake = (hours: number) => [stand(170, hours), stand(22, 2)]

  test('taken out too early may fall in, baked through it does not', () => {
    expect(codes({ fill: batter, stages: bake(0.6) })).toContain('caution-collapse')
    expect(codes({ fill: batter, stages: bake(4) })).not.toContain('caution-collapse')
  })

  test('a thick one in a hot oven is crust over batter; a thin sheet is not', () => {
    const hot = [{ ...stand(230, 4), in: { air_C: 230, h_W_m2K: 40 } }]
    expect(codes({ fill: [layer('pound-batter', 140, 22)], diameter_mm: 300, stages: hot })).toContain('caution-domes')
    expect(codes({ fill: [layer('pound-batter', 12, 22)], stages: hot })).not.toContain('caution-domes')
  })
})

test('raw egg: cautioned where some place is not heated enough, and not once every place is', () => {
  const custard = [layer('egg-custard', 30, 20)]
  expect(codes({ fill: custard, stages: [stand(4, 2)] })).toContain('caution-raw-egg')
  expect(codes({ fill: custard, stages: [stand(55, 1), stand(4, 4)] })).toContain('caution-raw-egg')
  expect(codes({ fill: custard, stages: [stand(120, 6)] })).not.toContain('caution-raw-egg')
  expect(codes({ fill: [layer('pastry-cream', 30, 20)], stages: [stand(4, 2)] })).not.toContain('caution-raw-egg')
})
