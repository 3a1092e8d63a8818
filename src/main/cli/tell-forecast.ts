import type { Answer, ApplianceReport, Forecast, RuleVerdict } from '../../core/forecast-types.ts'
import type { Place } from '../../core/geometry/body.ts'
import type { TargetKind } from '../../core/outcomes/target.ts'
import { targetWords } from '../../core/outcomes/target-words.ts'
import type { Plan } from '../../core/plan/schema/plan.ts'
import { endBand, lengthBand } from '../../core/stage-times.ts'
import { bandedWords, type TimeBand } from '../../core/words/banded.ts'
import { layerTitle, placeWords } from '../../core/words/place.ts'
import { say } from '../../core/words/sentences.ts'
import type { Show } from '../../core/words/show.ts'
import { spareWords } from '../../core/words/spare.ts'
import { clockShow } from './clock-show.ts'

const MARGIN = 9

/** Lines under a heading; nothing at all when there are none. */
function section(title: string, lines: readonly string[]): string {
  return lines.length === 0 ? '' : `\n${title}\n${lines.map((line) => `  ${line}\n`).join('')}`
}

const indented = (line: string): string => `${' '.repeat(MARGIN)}${line}`

/** A place in words, with its exact shares of the bounding box for whoever wants to follow it as a probe. */
function sayPlace(forecast: Forecast, place: Place, layer: string): string {
  const share = (value: number): string => String(Number(value.toFixed(2)))
  const { x, y, z } = place
  return `${layerTitle(forecast, layer)}, ${placeWords(place)} (x ${share(x)}, y ${share(y)}, z ${share(z)})`
}

function askedOf(plan: Plan, { index, target }: Answer, show: Show): string {
  const asked = plan.targets?.[index]
  if (asked === undefined || !('core_C' in asked) || asked.core_C === undefined)
    return targetWords[target as TargetKind]?.title.toLowerCase() ?? target
  if (asked.kind === 'coat') return `${targetWords.coat.title.toLowerCase()}, at most ${show.temperature(asked.core_C)}`
  const window = 'most_C' in asked && asked.most_C !== undefined ? ` to ${show.temperature(asked.most_C)}` : ''
  return `${target} to ${show.temperature(asked.core_C)}${window}`.replace('baked to', 'baked, core at')
}

const bandOf = (early_h: number | undefined, late_h: number | undefined): TimeBand => ({
  ...(early_h === undefined ? {} : { early_h }),
  ...(late_h === undefined ? {} : { late_h }),
})

function band({ at_h, early_h, late_h }: Answer, show: Show): string {
  if (at_h === undefined) return ''
  const edges = bandOf(early_h, late_h)
  return `${bandedWords(show.moment, at_h, edges, 'later')}, after ${bandedWords(show.duration, at_h, edges, 'longer')}`
}

function marginOf({ margin_h, by_h, early_h, late_h }: Answer, show: Show): string[] {
  if (by_h === undefined) return []
  const asked = `asked for ${show.moment(by_h)}`
  if (margin_h === undefined) return [asked]
  const edges = bandOf(
    late_h === undefined ? undefined : by_h - late_h,
    early_h === undefined ? undefined : by_h - early_h,
  )
  return [`${asked}: ${spareWords(margin_h, edges, show)}`]
}

/** An answer in a line: what it is, what was asked, and when that is reached. */
function answerLine(answer: Answer, plan: Plan, show: Show): string {
  const when = band(answer, show)
  return `${answer.answer.padEnd(MARGIN)}${askedOf(plan, answer, show)}${when === '' ? '' : `: ${when}`}`
}

function tellAnswer(forecast: Forecast, answer: Answer, plan: Plan, show: Show): string[] {
  return [
    answerLine(answer, plan, show),
    ...marginOf(answer, show).map(indented),
    indented(`decided by ${sayPlace(forecast, answer.where, answer.layer)}`),
    ...(answer.first === undefined
      ? []
      : [indented(`first at ${sayPlace(forecast, answer.first.where, answer.first.layer)}`)]),
    indented(say(answer.why, show)),
    ...(answer.notes ?? []).map((note) => indented(say(note, show))),
    ...(answer.sources ?? []).map((source) => indented(`source: ${source}`)),
  ]
}

function tellStep(step: RuleVerdict['steps'][number], show: Show): string {
  const asked =
    step.counts === 'inside'
      ? `between ${show.temperature(step.to_C)} and ${show.temperature(step.from_C)} at most ${show.duration(step.within_h)}`
      : `${show.temperature(step.from_C)} to ${show.temperature(step.to_C)} within ${show.duration(step.within_h)}`
  const taken = step.taken_h ?? step.at_least_h
  if (taken === undefined) return `${asked}: ${step.outcome}`
  const used = bandedWords(show.duration, taken, bandOf(step.early_h, step.late_h), 'longer')
  return `${asked}: ${step.taken_h === undefined ? 'at least ' : ''}${used} (${step.outcome})`
}

