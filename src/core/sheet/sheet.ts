import type { Forecast } from '../forecast-types.ts'
import type { Message } from '../messages.ts'
import { type PieceNeeds, pieceNeeds } from '../needs.ts'
import type { Plan } from '../plan/schema/plan.ts'
import { type Check, checksOf } from './checks.ts'

/** What goes to the wall of the workshop: what to do when, when to measure, what to weigh out, what to mind. */
export interface Sheet {
  readonly title: string
  /** The workshop's wall clock at the start, `YYYY-MM-DDTHH:MM`. */
  readonly startsAt: string
  readonly stages: Forecast['stages']
  readonly answers: Forecast['answers']
  readonly rules: Forecast['safety']
  readonly checks: readonly Check[]
  readonly needs: PieceNeeds
  readonly quantities: Forecast['quantities']
  readonly slowest: Forecast['core']
  /** Each once, in order. */
  readonly cautions: readonly Message[]
}

/** The sheet of a plan and its forecast. */
export function makeSheet(plan: Plan, forecast: Forecast): Sheet {
  return {
    title: forecast.title,
    startsAt: plan.startsAt,
    stages: forecast.stages,
    answers: forecast.answers,
    rules: forecast.safety,
    checks: checksOf(forecast),
    needs: pieceNeeds(plan),
    quantities: forecast.quantities,
    slowest: forecast.core,
    cautions: forecast.cautions,
  }
}
