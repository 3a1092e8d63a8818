import { expect } from 'vitest'
import { ComputeError, type Fault, PlanError } from '../../src/core/errors.ts'
import { Refusal } from '../../src/main/refusal.ts'

/** What no message for a person may hold: an engine's own words, a stack, a value that was never meant to be shown. */
const MACHINE_WORDS =
  /is not a function|is not iterable|cannot read propert|is not defined|reading '|\[object |\bat .+:\d+:\d+|\.ts:\d+|node:internal|Unexpected token|Maximum call stack|Invalid array length/i

export function expectClear(message: string): void {
  expect(message.trim()).not.toBe('')
  expect(message).not.toMatch(MACHINE_WORDS)
  expect(message.length).toBeLessThan(60_000)
}

function expectClearFault({ path, problem, remedy }: Fault): void {
  expectClear(problem)
  expectClear(remedy)
  expect(path).toEqual(expect.any(String))
}

/** Passes what is one of our own errors in words for a person; anything else is a crash. */
export function expectOwnError(error: unknown): void {
  if (error instanceof PlanError) {
    expect(error.faults.length).toBeGreaterThan(0)
    for (const fault of error.faults) expectClearFault(fault)
    return
  }
  if (!(error instanceof ComputeError || error instanceof Refusal)) throw error
  expectClear(error.message)
}
