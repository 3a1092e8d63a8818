import { localSeconds, shownAt } from '../../core/plan/clock.ts'
import type { Plan } from '../../core/plan/schema/plan.ts'
import { metric, type Show } from '../../core/words/show.ts'

const DAYS = ['Sun', 'Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat']
const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec']
const two = (value: number): string => String(value).padStart(2, '0')

/** Metric words with moments on the workshop's clock, for a plan that starts at a local date and time. */
export function clockShow({ startsAt, clock_changes = [] }: Pick<Plan, 'startsAt' | 'clock_changes'>): Show {
  if (localSeconds(startsAt) === null) return metric
  return {
    ...metric,
    moment(at_h) {
      // Minutes are the finest thing that a forecast should be read to.
      const moment = new Date(Math.round((shownAt(startsAt, at_h * 3600, clock_changes) ?? 0) / 60) * 60_000)
      const day = `${DAYS[moment.getUTCDay()]} ${moment.getUTCDate()} ${MONTHS[moment.getUTCMonth()]}`
      return `at ${two(moment.getUTCHours())}:${two(moment.getUTCMinutes())} on ${day}`
    },
  }
}
