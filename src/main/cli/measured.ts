import type { Plan } from '../../core/plan/schema/plan.ts'

/** The plan with what a file of earlier fits holds, where one is named; nothing is loaded for it elsewhere. */
export async function withMeasured(plan: Plan, path: string | undefined): Promise<Plan> {
  if (path === undefined) return plan
  const { withKeptFile } = await import('./kept-file.ts')
  return withKeptFile(plan, path)
}
