import type { CardCurves } from '../../core/materials/card.ts'

/** How one property is told from another in its plot: colour, width, dash. */
export interface PropertyLine {
  readonly key: keyof CardCurves
  readonly name: string
  readonly colour: string
  readonly width: number
  readonly dash?: string
}

/** One plot of the card. */
export interface PropertyPlot {
  readonly id: string
  readonly title: string
  readonly unit: string
  /** Shown value of a stored one. */
  readonly factor: number
  readonly lines: readonly PropertyLine[]
  readonly decimals: number
}

const ink = { colour: 'var(--ink)', width: 2.6 } as const

/** The four plots in the order of reading; ice and fat only where there is some. */
export function propertyPlots(curves: CardCurves): readonly PropertyPlot[] {
  const some = (key: keyof CardCurves): boolean => (curves[key] ?? []).some((value) => value > 0.005)
  const shares: readonly PropertyLine[] = [
    ...(some('ice_share') ? [{ key: 'ice_share', name: 'ice', ...ink } as const] : []),
    ...(some('solid_fat_share')
      ? [
          {
            key: 'solid_fat_share',
            name: curves.solid_fat_cooling_share === undefined ? 'solid fat' : 'solid fat, warming',
            colour: 'var(--caramel)',
            width: 2.2,
            dash: '9 4',
          } as const,
        ]
      : []),
    ...(curves.solid_fat_cooling_share === undefined
      ? []
      : [
          {
            key: 'solid_fat_cooling_share',
            name: 'solid fat, cooling',
            colour: 'var(--slate)',
            width: 2.2,
            dash: '12 4 2 4',
          } as const,
        ]),
  ]
  return [
    {
      id: 'k',
      title: 'Conductivity',
      unit: 'W/(m K)',
      factor: 1,
      decimals: 3,
      lines: [{ key: 'k_W_mK', name: 'conductivity', ...ink }],
    },
    {
      id: 'c',
      title: 'Heat capacity, freezing and melting in it',
      unit: 'kJ/(kg K)',
      factor: 1e-3,
      decimals: 2,
      lines: [{ key: 'c_J_kgK', name: 'heat capacity', ...ink }],
    },
    {
      id: 'H',
      title: 'Heat content',
      unit: 'kJ/kg',
      factor: 1e-3,
      decimals: 1,
      lines: [{ key: 'enthalpy_J_kg', name: 'heat content', ...ink }],
    },
    ...(shares.length === 0
      ? []
      : [
          {
            id: 'shares',
            title: 'Ice of the water, solid of the fat',
            unit: '%',
            factor: 100,
            decimals: 0,
            lines: shares,
          },
        ]),
  ]
}

/** The scale of a plot's values: straight, or by powers of ten where a peak would press all else flat. */
export interface ValueScale {
  readonly kind: 'linear' | 'log'
  readonly from: number
  readonly to: number
  readonly ticks: readonly number[]
}

const steps = [1, 2, 5]
/** From this ratio of the largest to the middle value on, the scale goes by powers of ten. */
const PEAKED = 8

export function valueScale(plot: PropertyPlot, curves: CardCurves): ValueScale {
  if (plot.unit === '%') return { kind: 'linear', from: 0, to: 100, ticks: [0, 25, 50, 75, 100] }
  const values = plot.lines.flatMap(({ key }) => (curves[key] ?? []).map((value) => value * plot.factor))
  const sorted = values.toSorted((a, b) => a - b)
  const [least, middle, most] = [sorted[0] ?? 0, sorted[Math.floor(sorted.length / 2)] ?? 0, sorted.at(-1) ?? 1]
  if (plot.id === 'c' && middle > 0 && most / middle > PEAKED) return logScale(least, most)
  const from = Math.min(0, least)
  const step = roundStep((most - from) / 5)
  const low = Math.floor(from / step) * step
  const high = Math.ceil((most * 1.02) / step) * step
  return { kind: 'linear', from: low, to: high, ticks: ticksBetween(low, high, step) }
}

function roundStep(rough: number): number {
  const power = 10 ** Math.floor(Math.log10(rough))
  return power * ([1, 2, 2.5, 5, 10].find((one) => one * power >= rough) ?? 10)
}

function ticksBetween(low: number, high: number, step: number): number[] {
  return Array.from({ length: Math.round((high - low) / step) + 1 }, (_, i) => Number((low + i * step).toPrecision(6)))
}

function logScale(least: number, most: number): ValueScale {
  const powers = Array.from({ length: 12 }, (_, i) => i - 4)
  const all = powers.flatMap((power) => steps.map((step) => step * 10 ** power))
  const from = all.findLast((one) => one <= least) ?? 0.1
  const to = all.find((one) => one >= most) ?? most
  const within = all.filter((one) => one >= from && one <= to)
  const ticks = within.length > 8 ? within.filter((one) => Math.abs(Math.log10(one) % 1) < 1e-9) : within
  return { kind: 'log', from, to, ticks: ticks.map((one) => Number(one.toPrecision(3))) }
}

/** What a plot shows, in one sentence. */
export function plotSentence(plot: PropertyPlot, curves: CardCurves, temperature: (T_C: number) => string): string {
  return plot.lines
    .map(({ key, name }) => {
      const values = curves[key] ?? []
      const [first, last] = [0, values.length - 1]
      const most = values.indexOf(Math.max(...values))
      const at = (index: number): string =>
        `${((values[index] ?? 0) * plot.factor).toFixed(plot.decimals)} ${plot.unit} at ${temperature(curves.T_C[index] ?? 0)}`
      const peak = most === first || most === last ? '' : `, at most ${at(most)}`
      return `${name} ${at(first)}, ${at(last)}${peak}`
    })
    .join('; ')
}
