import type { Help } from '../core/choosing/help.ts'
import type { Limit, LimitAsk } from '../core/choosing/limit.ts'
import type { Question } from '../core/choosing/question.ts'
import type { Spread } from '../core/deciding/spread.ts'
import type { Fault } from '../core/errors.ts'
import type { Kept } from '../core/fitting/kept.ts'
import type { OnTheDay } from '../core/fitting/on-the-day.ts'
import type { Plan } from '../core/plan/schema/plan.ts'
import type { Failure } from './forecast-protocol.ts'

export interface DayReply extends OnTheDay {
  /** What of the fit could be kept for later plans; null where it determined nothing. */
  readonly keepable: Kept | null
}

/** What takes longer than a forecast: name → what is asked and what comes back. */
export interface DecidingCalls {
  /** How a plan stands on its day, by the readings that it holds. */
  readonly day: { readonly ask: { readonly plan: Plan }; readonly reply: DayReply }
  /** What would help, the best first. */
  readonly help: { readonly ask: { readonly plan: Plan; readonly question: Question }; readonly reply: Help }
  /** The same from the last reading on, for the piece as its readings have it. */
  readonly helpNow: DecidingCalls['help']
  /** How sure the answers are, and what drives them. */
  readonly spread: {
    readonly ask: { readonly plan: Plan; readonly runs: number; readonly seed: number }
    readonly reply: Spread
  }
  /** The furthest value of one number, by its path in the plan. */
  readonly limit: {
    readonly ask: LimitAsk & { readonly plan: Plan; readonly path: string; readonly question: Question }
    readonly reply: Limit
  }
}

export type DecidingCall = keyof DecidingCalls

export type DecidingAsk = {
  readonly [Call in DecidingCall]: { readonly call: Call; readonly ask: DecidingCalls[Call]['ask'] }
}[DecidingCall]

/** No longer wanted: the worker gives back what it has, if that says anything. */
export const STOP = 'stop'

/** What the worker answers; mistakes come as data, never as exceptions. */
export type DecidingReply =
  | { readonly kind: 'cancelled' }
  | { readonly kind: 'progress'; readonly share: number; readonly doing: string }
  | { readonly kind: 'done'; readonly reply: DecidingCalls[DecidingCall]['reply'] }
  | { readonly kind: 'faults'; readonly faults: readonly Fault[] }
  | { readonly kind: 'failed'; readonly failure: Failure }
