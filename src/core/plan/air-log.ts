import { PlanError } from '../errors.ts'
import { toHours } from '../units.ts'
import { readLog, refuseReadings, strangeReading } from './log.ts'
import type { Plan } from './schema/plan.ts'
import { PLAN_RANGE_C } from './schema/values.ts'

/*
 * A logger's file of the air as surroundings: read into points [hours, °C] that the plan keeps.
 */

/** Most points that a plan keeps of a course. */
const MOST_POINTS = 2000
/** What a thinned course may be off at any reading, K. */
const CLOSE_K = 0.05

export type AirPoint = [number, number]

/** A log as read: hours since its first reading, °C, and what was taken of it. */
export interface AirLog {
  readonly points: readonly AirPoint[]
  readonly readings: number
  readonly fahrenheit: boolean
}

const fault = (problem: string, remedy: string): PlanError => new PlanError([{ path: 'air log', problem, remedy }])

/** Points enough that straight lines between them are close to every reading; first and last stay. */
function thinned(points: readonly AirPoint[], close_K: number): AirPoint[] {
  const kept = new Set([0, points.length - 1])
  const spans: [number, number][] = [[0, points.length - 1]]
  for (let span = spans.pop(); span !== undefined; span = spans.pop()) {
    const [low, high] = span
    const [from, to] = [points[low]!, points[high]!]
    let worst = low
    let off = close_K
    for (let i = low + 1; i < high; i++) {
      const [t, T_C] = points[i]!
      const line = from[1] + ((to[1] - from[1]) * (t - from[0])) / (to[0] - from[0])
      if (Math.abs(T_C - line) > off) {
        off = Math.abs(T_C - line)
        worst = i
      }
    }
    if (worst === low) continue
    kept.add(worst)
    spans.push([low, worst], [worst, high])
  }
  return points.filter((_, index) => kept.has(index))
}

/**
 * Reads a logger's file of the air: the first of its columns with temperatures.
 * Throws: `PlanError` where no times or temperatures are found, or times don't rise.
 */
export function readAirLog(text: string): AirLog {
  const { seconds, columns } = readLog(text)
  const { T_C, fahrenheit } = columns[0]!
  refuseReadings(T_C.flatMap((value, index) => strangeReading(index, value, PLAN_RANGE_C)))
  const there = seconds.flatMap((at, index): AirPoint[] =>
    Number.isFinite(T_C[index]!) ? [[toHours(at), T_C[index]!]] : [],
  )
  if (there.length < 2) throw fault('fewer than two readings are found', 'give a file with more of them')
  const points = there.map(([hour, value]): AirPoint => [hour - there[0]![0], value])
  let close_K = CLOSE_K
  let kept = thinned(points, close_K)
  while (kept.length > MOST_POINTS) {
    close_K *= 2
    kept = thinned(points, close_K)
  }
  return { points: kept, readings: points.length, fahrenheit }
}

/** The plan with a log as the air of a stage, named or by its number from 1; all else of its surroundings stays. */
export function withAirLog(plan: Plan, stage: string, log: AirLog): Plan {
  const byNumber = /^\d+$/.test(stage) ? Number(stage) - 1 : -1
  const named = plan.stages.findIndex(({ name }) => name === stage)
  const index = named >= 0 ? named : byNumber
  const found = plan.stages[index]
  if (found === undefined) {
    const names = plan.stages.map(({ name }) => `"${name}"`).join(', ')
    throw fault(`there is no stage "${stage}"`, `name one of ${names}`)
  }
  const given = typeof found.in === 'string' ? { like: found.in } : found.in
  const { appliance: _, ...rest } = given
  const logged = { ...found, in: { ...rest, air_C: log.points.map(([hour, T_C]): AirPoint => [hour, T_C]) } }
  return { ...plan, stages: plan.stages.with(index, logged) }
}
