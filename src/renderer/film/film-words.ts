import type { Forecast } from '../../core/forecast-types.ts'
import type { Plan } from '../../core/plan/schema/plan.ts'

/** Lines that matter in the temperature field, °C: the danger zone's limits and what was asked of the core. */
export function linesThatMatter(forecast: Forecast, plan: Plan): readonly number[] {
  const asked = (plan.targets ?? []).flatMap((target) =>
    'core_C' in target && target.core_C !== undefined ? [target.core_C] : [],
  )
  return [...new Set([forecast.danger.low_C, forecast.danger.high_C, ...asked])]
}
