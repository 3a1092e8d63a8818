import { MELTING } from '../boundary/appliance-figures.ts'
import { coolingCapacity } from '../boundary/machine.ts'
import type { ApplianceReport } from '../forecast-types.ts'
import type { Course, StageSpan } from '../journey/course.ts'
import type { Job, Stage } from '../journey/job.ts'
import { type Message, message } from '../messages.ts'
import { toHours } from '../units.ts'
import { timeBetween } from './danger.ts'

/* Whether an appliance copes with the piece: what its air does to whatever else lies in it, and how hard it works. */

/** Where nobody says how warm it may get: so much above what it is set to, K. Common practice, no source. */
const SPARE_K = 5
/** An oven that falls further than this below its dial bakes another cake, K. Common practice, no source. */
const SAG_K = 10
/** Beyond its limit for less than this, it copes, h. Common practice, no source: a door stands open longer. */
const PASSING_H = 0.25
/** Ice of which less than a hundredth is left counts as gone. */
const GONE = 0.99
/** Heat that a kilogram of the load gives in a maker's test of freezing, from 25 to -18 °C, J/kg (from memory). */
const TEST_LOAD = 340e3
const DAY = 86_400
/** Everything that is warmer, or colder, than anything met here, °C. */
const ENDLESS_C = 1e4

/** The figures of one stage, before words. */
export interface ApplianceFacts {
  /** The air, or other goods where there are some: furthest from the set point, and when, h since the start. */
  readonly extreme_C: number
  readonly extreme_h: number
  /** Hours beyond the limit, and when it is back within it for good; absent where it never left or never comes back. */
  readonly beyond_h: number
  readonly back_h?: number
}

type Figures = NonNullable<Stage['applianceFigures']>

/** Beyond this, °C, and whether beyond is above. */
function limitOf({ kind, set_C, limit_C, heater }: Figures): { readonly limit_C: number; readonly above: boolean } {
  return kind === 'oven' || (kind === 'bath' && heater !== undefined)
    ? { limit_C: limit_C ?? set_C - SAG_K, above: false }
    : { limit_C: limit_C ?? set_C + SPARE_K, above: true }
}

/** What the appliance's air does in a stage, or the other goods in it. */
export function applianceFacts(figures: Figures, course: Course, span: StageSpan): ApplianceFacts {
  const { limit_C, above } = limitOf(figures)
  const goods = course.around?.goods_C
  const followed = figures.goods !== undefined && goods !== undefined ? goods : course.air_C
  const t = course.t.subarray(span.first, span.last + 1)
  const T_C = followed.subarray(span.first, span.last + 1)
  let at = 0
  let lastBeyond = -1
  for (let i = 0; i < T_C.length; i++) {
    if (above ? T_C[i]! > T_C[at]! : T_C[i]! < T_C[at]!) at = i
    if (above ? T_C[i]! > limit_C : T_C[i]! < limit_C) lastBeyond = i
  }
  const beyond = above ? timeBetween(t, T_C, limit_C, ENDLESS_C) : timeBetween(t, T_C, -ENDLESS_C, limit_C)
  const returns = lastBeyond >= 0 && lastBeyond < t.length - 1
  return {
    extreme_C: T_C[at]!,
    extreme_h: toHours(t[at]!),
    beyond_h: toHours(beyond),
    ...(returns ? { back_h: toHours(t[lastBeyond + 1]!) } : {}),
  }
}

/** Share of its full power that the machine gave over a stage, 0 to 1; undefined where it has no limit. */
function dutyOf({ appliance }: Stage, course: Course, span: StageSpan): number | undefined {
  const machine = appliance?.appliance.machine
  const given = course.around?.machine
  if (machine === undefined || given === undefined || machine.kind === 'off' || machine.kind === 'ice') return undefined
  let used = 0
  let full = 0
  for (let i = span.first + 1; i <= span.last; i++) {
    const dt = course.t[i]! - course.t[i - 1]!
    const most = machine.kind === 'heating' ? machine.rated : coolingCapacity(machine, course.air_C[i]!)
    const before = appliance?.appliance.heat === 0 ? given[i - 1]! : given[i]!
    used += (dt * (Math.abs(given[i]!) + Math.abs(before))) / 2
    full += dt * most
  }
  return full === 0 ? undefined : Math.min(1, used / full)
}

