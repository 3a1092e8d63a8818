import { z } from '../../zod.ts'
import { defineLaw, parameter } from './law.ts'
import { byTemperature, relax, tabulated } from './pieces.ts'

const supplier = 'gelatin supplier, sammi-gelatin.com (seen): strongest after 15 to 20 h at 10 °C, 5 to 8 h at 5 °C'
/** Modulus from which it holds together, Pa (choice). */
const SET_PA = 100
/** Stress at which it fails, over the modulus (from memory). */
const FAILS_AT = 2
/** Strength over load below which it is about to give way (choice). */
const ALARM = 1.3
/** Concentration and hours of the standard test of strength. Source: nitta-gelatin.com, pharmaceuticaleducation.blogspot.com 2016/11 (seen). */
const TEST_PCT = 6.67
const TEST_H = 17
const COLDEST_C = 0
/** Where tables of its rates end, °C: nothing gels there. Their step, K: off by less than 2e-5 of the plateau. */
const HOTTEST_C = 40
const TABLE_K = 0.05
/** Ice begins here in a sweet gel, °C: nothing ripens further. */
const FREEZES_C = -2.5
/** Temperature steps, K: the balance is followed exactly on straight lines, which bend by 0.002 of it within one. */
const WIDEST_K = 1

/** How much of a gelatin does for one of another grade: equal strength by the root of their Bloom grades. */
export const equalStrength = (bloomOfRecipe: number, bloomAtHand: number): number =>
  Math.sqrt(bloomOfRecipe / bloomAtHand)

/** Gelatin: a fast and a slow part, each towards what its temperature allows, each melting 4 K higher than it sets. */
export const gelatin = defineLaw({
  id: 'gelatin',
  title: 'gelatin',
  inputs: z
    .strictObject({
      by: z.literal('gelatin'),
      gelatin_pct: z.number().gt(0).max(12).meta({ description: 'Gelatin in 100 g of the watery part, g.' }),
      bloom: z.number().min(50).max(350).meta({ description: 'Its Bloom grade, g; 200 if left out.' }).exactOptional(),
      laid: z.enum(['dissolved', 'set']).meta({ description: 'How it comes; dissolved if left out.' }).exactOptional(),
    })
    .meta({ title: 'Gelatin' }),
  parameters: {
    Tm: parameter(
      [28, 30, 32],
      'degC',
      'from memory',
      'ceiling of gelling; melting from 25 to 35 °C: sagma-gelatina.com (seen)',
    ),
    dH: parameter([4, 4, 4], 'K', 'choice', 'melting less setting'),
    w_fast: parameter(
      [0.45, 0.55, 0.65],
      '',
      'choice',
      'two processes: Maquet et al. 1986, Polymer 27, 1103 (abstract)',
    ),
    k1_10: parameter([0.00072, 0.001444, 0.0029], '1/s at 10 degC', 'choice', ''),
    b1: parameter([0.1, 0.1, 0.1], '1/K', 'choice', 'faster when colder: Croome 1959, J. Sci. Food Agric. (abstract)'),
    kappa10: parameter([0.3, 0.46, 0.7], '1/h at 10 degC', 'estimate', supplier),
    b2: parameter([0.18, 0.18, 0.18], '1/K', 'estimate', supplier),
    tau_melt: parameter([600, 600, 600], 's', 'choice', ''),
    Ccrit: parameter([1.2, 1, 0.7], 'g/100 g', 'from memory', ''),
    Pa_per_bloom: parameter(
      [32, 40, 48],
      'Pa per g of Bloom',
      'estimate',
      'flat punch on a half-space 48.3; the finite cup lowers it',
    ),
  },
  source: supplier,
  weak: 'its split into a fast and a slow part is a choice: times good to 0.6 to 1.6 times; acid below pH 4, long boiling and raw pineapple, kiwi, papaya or fig destroy it; frozen and thawed it weeps',
  make(
    { gelatin_pct: C, bloom = 200, laid = 'dissolved' },
    { Tm, dH, w_fast, k1_10, b1, kappa10, b2, tau_melt, Ccrit, Pa_per_bloom },
  ) {
    const slow = 1 - w_fast
    const allowed = (T_C: number): number => {
      if (T_C >= Tm) return 0
      return T_C >= 10 ? 1 - ((T_C - 10) / (Tm - 10)) ** 1.5 : 1 + 0.015 * (10 - Math.max(T_C, COLDEST_C))
    }
    const allowedAt = tabulated(allowed, COLDEST_C, HOTTEST_C, TABLE_K)
    const fastAt = tabulated((T_C) => k1_10 * Math.exp(-b1 * (T_C - 10)), COLDEST_C, HOTTEST_C, TABLE_K)
    const slowAt = tabulated(
      (T_C) => ((kappa10 / 3600) * Math.exp(-b2 * (T_C - 10))) / slow,
      COLDEST_C,
      HOTTEST_C,
      TABLE_K,
    )
    const atTest = w_fast + (slow * TEST_H * kappa10) / (1 + TEST_H * kappa10)
    const modulus = (y: number): number =>
      Pa_per_bloom * bloom * (Math.max(0, C * y - Ccrit) / (TEST_PCT * atTest - Ccrit)) ** 2
    const of = (values: ArrayLike<number>): number => values[0]! + values[1]!
    const holds = (values: ArrayLike<number>): number => modulus(of(values)) / SET_PA - 1
    return {
      names: ['fast', 'slow'],
      start: (T_C) => (laid === 'set' ? [w_fast * allowed(T_C), slow * allowed(T_C)] : [0, 0]),
      advance(values, from_C, to_C, dt) {
        // Hot and liquid: nothing to melt, nothing that sets.
        if (values[0] === 0 && values[1] === 0 && Math.min(from_C, to_C) >= Tm) return
        byTemperature(from_C, to_C, dt, WIDEST_K, (T_C, part, a_C, b_C) => {
          const ripens = T_C > FREEZES_C
          const fastRate = ripens ? fastAt(T_C) : 0
          const slowRate = ripens ? slowAt(T_C) : 0
          const [y, cap] = [allowedAt(T_C), allowedAt(T_C - dH)]
          const melted = (x: number, share: number): number =>
            relax(x, share * allowedAt(a_C - dH), share * allowedAt(b_C - dH), 1 / tau_melt, part)
          const [a, s] = [values[0]!, values[1]!]
          if (a > w_fast * cap) values[0] = melted(a, w_fast)
          else if (a < w_fast * y)
            values[0] = relax(a, w_fast * allowedAt(a_C), w_fast * allowedAt(b_C), fastRate, part)
          if (s > slow * cap) values[1] = melted(s, slow)
          else if (s < slow * y) {
            const gap = slow * y - s
            values[1] = slow * y - gap / (1 + slowRate * gap * part)
          }
        })
      },
      extent: of,
      criteria: {
        set: { margin: holds },
        firm: { margin: holds },
        cut: { margin: holds },
        lost: { margin: (_, T_C) => Ccrit - C * allowed(T_C - dH) },
      },
      strength: { modulus: (values) => modulus(of(values)), failsAt: FAILS_AT, alarm: ALARM },
    }
  },
})
