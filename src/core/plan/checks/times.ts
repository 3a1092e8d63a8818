import type { Fault } from '../../errors.ts'
import { type ClockChange, clockMoment, localSeconds, sinceStart } from '../clock.ts'
import type { Draft, DraftPlan } from '../draft.ts'
import { type Path, sayPath } from '../path.ts'
import { scheduleStages } from '../schedule.ts'
import type { PlanCourse, PlanStage, PlanSurroundings } from '../schema/plan.ts'
import { MOST_ROUNDS, unrolled } from '../unrolled.ts'

const fault = (path: Path, problem: string, remedy: string): Fault => ({ path: sayPath(path), problem, remedy })

const noDate = (path: Path, local: string): Fault =>
  fault(path, `"${local}" is on no calendar or clock`, 'give a date and time that exist')

/** Ends of stages, and dates against the start. */
export function checkTimes({ plan, whole }: DraftPlan): Fault[] {
  const faults: Fault[] = []
  const startsAt = plan.startsAt !== undefined && localSeconds(plan.startsAt) !== null ? plan.startsAt : undefined
  if (plan.startsAt !== undefined && startsAt === undefined) faults.push(noDate(['startsAt'], plan.startsAt))
  // Faulty ones were found by their form.
  const changes = whole(['clock_changes']) ? ((plan.clock_changes ?? []) as readonly ClockChange[]) : []
  for (const [index, { at }] of changes.entries())
    if (localSeconds(at) === null) faults.push(noDate(['clock_changes', index, 'at'], at))

  for (const [index, stage] of (plan.stages ?? []).entries()) {
    const path: Path = ['stages', index, 'until']
    const until = stage?.until
    if (until === undefined || !whole(path)) continue
    const ends = [until.after_h, until.core_C, until.surface_C, until.mean_C, until.probe, until.target, until.clock]
    if (ends.every((end) => end === undefined))
      faults.push(fault(path, until.max_h === undefined ? 'no end' : 'only a guard', 'give after_h, core_C or clock'))
    if (until.clock !== undefined && clockMoment(startsAt ?? '2000-01-01T00:00', until.clock) === null)
      faults.push(noDate([...path, 'clock'], until.clock))
  }
  const stages = plan.stages ?? []
  if (
    startsAt !== undefined &&
    stages.every((stage, index) => stage !== undefined && whole(['stages', index, 'until']))
  ) {
    const rounds = unrolled(stages)
    const scheduled = scheduleStages(
      startsAt,
      rounds.map(({ stage }) => untilOf(stage)),
      changes,
    )
    for (const [position, { late }] of scheduled.entries()) {
      const { index, round } = rounds[position]!
      const problem =
        round === 1 ? 'lies before the stage begins' : `lies before the stage begins for the ${round}th time`
      if (late) faults.push(fault(['stages', index, 'until', 'clock'], problem, 'give a later date and time'))
    }
    if (rounds.length >= MOST_ROUNDS)
      faults.push(fault(['stages'], `come to ${MOST_ROUNDS} and more with repeats`, 'repeat fewer times'))
  }

  for (const [index, target] of (plan.targets ?? []).entries()) {
    const path: Path = ['targets', index, 'by']
    if (target?.by === undefined) continue
    const since = sinceStart(startsAt ?? target.by, target.by, changes)
    if (since === null) faults.push(noDate(path, target.by))
    else if (startsAt !== undefined && since <= 0)
      faults.push(fault(path, 'lies before the start', `give a time after ${startsAt}`))
  }
  return faults
}

/** The end of a stage whose form is whole. */
const untilOf = (stage: Draft<PlanStage> | undefined): PlanStage['until'] => (stage?.until ?? {}) as PlanStage['until']

function falling(path: Path, course: Draft<PlanCourse> | undefined): Fault[] {
  if (course === undefined || typeof course === 'number') return []
  const hours = course.map((point) => point?.[0])
  const back = hours.findIndex((hour, index) => {
    const before = hours[index - 1]
    return index > 0 && hour !== undefined && before !== undefined && hour < before
  })
  if (back > 0) return [fault([...path, back], 'goes back in time', 'list the points by rising hours')]
  const third = hours.findIndex((hour, index) => index > 1 && hour !== undefined && hour === hours[index - 2])
  if (third > 0)
    return [fault([...path, third], 'is the third point at one time', 'keep two: before and after the jump')]
  return []
}

const courses = ['air_C', 'walls_C', 'surface_C'] as const

/** Courses of temperature whose points don't go forward in time. */
export function checkCourses({ plan }: DraftPlan): Fault[] {
  return (plan.stages ?? []).flatMap((stage, index): Fault[] => {
    const given = stage?.in as Draft<PlanSurroundings> | string | undefined
    if (typeof given !== 'object') return []
    const path: Path = ['stages', index, 'in']
    return [
      ...courses.flatMap((key) => falling([...path, key], given[key])),
      ...Object.entries(given.faces ?? {}).flatMap(([name, face]) =>
        courses.flatMap((key) => falling([...path, 'faces', name, key], face?.[key])),
      ),
    ]
  })
}
