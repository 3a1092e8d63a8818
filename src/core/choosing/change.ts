import type { Message } from '../messages.ts'
import type { Plan } from '../plan/schema/plan.ts'

/** A real change to how a piece is made, as an edit of its plan. */
export interface Change {
  readonly id: string
  /** What is done. */
  readonly title: Message
  /** What it asks of the workshop. */
  readonly trouble: Message
  /** The plan changed so; undefined where there is nothing of the kind to change. */
  readonly edit: (plan: Plan) => Plan | undefined
}
