import type { History } from '../outcomes/cooling-rule.ts'
import { COLOURS } from '../outcomes/kinetics/crust.ts'
import { CUTS } from '../outcomes/kinetics/ice.ts'
import { type SetsBy, settingLaw } from '../outcomes/kinetics/index.ts'
import type { Level, SettingLaw } from '../outcomes/kinetics/law.ts'
import { follow, type Margin, type Span, spansWhere } from '../outcomes/kinetics/spans.ts'
import { GRAVITY, LOAD_LIMITS, loadFactor, sagOf } from '../outcomes/structure.ts'

/* Figures of setting vectors by the keys of the file, each from the law of its family along its history. */

export interface SettingVector {
  readonly id: string
  readonly family: string
  readonly inputs: Readonly<Record<string, unknown>>
  readonly history: readonly (readonly [number, number])[]
}

/** A number, whether something is so, or null where it never comes. */
export type Figure = number | boolean | null

/** A figure by its key; undefined where the key is not known. */
type Reader = (key: string) => Figure | undefined

const historyOf = (nodes: readonly (readonly [number, number])[]): History => ({
  t: nodes.map(([t]) => t),
  T_C: nodes.map(([, T_C]) => T_C),
})

/** A history up to a moment. */
function until({ t, T_C }: History, moment: number): History {
  const times: number[] = []
  const temperatures: number[] = []
  for (let i = 0; i < t.length && t[i]! <= moment; i++) {
    times.push(t[i]!)
    temperatures.push(T_C[i]!)
  }
  const i = times.length
  if (times[i - 1]! < moment && i < t.length) {
    const share = (moment - t[i - 1]!) / (t[i]! - t[i - 1]!)
    times.push(moment)
    temperatures.push(T_C[i - 1]! + share * (T_C[i]! - T_C[i - 1]!))
  }
  return { t: times, T_C: temperatures }
}

/** Any quantity of a law at a moment. */
function valueAt(law: SettingLaw, history: History, moment: number, read: Margin): number {
  let found = Number.NaN
  follow(law, until(history, moment), (_, T_C, values) => {
    found = read(values, T_C)
  })
  return found
}

const spansOf = (law: SettingLaw, history: History, margin: Margin): Span[] =>
  spansWhere(law, history, [margin]).spans[0]!
const firstOf = (spans: readonly Span[]): number | null => spans[0]?.from ?? null
const endOf = ({ t }: History): number => t[t.length - 1]!
const number = (value: unknown): number => Number(value)

/** Keys such as `X_1500`, `y_6h`, `X_end`: a quantity at a moment, s. */
function atMoment(key: string, letter: string, end: number): number | undefined {
  const found = new RegExp(`^${letter}_(?:(\\d+)(h?)|end)$`).exec(key)
  if (found === null) return undefined
  return found[1] === undefined ? end : Number(found[1]) * (found[2] === 'h' ? 3600 : 1)
}

function quantity(key: string, letter: string, law: SettingLaw, history: History, read: Margin): number | undefined {
  const moment = atMoment(key, letter, endOf(history))
  return moment === undefined ? undefined : valueAt(law, history, moment, read)
}

const constant = (T_C: number, time: number): History => ({ t: [0, time], T_C: [T_C, T_C] })

/** Time spent above a temperature. */
function timeAbove({ t, T_C }: History, level: number): number {
  let sum = 0
  for (let i = 1; i < t.length; i++) {
    const [from, to] = [T_C[i - 1]!, T_C[i]!]
    const share =
      from === to
        ? Number(from > level)
        : (Math.max(from, to) - Math.max(Math.min(from, to), level)) / Math.abs(to - from)
    sum += Math.max(0, share) * (t[i]! - t[i - 1]!)
  }
  return sum
}

const starch =
  (law: SettingLaw, history: History): Reader =>
  (key) => {
    const share = /^t_X(\d+)$/.exec(key)
    if (share !== null)
      return firstOf(spansOf(law, history, (values, T) => law.extent(values, T) - Number(share[1]) / 100))
    return quantity(key, 'X', law, history, law.extent)
  }

const crust =
  (law: SettingLaw, history: History): Reader =>
  (key) => {
    const colour = /^t_(golden|dark|burnt)_\d+$/.exec(key)?.[1] as keyof typeof COLOURS | undefined
    if (colour !== undefined) return firstOf(spansOf(law, history, (values) => values[0]! - COLOURS[colour]))
    const above = /^s_above_(\d+)$/.exec(key)
    if (above !== null) return timeAbove(history, Number(above[1]))
    return quantity(key, 'dE', law, history, (values) => values[0]!)
  }

const whey =
  (law: SettingLaw, vector: SettingVector): Reader =>
  (key) => {
    const at = /^N_(\d+)$/.exec(key)
    if (at === null) return undefined
    const hold = number(vector.inputs.hold_s)
    return 1 - valueAt(law, constant(Number(at[1]), hold), hold, law.extent)
  }

function gelatin(law: SettingLaw, history: History, { inputs }: SettingVector, level: Level): Reader {
  const { C, rho, height_m } = inputs
  const { modulus, failsAt } = law.strength!
  const factor: Margin = (values, T) => loadFactor(modulus(values, T), failsAt, number(rho), number(height_m))
  const critical = { low: 1.2, typical: 1, high: 0.7 }[level]
  return (key) => {
    switch (key) {
      case 't_gelled':
        return firstOf(spansOf(law, history, (values, T) => number(C) * law.extent(values, T) - critical))
      case 't_set_100Pa':
        return firstOf(spansOf(law, history, law.criteria.set!.margin))
      case 't_SF2':
        return firstOf(spansOf(law, history, (values, T) => factor(values, T) - LOAD_LIMITS.unmould.factor))
      case 't_too_warm_SF_below_1_3': {
        const end = spansOf(law, history, (values, T) => factor(values, T) - LOAD_LIMITS.warm.factor).at(-1)?.to
        return end === undefined || !Number.isFinite(end) ? null : end
      }
      default:
        return (
          quantity(key, 'y', law, history, law.extent) ??
          quantity(key, 'G', law, history, modulus) ??
          quantity(key, 'SF', law, history, factor) ??
          quantity(key, 'sag', law, history, (values, T) =>
            sagOf((number(rho) * GRAVITY * number(height_m)) / modulus(values, T)),
          )
        )
    }
  }
}

