import { forecast } from '../../core/forecast.ts'
import type { Forecast } from '../../core/forecast-types.ts'
import { PLAN_LIMIT } from '../../core/plan/schema/plan.ts'
import type { Begin } from '../../core/pooled/work.ts'
import { forecastDocument } from '../../core/words/document.ts'
import { asAsked, type PlanWords } from './asked-plan.ts'
import { readText } from './input.ts'
import { readPlan } from './read-plan.ts'
import { tellBriefly } from './tell-forecast.ts'

/** One plan of many: read, computed and put into words by one worker. */
export interface ForecastsWork {
  readonly start: { readonly how: PlanWords; readonly json: boolean }
  /** @param text  of the plan, where it was read already */
  readonly part: { readonly file: string; readonly text?: string }
  readonly reply: Told
}

/** What is printed of one plan; cautions that others have too are printed once. */
export interface Told {
  readonly lines: readonly string[]
  readonly cautions: readonly string[]
}

/** The document of one plan among others names its file. */
function lineOf(file: string, result: Forecast): string {
  const { format, version, ...rest } = forecastDocument(result)
  return JSON.stringify({ format, version, file, ...rest })
}

export const beginForecasts: Begin<ForecastsWork> =
  ({ how, json }) =>
  async ({ file, text }, control) => {
    const plan = await asAsked(readPlan(text ?? (await readText(file, PLAN_LIMIT))), how)
    const result = forecast(plan, control)
    return json ? { lines: [lineOf(file, result)], cautions: [] } : tellBriefly(result, plan)
  }
