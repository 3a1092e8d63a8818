import { assertNever } from '../errors.ts'
import type { Plan, PlanAction } from '../plan/schema/plan.ts'
import type { Show } from './show.ts'

/** A, B, … Z, AA, AB, …: the sign of a stage in ribbon and list. */
export function stageLetter(index: number): string {
  const letter = String.fromCharCode(65 + (index % 26))
  return index < 26 ? letter : stageLetter(Math.floor(index / 26) - 1) + letter
}

/** What is done at a stage's start, in a few words each. */
export function actionWords(plan: Plan, stage: number, show: Show): readonly string[] {
  return (plan.stages[stage]?.start ?? []).map((action) => wordsOf(action, show))
}

function wordsOf(action: PlanAction, show: Show): string {
  const on = 'faces' in action && action.faces ? ` on ${action.faces.join(', ')}` : ''
  switch (action.do) {
    case 'pour':
      return `pour ${action.material}, ${show.length(action.thickness_mm / 1000)} at ${show.temperature(action.start_C)}`
    case 'place':
      return `lay on ${action.material}, ${show.length(action.thickness_mm / 1000)} at ${show.temperature(action.start_C)}`
    case 'wrap':
      return `wrap in ${action.with ?? 'film'}`
    case 'open-door':
      return `open the door for ${show.duration(action.minutes / 60)}`
    case 'cover':
      return `cover with ${action.with}${on}`
    case 'uncover':
      return `uncover${on}`
    case 'unmould':
      return 'unmould'
    case 'coat': {
      const thick = action.thickness_mm === undefined ? '' : `, ${show.length(action.thickness_mm / 1000)}`
      return `coat with ${action.material}${thick} at ${show.temperature(action.start_C)}${on}`
    }
    case 'turn':
      return 'turn over'
    case 'stand': {
      const thick = action.board_mm === undefined ? '' : ` ${show.length(action.board_mm / 1000)}`
      const made = action.board === undefined ? '' : ` ${action.board}`
      const of = thick === '' && made === '' ? '' : ` of${thick}${made}`
      return action.on === 'spacers' ? 'stand on spacers' : `stand on the ${action.on}${of}`
    }
    case 'cut':
      return cutWords(action, show)
    default:
      return assertNever(action)
  }
}

/** "cut 4 across, 12 along". */
function cutWords({ across, along, wedges, slice_mm }: Extract<PlanAction, { do: 'cut' }>, show: Show): string {
  const ways = [
    across === undefined ? null : `${across} across`,
    along === undefined ? null : `${along} along`,
    wedges === undefined ? null : `${wedges} wedges`,
    slice_mm === undefined ? null : `slices of ${show.length(slice_mm / 1000)}`,
  ].filter((way) => way !== null)
  return ways.length === 0 ? 'cut' : `cut ${ways.join(', ')}`
}
