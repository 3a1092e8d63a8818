import type { Control } from '../control.ts'
import { Cancelled, ComputeError, type Fault } from '../errors.ts'
import type { Fidelity } from '../journey/job.ts'
import { createRunner } from './case-run.ts'
import { type Case, type CaseOutput, readCases } from './case-schema.ts'
import { FormulaError } from './formula.ts'
import { NotApplicable } from './not-applicable.ts'
import { computeOutput } from './outputs.ts'
import type { Computed } from './question.ts'
import { type Row, summarize, type Verification } from './report.ts'
import { toleranceOf } from './tolerance.ts'

type Range = readonly [number, number]
const asRange = (value: number | readonly number[]): Range =>
  typeof value === 'number' ? [value, value] : [Math.min(...value), Math.max(...value)]

/** Distance between two numbers or ranges; 0 where they overlap. */
function distance(a: Range, b: Range): number {
  if (a[0] > b[1]) return a[0] - b[1]
  return b[0] > a[1] ? b[0] - a[1] : 0
}

/** What an output asks, in one line. */
function label({ quantity, position, t_s, target_C, from_C, to_C, crossing, note, basis }: CaseOutput): string {
  const at = Object.entries(position ?? {})
    .filter(([key]) => key !== 'name' || position === undefined || Object.keys(position).length === 1)
    .map(([key, value]) => (key === 'name' ? String(value) : `${key} ${String(value)}`))
  const parts = [
    quantity,
    ...at,
    ...(t_s === undefined ? [] : [`t ${t_s} s`]),
    ...(target_C === undefined ? [] : [`to ${target_C} degC`]),
    ...(from_C === undefined ? [] : [`from ${from_C} to ${to_C} degC`]),
    ...(crossing === undefined ? [] : [crossing]),
    ...(basis === undefined ? [] : [basis === 'as printed' ? 'printed' : 'exact']),
    ...(note === undefined ? [] : [note]),
  ]
  return parts.join(', ')
}

/** Why an output can't be judged, or undefined where the failure is the core's own. */
function reasonOf(error: unknown): string | undefined {
  return error instanceof NotApplicable || error instanceof FormulaError ? error.message : undefined
}

function judge(entry: Case, output: CaseOutput, fidelity: Fidelity, compute: () => Computed): Row {
  const { value: expected } = output
  const row = {
    case: entry.id,
    output: label(output),
    unit: output.unit ?? '',
    ...(entry.source === undefined
      ? {}
      : { source: [entry.source.ref, entry.source.locator].filter(Boolean).join(', ') }),
  }
  try {
    const { value, cell } = compute()
    if (typeof expected === 'string' || typeof expected[0 as never] === 'object')
      throw new NotApplicable('the expected value is not a number')
    const target = asRange(expected as number | readonly number[])
    const size = Math.max(Math.abs(target[0]), Math.abs(target[1]))
    const tolerance = toleranceOf(entry, output, fidelity, size, () => cell ?? 0)
    if (tolerance === undefined) throw new NotApplicable('the case gives no tolerance that fits this output')
    const error = distance(asRange(value), target)
    // Not `error > tolerance`: an error that is no number is outside.
    return {
      ...row,
      computed: value,
      expected: target,
      error,
      tolerance,
      verdict: error <= tolerance ? 'ok' : 'outside',
    }
  } catch (error) {
    const reason = reasonOf(error)
    const shown = typeof expected === 'number' ? { expected: asRange(expected) } : {}
    if (reason !== undefined) return { ...row, ...shown, verdict: 'not applicable', reason }
    if (error instanceof ComputeError) return { ...row, ...shown, verdict: 'outside', reason: error.message }
    throw error
  }
}

/**
 * Runs cases through the same journey as every forecast and compares each output with what the case expects.
 * @param list  the cases as read from JSON; malformed ones come back as faults by name
 * Throws `Cancelled`.
 */
export function verifyCases(
  list: readonly unknown[],
  { fidelity }: { readonly fidelity: Fidelity },
  control: Control = {},
): Verification & { readonly faults: readonly Fault[] } {
  const { cases, faults } = readCases(list)
  const rows: Row[] = []
  for (const [index, entry] of cases.entries()) {
    if (control.stopped?.() === true) throw new Cancelled()
    control.report?.(index / cases.length, entry.id)
    const inner: Control = control.stopped === undefined ? {} : { stopped: control.stopped }
    const run = createRunner(entry, fidelity, inner)
    for (const output of entry.outputs)
      rows.push(judge(entry, output, fidelity, () => computeOutput(entry, output, run)))
  }
  return { rows, summary: summarize(cases.length, rows), faults }
}