const ruleLine = ({ answer, title }: RuleVerdict): string => `${answer}: ${title}`

function tellRule(forecast: Forecast, verdict: RuleVerdict, show: Show): string[] {
  return [
    ruleLine(verdict),
    ...verdict.steps.map((step) => indented(tellStep(step, show))),
    indented(`worst at ${sayPlace(forecast, verdict.worst.where, verdict.worst.layer)}`),
    ...(verdict.slowest === undefined
      ? []
      : [indented(`last to come down: ${sayPlace(forecast, verdict.slowest.where, verdict.slowest.layer)}`)]),
    ...(verdict.coat === undefined
      ? []
      : [indented(`laid on later, still warmer: ${sayPlace(forecast, verdict.coat.where, verdict.coat.layer)}`)]),
    indented(say(verdict.why, show)),
    ...verdict.notes.map((note) => indented(say(note, show))),
    indented(`source: ${verdict.source}`),
  ]
}

function tellAppliance(report: ApplianceReport, show: Show): string[] {
  const { answer, stage, extreme_C, extreme_low_C, extreme_high_C, beyond_low_h, beyond_high_h, energy_MJ, duty } =
    report
  const span =
    extreme_low_C === undefined || extreme_high_C === undefined
      ? ''
      : ` (${show.temperature(extreme_low_C)} to ${show.temperature(extreme_high_C)})`
  const hours =
    beyond_low_h === undefined || beyond_high_h === undefined || beyond_high_h === 0
      ? ''
      : `, beyond its limit ${show.duration(beyond_low_h)} to ${show.duration(beyond_high_h)}`
  const work = duty === undefined ? '' : `, ${Math.round(100 * duty)} % of its power`
  return [
    `${answer}: ${stage}`,
    indented(say(report.why, show)),
    indented(
      `${report.followed} at ${show.temperature(extreme_C)}${span}${hours}; ${energy_MJ.toFixed(1)} MJ moved${work}`,
    ),
    ...(report.rating_kg_24h === undefined || report.asked_kg_24h === undefined
      ? []
      : [
          indented(
            `asked to freeze what ${show.mass(report.asked_kg_24h)} of a maker's test load give in a day; rated ${show.mass(report.rating_kg_24h)}`,
          ),
        ]),
    ...report.notes.map((note) => indented(say(note, show))),
  ]
}

function tellQuantities({ quantities }: Forecast, show: Show): string[] {
  const layers = quantities.layers.map(({ title, thickness_m, mass_kg }) => {
    const thickness = thickness_m === null ? '' : `, ${show.length(thickness_m)}`
    return `${title}${thickness}, ${show.mass(mass_kg)}`
  })
  const heat = `${Math.abs(quantities.heat_MJ).toFixed(2)} MJ ${quantities.heat_MJ < 0 ? 'taken up' : 'given off'}`
  return [
    ...layers,
    ...tellBaked(quantities, show),
    ...tellSurfaceWater(quantities, show),
    `in all ${show.mass(quantities.mass_kg)}, ${show.number(quantities.shelf_kg_m2)} kg/m² on the shelf, ${heat}`,
  ]
}

/** Least water that is worth telling, kg. */
const TOLD_WATER = 0.005

function tellSurfaceWater({ evaporated_kg = 0, condensed_kg = 0 }: Forecast['quantities'], show: Show): string[] {
  return [
    evaporated_kg < TOLD_WATER ? '' : `${show.mass(evaporated_kg)} of water evaporates from its open faces`,
    condensed_kg < TOLD_WATER ? '' : `${show.mass(condensed_kg)} of water settles on it from the air`,
  ].filter((line) => line !== '')
}

function tellBaked({ baked }: Forecast['quantities'], show: Show): string[] {
  if (baked === undefined) return []
  const { mass_kg, water_lost_kg, water_lost_pct, poured_m, risen_m } = baked
  const risen =
    poured_m === undefined || risen_m === undefined
      ? ''
      : `, risen from ${show.length(poured_m)} to ${show.length(risen_m)}`
  return [
    `baked ${show.mass(mass_kg)}: ${show.mass(water_lost_kg)} of water boiled out (${show.number(water_lost_pct)} %)${risen}`,
  ]
}

