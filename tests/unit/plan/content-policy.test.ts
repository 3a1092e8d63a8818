import { afterEach, expect, test, vi } from 'vitest'
import { aPlan } from './a-plan.ts'

afterEach(() => {
  vi.unstubAllGlobals()
  vi.resetModules()
})

test('plans are read without making code from strings, as the content policy of the window forbids it', async () => {
  let made = 0
  const native = globalThis.Function
  vi.stubGlobal(
    'Function',
    new Proxy(native, {
      construct() {
        made++
        throw new EvalError('forbidden')
      },
      apply() {
        made++
        throw new EvalError('forbidden')
      },
    }),
  )
  vi.resetModules()
  const { findPlanFaults, readPlan } = await import('../../../src/core/plan/read.ts')
  const { resolvePlan } = await import('../../../src/core/plan/resolve.ts')
  expect(resolvePlan(readPlan(JSON.stringify(aPlan()))).job.stages).toHaveLength(1)
  expect(findPlanFaults({})).not.toEqual([])
  expect(made).toBe(0)
}, 20_000)
