import { resolvePlan } from '../../core/plan/resolve.ts'
import { PLAN_LIMIT } from '../../core/plan/schema/plan.ts'
import { say } from '../../core/words/sentences.ts'
import { metric } from '../../core/words/show.ts'
import { readText } from './input.ts'
import { readPlan } from './read-plan.ts'
import type { Words } from './words.ts'

/** `thickset check PLAN`: faults as an error, else what the plan leaves to defaults. */
export async function carryCheck(words: Words): Promise<number> {
  const plan = readPlan(await readText(words.operands[0] ?? '-', PLAN_LIMIT))
  const { notes } = resolvePlan(plan)
  const lines = [...new Set(notes.map((note) => say(note, metric)))]
  process.stdout.write(`"${plan.title}" can be computed.\n`)
  process.stdout.write(lines.map((line) => `  ${line}\n`).join(''))
  return 0
}
