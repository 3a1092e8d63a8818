import { assertNever } from '../../errors.ts'
import type { Answer } from '../../forecast-types.ts'
import type { Course } from '../../journey/course.ts'
import type { Target, TargetKind } from '../target.ts'
import { judgeBaked } from './baked.ts'
import { judgeCooled } from './cooled.ts'
import { judgeFrozen } from './frozen.ts'

/** What each kind of target is called. */
export const targetTitles: Readonly<Record<TargetKind, string>> = {
  cooled: 'Cooled',
  frozen: 'Frozen',
  baked: 'Baked',
}

/** The answer to a target: when the last place gets there, against the asked time, and why. */
export function judgeTarget(target: Target, course: Course): Answer {
  switch (target.kind) {
    case 'cooled':
      return judgeCooled(target, course)
    case 'frozen':
      return judgeFrozen(target, course)
    case 'baked':
      return judgeBaked(target, course)
    default:
      return assertNever(target)
  }
}
