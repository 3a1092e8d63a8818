import { assertNever } from '../../core/errors.ts'
import type { Forecast } from '../../core/forecast-types.ts'
import { buildBody } from '../../core/geometry/shapes/index.ts'
import { scheduleStages } from '../../core/plan/schedule.ts'
import type { Plan, PlanAction, PlanStage, PlanSurroundings } from '../../core/plan/schema/plan.ts'
import { cutsPossible } from '../../core/plan/wrapping.ts'
import { boundaryBand } from '../../core/stage-times.ts'
import { toHours } from '../../core/units.ts'
import type { TimeBand } from '../../core/words/banded.ts'
import { writeAt } from './path.ts'

/** A stage after the last one. */
export function addStage(plan: Plan): Plan {
  const last = plan.stages.at(-1)
  const stage: PlanStage = { name: 'Fridge', in: 'cabinet-fridge', until: { after_h: 12 } }
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
    case 'place':
      return { do: kind, material: plan.piece.lining?.[0]?.material ?? 'sponge-crumb', thickness_mm: 10, start_C: 20 }
    case 'cover':
      return { do: kind, with: 'film' }
    case 'open-door':
      return { do: kind, minutes: 5 }
    case 'coat':
      return { do: kind, material: coatOf(plan), thickness_mm: 3, start_C: 32 }
    case 'stand':
      return { do: kind, on: 'spacers' }
    case 'cut':
      return { do: kind, ...firstCut(plan) }
    case 'uncover':
    case 'unmould':
    case 'turn':
    case 'wrap':
      return { do: kind }
    default:
      return assertNever(kind)
  }
}

/** What the piece is lined with, as a coat often is the same; else its uppermost fill. */
function coatOf({ piece }: Plan): string {
  return piece.lining?.[0]?.material ?? piece.fill.at(-1)?.material ?? 'egg-custard'
}

/** Ways in which the piece can be cut. */
export const cutWays = (plan: Plan): CutWay[] => cutsPossible(buildBody(plan.piece.shape)) as CutWay[]

export type CutWay = 'across' | 'along' | 'wedges' | 'slice_mm'

/** A first cut of the piece in one way that it knows. */
function firstCut(plan: Plan): Partial<Record<CutWay, number>> {
  const ways = cutWays(plan)
  if (ways.includes('wedges')) return { wedges: 12 }
  return ways.includes('along') ? { along: 10 } : {}
}

/** The same with the piece on something else; only boards and trays have a thickness, a material, a temperature. */
export function withStand(plan: Plan, path: string, on: Extract<PlanAction, { do: 'stand' }>['on']): Plan {
  const put = writeAt(plan, `${path}.on`, on)
  if (on === 'board' || on === 'tray') return put
  return ['board_mm', 'board', 'start_C'].reduce((made, key) => writeAt(made, `${path}.${key}`, undefined), put)
}

export function removeAction(plan: Plan, stage: number, action: number): Plan {
  const left = (plan.stages[stage]?.start ?? []).toSpliced(action, 1)
  return writeAt(plan, `stages[${stage}].start`, left.length > 0 ? left : undefined)
}

/** Hours, a temperature somewhere, a target, a time of day, or a day and a time. */
export type EndKind = 'after' | 'core' | 'surface' | 'mean' | 'probe' | 'target' | 'clock' | 'moment'

/** Whether the end comes by itself and so may need a guard. */
export const isAwaited = (kind: EndKind): boolean => !['after', 'clock', 'moment'].includes(kind)

/** Ends that a stage of the plan can be given: a probe or a target must be there to wait for. */
export function endKinds(plan: Plan, stage: PlanStage): EndKind[] {
  const all: readonly EndKind[] = ['after', 'core', 'surface', 'mean', 'probe', 'target', 'clock', 'moment']
  const given = endKind(stage)
  return all.filter((kind) => {
    if (kind === given) return true
    if (kind === 'probe') return (plan.probes ?? []).length > 0
    return kind !== 'target' || (plan.targets ?? []).length > 0
  })
}

export function endKind({ until }: PlanStage): EndKind {
  if (until.core_C !== undefined) return 'core'
  if (until.surface_C !== undefined) return 'surface'
  if (until.mean_C !== undefined) return 'mean'
  if (until.probe !== undefined) return 'probe'
  if (until.target !== undefined) return 'target'
  if (until.after_h !== undefined || until.clock === undefined) return 'after'
  return until.clock.includes('T') ? 'moment' : 'clock'
}

/** The same stage with another kind of end; a guard stays where the new end needs one. */
export function withEnd(plan: Plan, index: number, kind: EndKind): Plan {
  const stage = plan.stages[index]
  if (stage === undefined || endKind(stage) === kind) return plan
  return writeAt(plan, `stages[${index}].until`, newEnd(plan, stage, kind))
}