/** The keys of an agar history name its heatings: cold is before the one to 70 °C, after is their end. */
function agar(law: SettingLaw, history: History, { inputs }: SettingVector): Reader {
  const times = Array.from(history.t)
  const temperatures = Array.from(history.T_C)
  const lastAt = (T: number): number => times[temperatures.lastIndexOf(T)]!
  const coldest = times[temperatures.indexOf(70) - 1]!
  const twin = historyOf(inputs.twin_history as SettingVector['history'])
  const dissolved: Margin = (values, T) => (law.obstacle?.(values, T) === undefined ? 0 : -1)
  return (key) => {
    switch (key) {
      case 't_dissolved':
        return firstOf(spansOf(law, history, dissolved))
      case 't_X90_first':
        return firstOf(spansOf(law, history, (values, T) => law.extent(values, T) - 0.9))
      case 'X_cold':
        return valueAt(law, history, coldest, law.extent)
      case 'G_cold':
        return valueAt(law, history, coldest, law.strength!.modulus)
      case 'X_after_70C':
        return valueAt(law, history, lastAt(70), law.extent)
      case 'X_after_97C':
        return valueAt(law, history, lastAt(97), law.extent)
      case 'never_boiled_dissolved':
        return spansOf(law, twin, dissolved).length > 0
      case 'never_boiled_X_end':
        return valueAt(law, twin, endOf(twin), law.extent)
      default:
        return quantity(key, 'X', law, history, law.extent)
    }
  }
}

function chocolate(law: SettingLaw, history: History, { inputs }: SettingVector): Reader {
  const shrinkAt = (moment: number): number => valueAt(law, history, moment, (values, T) => law.shrink!(values, T))
  return (key) => {
    switch (key) {
      case 't_set_85':
        return firstOf(spansOf(law, history, law.criteria.set!.margin))
      case 't_95':
        return firstOf(spansOf(law, history, (values, T) => law.extent(values, T) - 0.95))
      case 't_unmould':
        return firstOf(spansOf(law, history, law.criteria.firm!.margin))
      case 'linear_shrink_14400':
        return shrinkAt(14_400)
      case 'gap_mm_half_width_60':
        return shrinkAt(14_400) * number(inputs.half_width_mm)
      case 't_too_warm_X_below_0_8': {
        const end = spansOf(law, history, (values, T) => law.extent(values, T) - 0.8).at(-1)?.to
        return end === undefined || !Number.isFinite(end) ? null : end
      }
      default:
        return quantity(key, 'X', law, history, law.extent)
    }
  }
}

/** Temperature at which so much is frozen. */
function frozenAt(law: SettingLaw, share: number): number {
  let low = -60
  let high = 0
  for (let pass = 0; pass < 60; pass++) {
    const middle = (low + high) / 2
    if (law.extent([], middle) > share) low = middle
    else high = middle
  }
  return low
}

function ice(law: SettingLaw, history: History): Reader {
  const cut = (): Span | undefined => spansOf(law, history, law.criteria.cut!.margin).at(-1)
  return (key) => {
    switch (key) {
      case 'T_f75':
        return frozenAt(law, 0.75)
      case 't_f75':
        return firstOf(spansOf(law, history, (values, T) => law.extent(values, T) - 0.75))
      case 't_core_minus18':
        return firstOf(spansOf(law, history, (_, T) => -18 - T))
      case 'T_cut_cold':
        return frozenAt(law, CUTS[1])
      case 'T_cut_warm':
        return frozenAt(law, CUTS[0])
      case 't_cut_from':
        return cut()?.from ?? null
      case 't_cut_to':
        return cut()?.to ?? null
      default:
        return quantity(key, 'f', law, history, law.extent)
    }
  }
}

/** What each family of the file is here, and how its keys are read. */
const families: Readonly<
  Record<
    string,
    {
      by(vector: SettingVector): SetsBy
      read(law: SettingLaw, history: History, vector: SettingVector, level: Level): Reader
    }
  >
> = {
  flour_dough_starch: { by: () => ({ by: 'dough-starch' }), read: starch },
  crust_browning: { by: () => ({ by: 'crust' }), read: crust },
  whey_protein: { by: () => ({ by: 'whey' }), read: (law, _, vector) => whey(law, vector) },
  gelatin: {
    by: ({ inputs }) => ({ by: 'gelatin', gelatin_pct: number(inputs.C), bloom: number(inputs.bloom) }),
    read: gelatin,
  },
  agar: {
    by: ({ inputs }) => ({ by: 'agar', agar_pct: number(inputs.C), laid: 'undissolved' }),
    read: agar,
  },
  chocolate_tempered: { by: () => ({ by: 'tempered-chocolate' }), read: chocolate },
  frozen_cream: { by: () => ({ by: 'ice' }), read: ice },
}

/** The figures of a vector at a level; undefined when its family has no vectors here. */
export function readerOf(vector: SettingVector, level: Level): Reader | undefined {
  if (!Object.hasOwn(families, vector.family)) return undefined
  const { by, read } = families[vector.family]!
  return read(settingLaw(by(vector), level), historyOf(vector.history), vector, level)
}
