import type { Forecast } from '../../core/forecast-types.ts'
import type { Plan, PlanAction, PlanStage } from '../../core/plan/schema.ts'
import { hoursFrom } from '../format-time.ts'
import { writeAt } from './path.ts'

/** A stage after the last one. */
export function addStage(plan: Plan): Plan {
  const last = plan.stages.at(-1)
  const stage: PlanStage = { name: 'Fridge', in: 'fridge-static', until: { after_h: 12 } }
  return { ...plan, stages: [...plan.stages, last?.in === stage.in ? { ...stage, name: 'Rest' } : stage] }
}

/** A stage once more, right after itself, without what is done at its start. */
export function duplicateStage(plan: Plan, index: number): Plan {
  const stage = plan.stages[index]
  if (stage === undefined) return plan
  const { start: _, ...bare } = stage
  return { ...plan, stages: plan.stages.toSpliced(index + 1, 0, { ...bare, name: `${stage.name}, again` }) }
}

/** Without one stage; the last one stays, as a plan needs one. */
export function removeStage(plan: Plan, index: number): Plan {
  return plan.stages.length === 1 ? plan : { ...plan, stages: plan.stages.toSpliced(index, 1) }
}

/** One place earlier (−1) or later (+1). */
export function moveStage(plan: Plan, index: number, by: number): Plan {
  const stage = plan.stages[index]
  const to = index + by
  if (stage === undefined || to < 0 || to >= plan.stages.length) return plan
  return { ...plan, stages: plan.stages.toSpliced(index, 1).toSpliced(to, 0, stage) }
}

export type ActionKind = PlanAction['do']

/** Something more to do at a stage's start. */
export function addAction(plan: Plan, stage: number, kind: ActionKind): Plan {
  const start = plan.stages[stage]?.start ?? []
  return writeAt(plan, `stages[${stage}].start`, [...start, newAction(plan, kind)])
}

function newAction(plan: Plan, kind: ActionKind): PlanAction {
  switch (kind) {
    case 'pour':
      return { do: kind, material: plan.piece.fill.at(-1)?.material ?? 'egg-custard', thickness_mm: 40, start_C: 60 }
    case 'cover':
      return { do: kind, with: 'film' }
    case 'uncover':
    case 'unmould':
      return { do: kind }
  }
}

export function removeAction(plan: Plan, stage: number, action: number): Plan {
  const left = (plan.stages[stage]?.start ?? []).toSpliced(action, 1)
  return writeAt(plan, `stages[${stage}].start`, left.length > 0 ? left : undefined)
}

export type EndKind = 'after' | 'core' | 'clock'

export const endKind = ({ until }: PlanStage): EndKind =>
  until.after_h !== undefined ? 'after' : until.core_C !== undefined ? 'core' : 'clock'

/** The same stage with another kind of end; a guard stays where the new end needs one. */
export function withEnd(plan: Plan, index: number, kind: EndKind): Plan {
  const stage = plan.stages[index]
  if (stage === undefined || endKind(stage) === kind) return plan
  const hours = stage.until.max_h ?? stage.until.after_h ?? 24
  const until: PlanStage['until'] =
    kind === 'after' ? { after_h: hours } : kind === 'core' ? { core_C: 5, max_h: hours } : { clock: '07:00' }
  return writeAt(plan, `stages[${index}].until`, until)
}

/**
 * Hours since the start at which every stage begins, as far as the plan itself says, else as forecast; null beyond
 * what is known.
 */
export function stageStarts(plan: Plan, forecast: Forecast | null): (number | null)[] {
  let at_h: number | null = 0
  return plan.stages.map((stage, i) => {
    const begins = at_h
    const { after_h, core_C, clock } = stage.until
    const sure = begins === null || core_C !== undefined ? null : sureEnd(plan.startsAt, begins, after_h, clock)
    at_h = sure ?? forecast?.stages[i]?.to_h ?? null
    return begins
  })
}

function sureEnd(startsAt: string, from_h: number, after_h?: number, clock?: string): number | null {
  const ends: number[] = []
  if (after_h !== undefined) ends.push(from_h + after_h)
  if (clock !== undefined)
    ends.push(clock.includes('T') ? hoursFrom(startsAt, clock) : nextClock(startsAt, from_h, clock))
  return ends.length > 0 ? Math.min(...ends) : null
}

/** Hours since the start of the first moment after `from_h` at which the clock shows this time. */
export function nextClock(startsAt: string, from_h: number, clock: string): number {
  const sameDay = hoursFrom(startsAt, `${startsAt.slice(0, 10)}T${clock}`)
  const days = Math.floor((from_h - sameDay) / 24) + 1
  return sameDay + days * 24
}
