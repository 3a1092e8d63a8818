import type { Forecast } from '../../core/forecast-types.ts'
import { endBand } from '../../core/stage-times.ts'
import { bandedWords } from '../../core/words/banded.ts'
import type { Show } from '../../core/words/show.ts'
import { dayAndClock, durationRange, durationWords } from '../format-time.ts'
import { staysBetween, totalOf } from './read-curve.ts'

export interface DangerWords {
  readonly title: string
  /** The core's stay in full, and in few words. */
  readonly long: string
  readonly short: string
}

/** What the danger zone's own lines say: its limits and how long the core is inside. */
export function dangerWords(forecast: Forecast, startsAt: string, show: Show): DangerWords {
  const { low_C, high_C } = forecast.danger
  const title = `Danger zone, ${bare(show.temperature(low_C))} to ${trimmed(show.temperature(high_C))}`
  const core = forecast.curves.core ?? []
  const stays = staysBetween(forecast.times_h, core, low_C, high_C)
  const last = stays.at(-1)
  if (!last) return { title, long: 'The core is never inside', short: 'core never inside' }
  const total = durationWords(totalOf(stays))
  const stillInside = last.to_h >= (forecast.times_h.at(-1) ?? 0) - 1e-6
  const end = stillInside ? 'and still at the end' : `until ${endWords(forecast, startsAt, last.to_h)}`
  const band = coreBandStay(forecast)
  const range = band ? ` (${durationRange(band[0], band[1])})` : ''
  return {
    title,
    long: `The core is inside for ${total}${range}, ${end}`,
    short: `core inside for ${total}${range}`,
  }
}

/** When the core leaves the zone for good, with the moments at which the edges of its band do. */
function endWords(forecast: Forecast, startsAt: string, likely_h: number): string {
  const { low_C, high_C } = forecast.danger
  const [early_h, late_h] = [forecast.bands.core?.low, forecast.bands.core?.high]
    .map((edge) => staysBetween(forecast.times_h, edge ?? [], low_C, high_C).at(-1)?.to_h)
    .sort((a, b) => (a ?? likely_h) - (b ?? likely_h))
  const end_h = forecast.times_h.at(-1) ?? 0
  const band = {
    ...(early_h === undefined ? {} : { early_h }),
    ...(late_h === undefined || late_h >= end_h - 1e-6 ? {} : { late_h }),
  }
  return bandedWords((at_h) => dayAndClock(startsAt, at_h), likely_h, band, 'later')
}

/** The core's stay along the early and along the late edge of its band, shorter first. */
function coreBandStay(forecast: Forecast): readonly [number, number] | undefined {
  const band = forecast.bands.core
  if (!band) return undefined
  const { low_C, high_C } = forecast.danger
  const [a, b] = [band.low, band.high].map((edge) => totalOf(staysBetween(forecast.times_h, edge, low_C, high_C))) as [
    number,
    number,
  ]
  return Math.abs(a - b) < 1 / 12 ? undefined : [Math.min(a, b), Math.max(a, b)]
}

/** One or two sentences that say what the chart shows, for those who do not see it and for those in a hurry. */
export function courseSentence(forecast: Forecast, startsAt: string, show: Show): string {
  const core = (forecast.curves.core ?? []).filter((value) => value !== null)
  const [first, final] = [core[0], core.at(-1)]
  if (first === undefined || final === undefined) return 'The core has no course yet.'
  const last = forecast.stages.at(-1)
  const whole_h = (forecast.times_h.at(-1) ?? 0) - (forecast.times_h[0] ?? 0)
  const length = bandedWords(durationWords, whole_h, last === undefined ? {} : endBand(last), 'longer')
  const [lowest, highest] = [Math.min(...core), Math.max(...core)]
  const turn =
    highest > Math.max(first, final) + 2
      ? `, by way of ${show.temperature(highest)}`
      : lowest < Math.min(first, final) - 2
        ? `, by way of ${show.temperature(lowest)}`
        : ''
  const path = `In ${length} the core goes from ${show.temperature(first)} to ${show.temperature(final)}${turn}.`
  return `${path} ${zoneSentence(forecast, startsAt, show)}`
}

function zoneSentence(forecast: Forecast, startsAt: string, show: Show): string {
  const { danger } = forecast
  const zone = `between ${bare(show.temperature(danger.low_C))} and ${trimmed(show.temperature(danger.high_C))}`
  if (danger.longest_h <= 0) return `No place is ${zone} at any time.`
  const words = dangerWords(forecast, startsAt, show).long.replace('inside', zone)
  const sameAsCore = danger.longest_h - danger.core_h < 0.25
  return sameAsCore ? `${words}.` : `${words}; the place that stays longest is there for ${longestWords(danger)}.`
}

/** The longest stay of any place, with its band. */
export function longestWords({ longest_h, longest_early_h, longest_late_h }: Forecast['danger']): string {
  const band = {
    ...(longest_early_h === undefined ? {} : { early_h: longest_early_h }),
    ...(longest_late_h === undefined ? {} : { late_h: longest_late_h }),
  }
  return bandedWords(durationWords, longest_h, band, 'longer')
}

/** "5.0 °C" as "5 °C": limits are round numbers. */
const trimmed = (words: string): string => words.replace(/\.0(?=\D|$)/, '')
const bare = (words: string): string => trimmed(words).replace(/\s*°[CF]$/, '')
