import { sizesOf } from './case-body.ts'
import type { CaseOutput } from './case-schema.ts'
import { lettersOf } from './case-surroundings.ts'
import { crossings, type Direction, type History, maximum, timeWithin, valueAt } from './history.ts'
import { NotApplicable } from './not-applicable.ts'
import { type Computed, expectedNumber, momentOf, number, placeOf, type Question, slowestOf, upTo } from './question.ts'

/* Outputs read from the course of one place or of the mean. */

export function temperature(question: Question): Computed {
  const { output, variant, run } = question
  if (output.t_s === undefined) return steadyTemperature(question)
  const result = question.entry.program === undefined ? upTo(question, output.t_s) : run(variant, 'moments')
  return number(valueAt(placeOf(result, output), output.t_s))
}

export function steadyTemperature({ output, variant, run }: Question): Computed {
  const result = run(variant, 'steady')
  return number(valueAt(placeOf(result, output), result.end))
}

export function meanTemperature(question: Question): Computed {
  const { course } = question.run(question.variant, 'moments')
  return number(valueAt({ t: course.t, value: course.mean_C }, momentOf(question.output)))
}

/** A place that has moved less than this from where it started has not left it, K. */
const LEFT_K = 1e-3

/**
 * First moment at which a place passes a level. Where the level is the place's own start, the time before it has left
 * it doesn't count: it stands there, and round-off decides which way.
 */
export function firstCrossing(history: History, level: number, direction: Direction | undefined): number {
  const left = leavesStart(history, level)
  return crossings(history, level, direction).find((moment) => moment >= left) ?? Number.POSITIVE_INFINITY
}

/** Moment until which a place stands at `level` because it started there, s; 0 where it did not. */
function leavesStart({ t, value }: History, level: number): number {
  if (Math.abs(value[0]! - level) > 1e-9) return 0
  let sample = 0
  while (sample < t.length - 1 && Math.abs(value[sample]! - level) < LEFT_K) sample++
  return t[sample]!
}

export function timeToTemperature({ output, variant, run }: Question): Computed {
  const { target_C } = output
  if (target_C === undefined) throw new NotApplicable('the output gives no target_C')
  const history = placeOf(run(variant, 'moments'), output)
  if (expectedNumber(output) < leavesStart(history, target_C))
    throw new NotApplicable(
      'the place starts at the target and has not left it by then: which way it passes is round-off',
    )
  return number(firstCrossing(history, target_C, output.crossing))
}

/** Depth of the last place to follow below the flat face of a trough, m. */
export function slowestDepth({ entry, output, variant, run }: Question): Computed {
  const result = run(variant, 'moments')
  const { course, specimen } = result
  const slowest = slowestOf(result)
  const targets = entry.outputs.flatMap(({ target_C }) => (target_C === undefined ? [] : [target_C]))
  const last = slowest.value[0]! > targets[0]! ? Math.min(...targets) : Math.max(...targets)
  const moment = output.t_s ?? firstCrossing(slowest, last, undefined)
  const sample = course.t.findIndex((t) => t >= moment * (1 - 1e-9))
  if (sample < 0) throw new NotApplicable('the moment is not reached')
  const place = slowest.value === course.hottest_C ? course.hottestAt(sample) : course.coldestAt(sample)
  return number((1 - place.y) * specimen.depth)
}

function bandOf(output: CaseOutput): readonly [number, number] {
  const { from_C, to_C } = output
  if (from_C === undefined || to_C === undefined) throw new NotApplicable('the output gives no from_C or to_C')
  return [from_C, to_C]
}

export function timeBetween({ output, variant, run }: Question): Computed {
  const [from, to] = bandOf(output)
  const result = run(variant, 'moments')
  const history = placeOf(result, output)
  const direction = to < from ? 'falling' : 'rising'
  const starts = result.start_C[0] === from ? 0 : firstCrossing(history, from, direction)
  return number(firstCrossing(history, to, direction) - starts)
}

/** Time within a band; where the place starts on its edge, whether it is inside until it leaves is round-off. */
export function timeInBand({ output, variant, run }: Question): Computed {
  const [from, to] = bandOf(output)
  const { t, value } = placeOf(run(variant, 'moments'), output)
  const left = Math.max(leavesStart({ t, value }, from), leavesStart({ t, value }, to))
  const first = Array.from(t).findIndex((moment) => moment >= left)
  const after = { t: Array.from(t).slice(first), value: Array.from(value).slice(first) }
  const time = timeWithin(after, Math.min(from, to), Math.max(from, to))
  return { value: left === 0 ? time : [time, time + left] }
}

export const highest = ({ output, variant, run }: Question) => maximum(placeOf(run(variant, 'moments'), output))

export function finalTemperature({ output, variant, run }: Question): Computed {
  const { course } = run(variant, 'steady')
  const last = course.t.length - 1
  const ends = [course.hottest_C[last]!, course.coldest_C[last]!]
  const expected = expectedNumber(output)
  return number(Math.abs(ends[0]! - expected) > Math.abs(ends[1]! - expected) ? ends[0]! : ends[1]!)
}

/** Ratios of the times to reach half of the step, each size against the one before; the one furthest off. */
export function timeRatio({ entry, output, run, variant }: Question): Computed {
  const sizes = sizesOf(entry)
  if (sizes < 2) throw new NotApplicable('the sizes compared are not given')
  const expected = expectedNumber(output)
  let worst = expected
  for (const letter of lettersOf(entry)) {
    const times = Array.from({ length: sizes }, (_, size) => {
      const result = run({ ...variant, letter, size, film: size }, 'steady')
      const centre = { t: result.course.t, value: result.course.follow({ x: 0.5, y: 0.5, z: 0.5 }) }
      const half_C = (result.start_C[0]! + result.course.air_C[0]!) / 2
      return firstCrossing(centre, half_C, undefined)
    })
    for (let size = 1; size < sizes; size++) {
      const ratio = times[size]! / times[size - 1]!
      if (!(Math.abs(ratio - expected) <= Math.abs(worst - expected))) worst = ratio
    }
  }
  return number(worst)
}
