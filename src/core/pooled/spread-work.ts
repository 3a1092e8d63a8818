import { computeSamples, drawsOf, prepareSpread, type SpreadAsk, type SpreadDraws } from '../deciding/spread-samples.ts'
import { forecast } from '../forecast.ts'
import type { Forecast } from '../forecast-types.ts'
import type { Plan } from '../plan/schema/plan.ts'
import type { Begin } from './work.ts'

/** What samples are told with: their draws, and the forecast of the plan. */
export interface Told {
  readonly task: SpreadDraws
  readonly likely: Pick<Forecast, 'title' | 'answers' | 'safety'>
}

/** Runs of a spread from `from` up to, without, `to`; or what they are told with. */
export type SpreadPart = { readonly from: number; readonly to: number } | 'told'

export interface SpreadWork {
  readonly start: { readonly plan: Plan; readonly ask: SpreadAsk }
  readonly part: SpreadPart
  /** Rows of the runs. Shape: (to − from) × columns.width, row-major */
  readonly reply: Float64Array | Told
}

/** Every worker makes the plan ready once. */
export const beginSpread: Begin<SpreadWork> = ({ plan, ask }) => {
  const task = prepareSpread(plan, ask)
  const all = Array.from({ length: ask.runs }, (_, run) => run)
  return (part, control) => {
    if (part !== 'told') return computeSamples(task, part.from, part.to, control)
    const { title, answers, safety } = forecast(plan, control)
    return { task: drawsOf(task, all), likely: { title, answers, safety } }
  }
}
