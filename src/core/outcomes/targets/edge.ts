import type { Answer, Verdict } from '../../forecast-types.ts'
import type { Course } from '../../journey/course.ts'
import { type Message, message } from '../../messages.ts'
import { toHours } from '../../units.ts'
import type { History } from '../cooling-rule.ts'
import { deepestHotter, type Front } from '../dry-front.ts'
import { fineHistory, finePlaces } from '../fine-history.ts'
import { COLOURS } from '../kinetics/crust.ts'
import { getLawKind, settingLaw } from '../kinetics/index.ts'
import { spansWhere } from '../kinetics/spans.ts'
import { meanRate } from '../mean-rate.ts'
import type { Judge, TargetOf } from '../target.ts'

/** Crust deeper than this is more than welcome, m (choice). */
const WELCOME = 0.01
/** Hotter than this a crumb has dried: it never exceeds it while it is wet, °C. Source: chapter on cake batters (seen). */
const DRY_C = 100.5
/** Cook value: minutes at 100 °C by this z, K. Source: Mansfield 1962 (from memory). */
const COOK_Z_K = 33
const cooking = meanRate((T_C) => 10 ** ((T_C - 100) / COOK_Z_K), 0, 300, 1)
/** How many times the core's the edge's may be (choice). */
const COOK_RATIO = 4

/** How deep the piece has dried; undefined where it has not. */
const dryFront = (course: Course): Front | undefined => deepestHotter(course, DRY_C)

/** Colour of the hottest face at the end, and when it was burnt, if it was. */
function colourOf(course: Course): { readonly colour: number; readonly burntAt: number | undefined } {
  const law = settingLaw({ by: 'crust' }, 'typical')
  const history = fineHistory({ t: course.t, T_C: course.hottest_C })
  const { spans, end } = spansWhere(law, history, [(values) => values[0]! - COLOURS.burnt])
  return { colour: end[0]!, burntAt: spans[0]![0]?.from }
}

/** Minutes at 100 °C that a history is worth to the palate. */
export const cookMinutes = (history: History): number => cooking.along(history) / 60

/** Cook value of the place that is cooked most over that of the one that is cooked least. */
function cookRatio(course: Course): number {
  const minutes = finePlaces(course).map(cookMinutes)
  const least = minutes.reduce((a, b) => Math.min(a, b), Number.POSITIVE_INFINITY)
  return least > 0 ? minutes.reduce((a, b) => Math.max(a, b), 0) / least : Number.POSITIVE_INFINITY
}

const colourName = (colour: number): string =>
  colour >= COLOURS.burnt ? 'burnt' : colour >= COLOURS.dark ? 'dark' : colour >= COLOURS.golden ? 'golden' : 'pale'

/** The last moment at which something is hot enough to dry; of a plan that is never so hot, its start. */
function heatEnds({ t, hottest_C }: Course): number {
  for (let i = t.length - 1; i >= 0; i--) if (hottest_C[i]! > DRY_C) return t[i]!
  return t[0]!
}

/** When the heat ends that could over-bake an edge, h since the start; undefined where it was burnt or dried too deep by then. */
function edgeMoment({ most = WELCOME }: TargetOf<'edge'>, course: Course): number | undefined {
  if (colourOf(course).burntAt !== undefined) return undefined
  return (dryFront(course)?.depth ?? 0) > most ? undefined : toHours(heatEnds(course))
}

/** So much cooler than what dries a crumb, K, and no error of inputs makes it dry. */
const FAR_K = 25

/** The same in other courses of the job: where this one is far from drying anything, no other is asked. */
export function edgeReader(target: TargetOf<'edge'>, { hottest_C }: Course): (course: Course) => number | undefined {
  const far = hottest_C.every((T_C) => T_C < DRY_C - FAR_K)
  return far ? ({ t }) => toHours(t[0]!) : (one) => edgeMoment(target, one)
}

/** When an edge was burnt, h since the start: the one time that a sentence about an edge tells. */
export const edgeTimes: Readonly<Record<string, (course: Course) => number | undefined>> = {
  at_h: (course) => {
    const { burntAt } = colourOf(course)
    return burntAt === undefined ? undefined : toHours(burntAt)
  },
}

/** Edge not over-baked: not burnt, and not dried deeper than asked. */
export const judgeEdge: Judge<'edge'> = (target, course): Answer => {
  const { most = WELCOME, by } = target
  const { colour, burntAt } = colourOf(course)
  const dry = dryFront(course)
  const notes: Message[] = [message('edge-colour', { name: colourName(colour), share_pct: (100 * colour) / 52 })]
  const ratio = dry === undefined ? 1 : cookRatio(course)
  if (ratio > COOK_RATIO) notes.push(message('edge-cooked', { ratio }))
  notes.push(message('edge-weak'))
  const highest = course.hottest_C.reduce((most_C, T) => Math.max(most_C, T), Number.NEGATIVE_INFINITY)
  const hottest = course.hottestAt(course.hottest_C.indexOf(highest))
  const tell = (answer: Verdict, why: Message, at?: number): Answer => {
    const where = why.where ?? hottest
    return {
      target: target.kind,
      index: target.index,
      answer,
      ...(at === undefined ? {} : { at_h: toHours(at) }),
      ...(by === undefined ? {} : { by_h: toHours(by) }),
      ...(by === undefined || at === undefined ? {} : { margin_h: toHours(by - at) }),
      where,
      layer: course.describe(where).layer,
      why,
      notes,
      sources: [`browning: ${getLawKind('crust').source}`],
    }
  }
  if (burntAt !== undefined) return tell('no', message('edge-burnt', { at_h: toHours(burntAt) }, hottest))
  if (dry !== undefined && dry.depth > most)
    return tell('no', message('edge-dry', { depth_m: dry.depth, most_m: most }, dry.where))
  if (dry === undefined)
    return tell('yes', message('edge-never-dry', { highest_C: highest, dry_C: DRY_C }, hottest), heatEnds(course))
  const why = message('edge-kept', { depth_m: dry.depth, most_m: most }, dry.where)
  return tell('yes', why, heatEnds(course))
}
