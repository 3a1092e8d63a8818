import { boundaryBand } from '../stage-times.ts'
import type { TimeBand } from '../words/banded.ts'
import type { CalendarEntry } from '../words/calendar.ts'
import type { Show } from '../words/show.ts'
import { stageLetter } from '../words/stage.ts'
import type { Sheet } from './sheet.ts'

/** Minutes that a check and the change of a stage are entered with. */
const CHECK_MINUTES = 10
const CHANGE_MINUTES = 15

/** The band of a computed moment, as a sentence; nothing for one that is given. */
function between({ early_h, late_h }: TimeBand, show: Show): string {
  if (early_h === undefined) return ''
  const late = late_h === undefined ? 'after the end of the plan' : show.moment(late_h).replace(/^at /, '')
  return `Likely then, between ${show.moment(early_h).replace(/^at /, '')} and ${late}. `
}

/** Stage changes and check times as entries of a calendar, in order. */
export function checkEntries({ stages, checks }: Sheet, show: Show): CalendarEntry[] {
  const changes = stages.map(({ name, from_h }, index) => ({
    at_h: from_h,
    minutes: CHANGE_MINUTES,
    title: `${stageLetter(index)}: ${name}`,
    text: between(boundaryBand(stages, from_h), show),
  }))
  const measured = checks.map(({ at_h, stage, core, ...band }) => ({
    at_h,
    minutes: CHECK_MINUTES,
    title: `Measure the core: ${show.temperature(core.likely_C)} expected`,
    text: `${between(band, show)}Stage ${stageLetter(stage)}; early to late ${show.temperature(core.low_C)} to ${show.temperature(core.high_C)}. A calibrated probe in the slowest place.`,
  }))
  return [...changes, ...measured].sort((one, other) => one.at_h - other.at_h)
}
