import { readdirSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import type { History } from '../../../src/core/outcomes/cooling-rule.ts'
import { equalStrength } from '../../../src/core/outcomes/kinetics/gelatin.ts'
import { type SetsBy, setsBySchema, settingLaw, settingLaws } from '../../../src/core/outcomes/kinetics/index.ts'
import type { Level } from '../../../src/core/outcomes/kinetics/law.ts'
import { both, either, follow, lasting, spansWhere } from '../../../src/core/outcomes/kinetics/spans.ts'

/* Figures are those of the sources beside each law, or follow from its formula by hand where that is said. */

const history = (...points: readonly (readonly [hour: number, T_C: number])[]): History => ({
  t: points.map(([hour]) => hour * 3600),
  T_C: points.map(([, T_C]) => T_C),
})
const extentAfter = (by: SetsBy, course: History, level: Level = 'typical'): number => {
  const law = settingLaw(by, level)
  let extent = 0
  follow(law, course, (_, T_C, values) => {
    extent = law.extent(values, T_C)
  })
  return extent
}
/** Temperature at which a law reaches an extent when heated evenly from 25 °C. */
const reachedAt = (by: SetsBy, share: number, K_min: number): number => {
  const law = settingLaw(by, 'typical')
  const hours = 75 / K_min / 60
  const { spans } = spansWhere(law, history([0, 25], [hours, 100]), [(values, T) => law.extent(values, T) - share])
  return 25 + (spans[0]![0]!.from / 60) * K_min
}

test('every file of the folder but the common ones is one registered law', () => {
  const common = ['index', 'law', 'by-temperature', 'pieces', 'arrhenius', 'cold-set', 'cocoa-butter', 'spans']
  const files = readdirSync(new URL('../../../src/core/outcomes/kinetics/', import.meta.url))
    .map((name) => name.replace('.ts', ''))
    .filter((name) => !common.includes(name))
  expect(settingLaws.map(({ id }) => id).sort()).toEqual(files.sort())
  const named = setsBySchema.options.map((option) => option.shape.by.value as string)
  expect(named.sort()).toEqual(files.sort())
})

test.each(settingLaws.map((kind) => [kind.id, kind] as const))(
  '%s names its sources, and what it cannot know',
  (_, kind) => {
    expect(kind.source.length).toBeGreaterThan(10)
    expect(kind.weak.length).toBeGreaterThan(10)
    for (const one of Object.values(kind.parameters)) {
      expect([one.low, one.typical, one.high].every(Number.isFinite)).toBe(true)
      // What is no choice of our own has a source, or says what is remembered.
      if (one.certainty === 'seen in the source' || one.certainty === 'estimate')
        expect(one.source.length).toBeGreaterThan(5)
    }
  },
)

describe('agar (specification of a batch: sets at 36 to 39 °C, melts not below 85)', () => {
  const raw: SetsBy = { by: 'agar', agar_pct: 0.8, laid: 'undissolved' }

  test('never boiled, it never sets, and says so', () => {
    const law = settingLaw(raw, 'typical')
    const { end } = spansWhere(law, history([0, 20], [0.5, 85], [2, 85], [5, 5], [48, 5]), [])
    expect(law.extent(end, 5)).toBe(0)
    expect(law.obstacle?.(end, 5)).toBe('never-dissolved')
  })

  test('boiled for two minutes at 95 °C it sets; less is not enough', () => {
    const boiled = (minutes: number) =>
      extentAfter(raw, history([0, 95], [minutes / 60, 95], [minutes / 60, 94], [3, 20], [6, 20]))
    expect(boiled(1.9)).toBe(0)
    expect(boiled(2)).toBeGreaterThan(0.99)
  })

  test('set, it survives a day at 70 °C and melts above 90', () => {
    const set: SetsBy = { by: 'agar', agar_pct: 0.8, laid: 'set' }
    expect(extentAfter(set, history([0, 20], [1, 70], [25, 70]))).toBe(1)
    expect(extentAfter(set, history([0, 20], [1, 92], [2, 92]))).toBeLessThan(0.01)
    // At the high level (specification 92.4, others to 99.6) an hour at 92 °C leaves it whole.
    expect(extentAfter(set, history([0, 20], [1, 92], [2, 92]), 'high')).toBe(1)
  })

  test('between setting and melting nothing happens, whichever way it came', () => {
    const law = settingLaw({ by: 'agar', agar_pct: 1 }, 'typical')
    const values = Float64Array.from(law.start(80))
    law.advance(values, 80, 40, 36_000)
    expect(law.extent(values, 40)).toBe(0)
    law.advance(values, 36, 36, 300)
    const half = law.extent(values, 36)
    law.advance(values, 40, 80, 36_000)
    expect(law.extent(values, 80)).toBe(half)
  })

  test('acid boiled in breaks it', () => {
    const law = settingLaw({ by: 'agar', agar_pct: 1, pH: 3.2 }, 'typical')
    expect(law.obstacle?.(law.start(90), 20)).toBe('acid-breaks-it')
    expect(law.strength!.modulus([300, 1], 20)).toBe(0)
  })
})

describe('gelatin', () => {
  const test667: SetsBy = { by: 'gelatin', gelatin_pct: 6.67, bloom: 200 }

  test('the standard test, 6.67 % for 17 h at 10 °C, gives 40 Pa per gram of Bloom', () => {
    const law = settingLaw(test667, 'typical')
    const { end } = spansWhere(law, history([0, 40], [0, 10], [17, 10]), [])
    expect(law.strength!.modulus(end, 10) / 200).toBeCloseTo(40, 0)
  })

  test.each([
    [10, 17.4],
    [5, 6.6],
  ])('at %s °C 95 %% of its plateau after %s h, as the supplier says of its strongest', (T_C, hours) => {
    const plateau = extentAfter(test667, history([0, 40], [0, T_C], [2000, T_C]))
    const found = extentAfter(test667, history([0, 40], [0, T_C], [hours, T_C]))
    // Half a per cent: the hours are given to one decimal.
    expect(Math.abs(found / plateau - 0.95)).toBeLessThan(0.005)
  })

  test('melts in a warm room, not in a cool one', () => {
    const set: SetsBy = { by: 'gelatin', gelatin_pct: 3, laid: 'set' }
    expect(extentAfter(set, history([0, 5], [1, 35], [3, 35]))).toBeLessThan(1e-3)
    expect(extentAfter(set, history([0, 5], [1, 12], [30, 12]))).toBeGreaterThan(0.9)
  })

  test('60 Bloom for 240: twice as much (published table)', () => {
    expect(equalStrength(240, 60)).toBe(2)
  })
})

describe('what sets in the oven, heated evenly', () => {
  // Computed by an independent program for the same constants: 98 % swollen at these temperatures.
  test.each([
    [0.5, 76.2],
    [1, 81.2],
    [2, 86.2],
    [5, 93.2],
  ])('dough at %s K/min: 98 %% at %s °C', (rate, T_C) => {
    expect(reachedAt({ by: 'dough-starch' }, 0.98, rate)).toBeCloseTo(T_C, 0.5)
  })

  test.each([
    [0.2, 79.2],
    [1, 83.6],
    [5, 88],
  ])('custard at %s K/min: nine tenths at %s °C; slow custards set cooler', (rate, T_C) => {
    expect(Math.abs(reachedAt({ by: 'egg', kind: 'custard' }, 0.9, rate) - T_C)).toBeLessThan(0.1)
  })

  // Reference table of swelling temperatures by sugar in sugar and water.
  test.each([
    [17, 67],
    [29, 73],
    [40, 80],
    [52, 90],
    [57, 95],
    [60, 98],
  ])(
    '%s %% of sugar: no starch is left 4 K above %s °C after half an hour, most of it 12 K below',
    (sugar_pct, T_C) => {
      const by: SetsBy = { by: 'batter-starch', sugar_pct }
      expect(extentAfter(by, history([0, T_C + 4], [0.5, T_C + 4]))).toBeGreaterThan(0.95)
      expect(extentAfter(by, history([0, T_C - 13], [5, T_C - 13]))).toBe(0)
    },
  )

  test('a custard held 5 K above its setting for more than five minutes curdles', () => {
    const law = settingLaw({ by: 'egg', kind: 'custard' }, 'typical')
    const curdled = (minutes: number) =>
      spansWhere(law, history([0, 84], [0, 85.5], [minutes / 60, 85.5], [minutes / 60, 60]), [
        law.criteria.overdone!.margin,
      ]).spans[0]!
    expect(curdled(4.9)).toEqual([])
    expect(curdled(5.1)[0]?.from).toBeCloseTo(300, 0)
  })

  test('browning: half of it after 22.8 min at 150, 12.2 at 165, 5.7 at 185, 2.4 at 210 °C; none on a wet crust', () => {
    // ln 2 over k of Zanoni, Peri, Bruno 1995.
    for (const [T_C, minutes] of [
      [150, 22.8],
      [165, 12.2],
      [185, 5.7],
      [210, 2.4],
    ] as const)
      expect(extentAfter({ by: 'crust' }, history([0, T_C], [minutes / 60, T_C]))).toBeCloseTo(0.5, 2)
    expect(extentAfter({ by: 'crust' }, history([0, 20], [1, 104], [9, 104]))).toBe(0)
  })
})

describe('fats', () => {
  // Ideal solubility, by hand: x = exp(−118000/8.3145 (1/293.15 − 1/307)) = 0.112; (f − x)/(1 − x).
  test.each([
    [20, 0.1],
    [30, 0.21],
    [40, 0.32],
    [60, 0.55],
    [80, 0.77],
  ])('%s %% of hard fat in a nut paste: %s solid at 20 °C', (hard_fat_pct, solid) => {
    expect(extentAfter({ by: 'nut-paste', hard_fat_pct }, history([0, 20], [1, 20]))).toBeCloseTo(solid, 2)
  })

  test('chocolate in temper is set within the hour at 14 °C; out of temper it waits, and never says that it releases', () => {
    const cool = history([0, 31], [0, 14], [1, 14])
    expect(extentAfter({ by: 'tempered-chocolate' }, cool)).toBeGreaterThan(0.95)
    expect(extentAfter({ by: 'untempered-chocolate' }, cool)).toBeLessThan(0.6)
    const law = settingLaw({ by: 'untempered-chocolate' }, 'high')
    expect(spansWhere(law, history([0, 31], [0, 5], [100, 5]), [law.criteria.firm!.margin]).spans[0]).toEqual([])
  })

  test('above 34 °C temper is lost for good', () => {
    const law = settingLaw({ by: 'tempered-chocolate' }, 'typical')
    const { end } = spansWhere(law, history([0, 15], [1, 36], [2, 15], [9, 15]), [])
    expect(law.obstacle?.(end, 15)).toBe('temper-lost')
  })

  test('milk fat undercools: at 22 °C nothing begins from the melt, what has begun goes on', () => {
    const ganache: SetsBy = { by: 'milk-fat' }
    expect(extentAfter(ganache, history([0, 45], [0, 22], [9, 22]))).toBeLessThan(0.02)
    expect(extentAfter(ganache, history([0, 45], [0, 10], [1, 10], [1, 22], [30, 22]))).toBeCloseTo(0.152, 2)
  })
})

describe('starch cream', () => {
  test('raw, it never cooks below 60 °C; boiled, it is sliceable after hours in the cold', () => {
    const law = settingLaw({ by: 'starch-cream', starch_pct: 7, laid: 'raw' }, 'typical')
    const { end } = spansWhere(law, history([0, 20], [1, 58], [2, 58], [6, 5]), [])
    expect(law.obstacle?.(end, 5)).toBe('never-cooked')
    expect(extentAfter({ by: 'starch-cream', starch_pct: 7 }, history([0, 80], [2, 5], [12, 5]))).toBeGreaterThan(0.7)
  })
})

describe('how a law is followed', () => {
  test.each(setsBySchema.options.map((option) => option.shape.by.value))(
    '%s: cutting a piece up changes nothing that matters',
    (by) => {
      const inputs: Record<string, unknown> = {
        by,
        agar_pct: 1,
        sugar_pct: 30,
        kind: 'custard',
        gelatin_pct: 3,
        hard_fat_pct: 40,
        grade: 'rapid',
        starch_pct: 7,
        texture: 'honey',
      }
      const option = setsBySchema.options.find((one) => one.shape.by.value === by)!
      const own = Object.fromEntries(Object.entries(inputs).filter(([key]) => key in option.shape))
      const law = settingLaw(setsBySchema.parse(own), 'typical')
      const whole = Float64Array.from(law.start(25))
      const parts = Float64Array.from(law.start(25))
      const course = [25, 99, 60, 20, 4, 12] as const
      for (let i = 1; i < course.length; i++) {
        const [from, to] = [course[i - 1]!, course[i]!]
        law.advance(whole, from, to, 3600)
        for (let part = 0; part < 977; part++)
          law.advance(parts, from + ((to - from) * part) / 977, from + ((to - from) * (part + 1)) / 977, 3600 / 977)
        // The stated accuracy of an extent: 0.004.
        expect(Math.abs(law.extent(whole, to) - law.extent(parts, to))).toBeLessThan(0.004)
      }
    },
  )

  test('spans: what lasts, what holds together, what holds either way', () => {
    const a = [
      { from: 0, to: 5 },
      { from: 8, to: Number.POSITIVE_INFINITY },
    ]
    const b = [{ from: 3, to: 9 }]
    expect(lasting(a, 6)).toEqual([{ from: 14, to: Number.POSITIVE_INFINITY }])
    expect(both(a, b)).toEqual([
      { from: 3, to: 5 },
      { from: 8, to: 9 },
    ])
    expect(either(a, b)).toEqual([{ from: 0, to: Number.POSITIVE_INFINITY }])
  })
})
