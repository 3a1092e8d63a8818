import type { Answer, Forecast } from '../../core/forecast-types.ts'
import type { Plan } from '../../core/plan/schema/plan.ts'
import type { Show } from '../../core/words/show.ts'
import { dayAndClock } from '../format-time.ts'

/** What was asked of the core, and when it is likely there. Hours since the start, °C. */
export interface TargetMark {
  readonly index: number
  readonly T_C: number
  /** Words from long to short. */
  readonly asked?: { readonly at_h: number; readonly words: readonly [long: string, short: string, brief: string] }
  readonly likely?: {
    readonly at_h: number
    readonly early_h: number
    readonly late_h?: number
    readonly words: string
  }
}

/** Marks of the targets that the chart can show: those with a temperature, within the course. */
export function targetMarks(forecast: Forecast, plan: Plan, show: Show): readonly TargetMark[] {
  const to_h = forecast.times_h.at(-1) ?? 0
  return forecast.answers.flatMap((answer): readonly TargetMark[] => {
    const target = plan.targets?.[answer.index]
    if (!target || !('core_C' in target) || target.core_C === undefined) return []
    const degrees = show.temperature(target.core_C).replace(/\.0(?=\s)/, '')
    const by = answer.by_h === undefined ? '' : dayAndClock(plan.startsAt, answer.by_h)
    const asked =
      answer.by_h !== undefined && answer.by_h >= 0 && answer.by_h <= to_h
        ? { at_h: answer.by_h, words: [`asked: core ${degrees} by ${by}`, `${degrees} by ${by}`, degrees] as const }
        : undefined
    const likely =
      answer.at_h !== undefined && answer.at_h <= to_h
        ? {
            at_h: answer.at_h,
            early_h: answer.early_h ?? answer.at_h,
            ...lateEnd(answer),
            words: `likely ${dayAndClock(plan.startsAt, answer.at_h)}`,
          }
        : undefined
    return [{ index: answer.index, T_C: target.core_C, ...(asked && { asked }), ...(likely && { likely }) }]
  })
}

/** Open where some variant never gets there; the likely moment itself where no band is known. */
function lateEnd({ at_h, early_h, late_h }: Answer): { readonly late_h?: number } {
  if (late_h !== undefined) return { late_h }
  return early_h === undefined && at_h !== undefined ? { late_h: at_h } : {}
}
