import type { Change } from '../change.ts'
import { laterBy } from '../one-number.ts'

const EARLIER_H = 4

/** The whole plan some hours earlier. */
export const startEarlier: Change = {
  id: 'start-earlier',
  title: 'start four hours earlier',
  trouble: 'other working hours; it stands longer at the end',
  edit: (plan) =>
    (plan.targets ?? []).some(({ by }) => by !== undefined)
      ? { ...plan, startsAt: laterBy(plan.startsAt, -EARLIER_H * 3600) }
      : undefined,
}
