import { message } from '../../messages.ts'
import type { Change } from '../change.ts'
import { laterBy } from '../one-number.ts'

const EARLIER_H = 4

/** The whole plan some hours earlier. */
export const startEarlier: Change = {
  id: 'start-earlier',
  title: message('change-start-earlier'),
  trouble: message('trouble-start-earlier'),
  edit: (plan) =>
    (plan.targets ?? []).some(({ by }) => by !== undefined)
      ? { ...plan, startsAt: laterBy(plan.startsAt, -EARLIER_H * 3600) }
      : undefined,
}