function newEnd(
  { startsAt, probes: [probe] = [], targets: [target] = [] }: Plan,
  { until }: PlanStage,
  kind: EndKind,
): PlanStage['until'] {
  const hours = until.max_h ?? until.after_h ?? 24
  const time = until.clock?.slice(-5) ?? '07:00'
  const awaited = until.core_C ?? until.surface_C ?? until.mean_C ?? until.probe?.C ?? 5
  const core = { core_C: awaited, max_h: hours }
  switch (kind) {
    case 'after':
      return { after_h: hours }
    case 'core':
      return core
    case 'surface':
      return { surface_C: awaited, max_h: hours }
    case 'mean':
      return { mean_C: awaited, max_h: hours }
    case 'probe':
      return probe === undefined ? core : { probe: { name: probe.name, C: awaited }, max_h: hours }
    case 'target':
      return target === undefined ? core : { target: target.kind, max_h: hours }
    case 'clock':
      return { clock: time }
    case 'moment':
      return {
        clock: `${new Date(Date.parse(`${startsAt.slice(0, 10)}T00:00Z`) + 86_400_000).toISOString().slice(0, 10)}T${time}`,
      }
    default:
      return assertNever(kind)
  }
}

/** What a stage's surroundings are chosen by: the name of built-in ones, or `own`. */
export function surroundingsChoice({ in: given }: PlanStage): string {
  return typeof given === 'string' ? given : (given.like ?? 'own')
}

/** The same stage in other surroundings; an air temperature of its own stays with built-in ones. */
export function withSurroundings(plan: Plan, index: number, choice: string, usualAir_C: number): Plan {
  const stage = plan.stages[index]
  if (stage === undefined || surroundingsChoice(stage) === choice) return plan
  const own = { air_C: usualAir_C, h_W_m2K: 8 }
  const given = stage.in
  const next =
    choice === 'own' ? own : typeof given === 'string' || given.like === undefined ? choice : { ...given, like: choice }
  return writeAt(plan, `stages[${index}].in`, next)
}

/** The same stage with air of its own; without, built-in surroundings have their usual air again. */
export function withAir(plan: Plan, index: number, air_C: number | undefined): Plan {
  const given = plan.stages[index]?.in
  if (given === undefined) return plan
  const path = `stages[${index}].in`
  if (typeof given === 'string') return air_C === undefined ? plan : writeAt(plan, path, { like: given, air_C })
  const { air_C: _, ...rest } = given
  if (air_C !== undefined) return writeAt(plan, `${path}.air_C`, air_C)
  const bare = rest.like !== undefined && Object.keys(rest).length === 1
  return writeAt(plan, path, bare ? rest.like : rest)
}

/** The same stage with a figure of its surroundings by its path within them; built-in ones become an object for it. */
export function withFigure(plan: Plan, index: number, key: string, value: unknown): Plan {
  const given = plan.stages[index]?.in
  if (given === undefined || (typeof given === 'string' && value === undefined)) return plan
  const path = `stages[${index}].in`
  const open = typeof given === 'string' ? writeAt(plan, path, { like: given }) : plan
  const written = writeAt(open, `${path}.${key}`, value)
  const left = written.stages[index]?.in
  if (typeof left !== 'object') return written
  const kept = withoutEmpty(left) as PlanSurroundings
  const bare = kept.like !== undefined && Object.keys(kept).length === 1
  return writeAt(written, path, bare ? kept.like : kept)
}

/** An object without what in it is empty. */
function withoutEmpty(value: object): object {
  const entries = Object.entries(value).map(([key, one]: [string, unknown]): [string, unknown] =>
    typeof one === 'object' && one !== null && !Array.isArray(one) ? [key, withoutEmpty(one)] : [key, one],
  )
  const empty = (one: unknown): boolean => typeof one === 'object' && one !== null && Object.keys(one).length === 0
  return Object.fromEntries(entries.filter(([, one]) => !empty(one)))
}

/** The same stage in measured air, by points [h, °C]. */
export function withCourse(plan: Plan, index: number, points: readonly (readonly [number, number])[]): Plan {
  const given = plan.stages[index]?.in
  if (given === undefined) return plan
  const whole: PlanSurroundings = typeof given === 'string' ? { like: given } : given
  const { appliance: _, ...rest } = whole
  return writeAt(plan, `stages[${index}].in`, { ...rest, air_C: points.map(([hour, T_C]) => [hour, T_C]) })
}

/** When a stage begins, hours since the plan's start; with a band where that is computed. */
export interface StageStart extends TimeBand {
  readonly at_h: number
}

/**
 * Hours since the start at which every stage begins, as far as the plan itself says, else as forecast; null beyond
 * what is known.
 */
export function stageStarts(plan: Plan, forecast: Forecast | null): (StageStart | null)[] {
  const scheduled = scheduleStages(
    plan.startsAt,
    plan.stages.map(({ until }) => until),
    plan.clock_changes,
  )
  return scheduled.map(({ begins }, i) => {
    if (begins !== null) return { at_h: toHours(begins) }
    const at_h = forecast?.stages[i]?.from_h
    return at_h === undefined ? null : { at_h, ...boundaryBand(forecast?.stages ?? [], at_h) }
  })
}
