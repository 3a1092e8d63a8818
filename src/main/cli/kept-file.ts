import { type Kept, readKept, withKept } from '../../core/fitting/kept.ts'
import type { Plan } from '../../core/plan/schema/plan.ts'
import { readText } from './input.ts'
import { wordFault } from './words.ts'

/** Longest file of kept measurements that is read, bytes. */
const KEPT_LIMIT = 5_000_000

/** A file of kept measurements. Throws `PlanError`. */
export async function readKeptFile(path: string): Promise<Kept> {
  const text = await readText(path, KEPT_LIMIT)
  try {
    return readKept(JSON.parse(text))
  } catch (error) {
    if (!(error instanceof SyntaxError)) throw error
    throw wordFault(`${path} is no JSON`, 'give a file that thickset fit --keep has written')
  }
}

/** The plan with what earlier fits have kept; refuses a file that has nothing of it. */
export async function withKeptFile(plan: Plan, path: string): Promise<Plan> {
  const taken = withKept(plan, await readKeptFile(path))
  if (taken.stages.length + taken.materials.length === 0)
    throw wordFault(`${path} has none of the plan's surroundings and materials`, 'measure them, or leave it out')
  return taken.plan
}