function tellModel({ model }: Forecast, show: Show): string[] {
  const error = `${model.error_K.mean.toFixed(2)} K in the mean, ${model.error_K.largest.toFixed(2)} K at most`
  return [
    `${model.fidelity}: ${model.cells} cells in ${model.dimensions} dimension${model.dimensions === 1 ? '' : 's'}, ${model.steps} steps, ${Math.round(model.wall_ms)} ms`,
    `error of the computation itself about ${error}; the bands above are those of materials and air`,
    ...new Set(model.notes.map((note) => say(note, show))),
  ]
}

/** How a stage came to its end, in words; a kind of end without words of its own is named as the plan names it. */
const endWords: Readonly<Record<string, string>> = {
  after_h: 'by its hours',
  core_C: 'by its core',
  target: 'by what was asked of it',
  clock: 'by the clock',
  max_h: 'stopped, end not reached',
}

const occasionWords = { loaded: 'loaded', unmoulded: 'out of its mould', end: 'at the end,' } as const

/** Cautions without repeats. */
const cautionsOf = ({ cautions }: Forecast, show: Show): string[] => [
  ...new Set(cautions.map((caution) => say(caution, show))),
]

/** A forecast in words for a terminal: answers first, then rules, cautions, quantities, and what it rests on. */
export function tellForecast(forecast: Forecast, plan: Plan): string {
  const show = clockShow(plan)
  const { danger, core } = forecast
  const stages = forecast.stages.map((stage) => {
    const { name, from_h, to_h, endedBy } = stage
    const end = endBand(stage)
    const lasts = bandedWords(show.duration, to_h - from_h, lengthBand(stage), 'longer')
    const until = bandedWords((h) => show.moment(h).replace(/^at /, ''), to_h, end, 'later')
    return `${name}: ${lasts}, until ${until}, ${endWords[endedBy] ?? endedBy}`
  })
  const dangerLines = [
    `${show.temperature(danger.low_C)} to ${show.temperature(danger.high_C)}: ${bandedWords(show.duration, danger.longest_h, bandOf(danger.longest_early_h, danger.longest_late_h), 'longer')} at ${sayPlace(forecast, danger.where, danger.layer)}; ${bandedWords(show.duration, danger.core_h, bandOf(danger.core_early_h, danger.core_late_h), 'longer')} in the core`,
  ]
  return [
    `${forecast.title}\n`,
    section(
      'Answers',
      forecast.answers.flatMap((answer) => tellAnswer(forecast, answer, plan, show)),
    ),
    section(
      'Rules',
      forecast.safety.flatMap((verdict) => tellRule(forecast, verdict, show)),
    ),
    section(
      'Growth',
      forecast.growth.map(({ why, where, layer }) =>
        where === undefined || layer === undefined
          ? say(why, show)
          : `${sayPlace(forecast, where, layer)}: ${say(why, show)}`,
      ),
    ),
    section(
      'Raw egg',
      forecast.killing.flatMap(({ answer, title, where, layer, why }) => [
        `${answer}: ${title}`,
        indented(`${sayPlace(forecast, where, layer)}: ${say(why, show)}`),
      ]),
    ),
    section(
      'Carried',
      forecast.carried.flatMap(({ answer, title, occasion, at_h, where, layer, why, notes, source, ...edges }) => [
        `${answer}: ${title}, ${occasionWords[occasion]} ${bandedWords(show.moment, at_h, edges, 'later')}`,
        indented(`${sayPlace(forecast, where, layer)}: ${say(why, show)}`),
        ...notes.map((note) => indented(say(note, show))),
        indented(`source: ${source}`),
      ]),
    ),
    section(
      'Coats',
      forecast.coats.flatMap(({ title, at_h, why, notes, ...edges }) => [
        `${title}, ${bandedWords(show.moment, at_h, edges, 'later')}`,
        indented(say(why, show)),
        ...notes.map((note) => indented(say(note, show))),
      ]),
    ),
    section(
      'Appliances',
      forecast.appliances.flatMap((report) => tellAppliance(report, show)),
    ),
    section('Longest in the danger zone', dangerLines),
    section('Slowest place', [`${sayPlace(forecast, core.where, core.layer)}, ${show.length(core.depth_m)} deep`]),
    section('Stages', stages),
    section('Cautions', cautionsOf(forecast, show)),
    section('Quantities', tellQuantities(forecast, show)),
    section('Rests on', tellModel(forecast, show)),
  ].join('')
}

/** A forecast in short, for one plan among many: each answer and each rule in a line; and its cautions. */
export function tellBriefly(forecast: Forecast, plan: Plan): { readonly lines: readonly string[]; cautions: string[] } {
  const show = clockShow(plan)
  const answers = forecast.answers.map((answer) => answerLine(answer, plan, show))
  return { lines: [forecast.title, ...answers, ...forecast.safety.map(ruleLine)], cautions: cautionsOf(forecast, show) }
}