/** Heat that the pieces give in the busiest day of a stage, in kilograms of a maker's test load. */
function askedOf({ faces, appliance }: Stage, course: Course, span: StageSpan): number {
  const own = Object.keys(faces).filter((face) => {
    const condition = faces[face]
    return condition?.kind === 'law' && condition.ambient === undefined
  })
  const given = (i: number): number => -own.reduce((sum, face) => sum + (course.heatThrough[face]?.[i] ?? 0), 0)
  let most = 0
  let from = span.first
  for (let i = span.first; i <= span.last; i++) {
    while (course.t[i]! - course.t[from]! > DAY) from++
    most = Math.max(most, given(i) - given(from))
  }
  return (most * (appliance?.pieces ?? 1)) / TEST_LOAD
}

/** What became of the ice of a bath. */
export function iceOf({ ice }: Figures, course: Course, span: StageSpan): Message[] {
  const given = course.around?.machine
  if (ice === undefined || given === undefined) return []
  let melted = 0
  for (let i = span.first + 1; i <= span.last; i++) {
    // What a bath's machine gives is told for the step that leads to each sample.
    melted -= (given[i]! * (course.t[i]! - course.t[i - 1]!)) / MELTING
    if (melted >= ice * GONE)
      return [message('ice-gone', { melted_kg: ice, after_h: toHours(course.t[i]! - course.t[span.first]!) })]
  }
  return [message('ice-left', { melted_kg: melted, left_kg: ice - melted })]
}

const copes = ({ beyond_h }: ApplianceFacts): boolean => beyond_h <= PASSING_H

function whyOf(figures: Figures, facts: ApplianceFacts, from_h: number): Message {
  const { title, kind } = figures
  const { limit_C, above } = limitOf(figures)
  const { extreme_C, extreme_h, beyond_h, back_h } = facts
  const values = { title, limit_C, extreme_C, after_h: extreme_h - from_h, beyond_h }
  const what = above ? 'warms' : 'sags'
  if (beyond_h <= 0) return message(`appliance-${what}-within`, values)
  if (copes(facts)) return message(`appliance-${what}-briefly`, values)
  if (above && kind === 'bath') return message('bath-warms', values)
  if (back_h === undefined) return message(`appliance-${what}-to-the-end`, values)
  return message(`appliance-${what}`, { ...values, back_h: back_h - from_h })
}

/**
 * One report for every stage in an appliance that is at work.
 * @param mass  of the piece, kg
 */
export function judgeAppliances(job: Job, course: Course, mass: number): ApplianceReport[] {
  return course.stages.flatMap((span, index): ApplianceReport[] => {
    const stage = job.stages[index]!
    const figures = stage.applianceFigures
    if (figures === undefined || figures.off === true || course.around === undefined) return []
    const facts = applianceFacts(figures, course, span)
    const duty = dutyOf(stage, course, span)
    const heat = course.around.appliances.find((one) => one.stage === index)?.heat
    const { rating_kg_24h } = figures
    const load = mass * (figures.pieces ?? 1)
    const overRated = rating_kg_24h !== undefined && load > rating_kg_24h
    return [
      {
        stage: span.name,
        index,
        title: figures.title,
        answer: copes(facts) ? 'copes' : 'is overloaded',
        set_C: figures.set_C,
        ...limitOf(figures),
        followed: figures.goods === undefined ? 'air' : 'goods',
        ...facts,
        energy_MJ: Math.abs(heat?.machine ?? 0) / 1e6,
        ...(duty === undefined ? {} : { duty }),
        ...(rating_kg_24h === undefined
          ? {}
          : { mass_kg: load, rating_kg_24h, asked_kg_24h: askedOf(stage, course, span) }),
        why: whyOf(figures, facts, toHours(span.from)),
        notes: [
          ...iceOf(figures, course, span),
          ...(overRated ? [message('appliance-over-rating', { mass_kg: load, rating_kg: rating_kg_24h })] : []),
        ],
      },
    ]
  })
}
