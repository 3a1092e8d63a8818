import { Cancelled, ComputeError, PlanError } from '../../core/errors.ts'
import { PLAN_LIMIT } from '../../core/plan/schema/plan.ts'
import { openThreads } from '../pool/pool.ts'
import { planWordsOf } from './asked-plan.ts'
import { DONE, UNFINISHED, WRONG } from './exit-codes.ts'
import type { Told } from './forecasts-work.ts'
import { readText } from './input.ts'
import { untilInterrupted } from './interrupt.ts'
import { jobsOf } from './jobs.ts'
import { type Progress, watchProgress } from './progress.ts'
import { textSection } from './text-table.ts'
import { collectFaults, faultLines, type Words, wordFault } from './words.ts'

/** What can be asked of one plan only. */
const FOR_ONE = ['csv', 'air'] as const

/** Throws `PlanError` where the words are for one plan. */
function checkWords(words: Words): void {
  const alone = FOR_ONE.filter((option) => words.text(option) !== undefined)
  if (alone.length > 0)
    throw wordFault(`${alone.map((option) => `--${option}`).join(' and ')} is for one plan`, 'name one plan with it')
  if (words.operands.filter((file) => file === '-').length > 1)
    throw wordFault('standard input can be read once', 'write - once')
}

/** Why one plan has no forecast, in lines that name its file; and the exit code that this asks for. */
interface Failure {
  readonly faults: string
  readonly code: number
}

function tellFailure(file: string, error: unknown): Failure {
  if (error instanceof PlanError) {
    const faults = error.faults.map((fault) =>
      fault.path === file ? fault : { ...fault, path: named(file, fault.path) },
    )
    return { faults: faultLines(faults), code: WRONG }
  }
  if (error instanceof ComputeError || error instanceof Cancelled)
    return { faults: `${file}: ${error.message}\n`, code: UNFINISHED }
  throw error
}

const named = (file: string, path: string): string => `${file}: ${path === '' ? 'plan' : path}`

/** A wrong plan weighs more than one that could not be finished. */
const worst = (codes: readonly number[]): number =>
  codes.includes(WRONG) ? WRONG : codes.includes(UNFINISHED) ? UNFINISHED : DONE

/** Tells how far all plans are together: each counts the same. */
function shareProgress(plans: number, progress: Progress): (plan: number) => (share: number) => void {
  const shares = new Float64Array(plans)
  return (plan) => (share) => {
    shares[plan] = share
    const done = shares.filter((one) => one === 1).length
    progress.report?.(shares.reduce((sum, one) => sum + one, 0) / plans, `${done} of ${plans} plans`)
  }
}

/**
 * `thickset forecast A B …`: each plan on its own, all cores at work. What comes of them is printed in the order in
 * which they were named, each as soon as it and those before it are there; a plan that has none stops no other.
 */
export async function forecastMany(words: Words): Promise<number> {
  const { how, jobs } = collectFaults({
    how: () => planWordsOf(words),
    jobs: () => jobsOf(words),
    words: () => checkWords(words),
  })
  const files = words.operands
  const input = files.includes('-') ? await readText('-', PLAN_LIMIT) : undefined
  const progress = watchProgress(words.has('progress'))
  const tell = shareProgress(files.length, progress)
  const json = words.has('json')
  const print = printer(json, progress)
  return untilInterrupted(async (signal) => {
    const pool = openThreads('forecasts', { how, json }, { workers: jobs, signal })
    const forecasts = files.map(async (file, index) => {
      const part = file === '-' && input !== undefined ? { file, text: input } : { file }
      const made = await pool.ask(part, tell(index)).catch((error: unknown) => tellFailure(file, error))
      tell(index)(1)
      return made
    })
    // Those behind one that breaks are never waited for.
    for (const one of forecasts) one.catch(() => undefined)
    try {
      const codes: number[] = []
      for (const [index, one] of forecasts.entries()) codes.push(print(files[index] ?? '', await one))
      return worst(codes)
    } finally {
      pool.end()
    }
  })
}

/** Prints what came of each plan, and gives its exit code. A caution is printed with the first plan that has it. */
function printer(json: boolean, progress: Progress): (file: string, made: Told | Failure) => number {
  const known = new Set<string>()
  return (file, made) => {
    progress.done()
    if ('code' in made) {
      process.stderr.write(made.faults)
      return made.code
    }
    const { lines, cautions } = made
    const fresh = cautions.filter((caution) => !known.has(caution))
    for (const caution of fresh) known.add(caution)
    const old = cautions.length - fresh.length
    const more = [
      ...fresh.map((caution) => `caution: ${caution}`),
      ...(old === 0 ? [] : [`${old} caution${old === 1 ? '' : 's'} more, told above`]),
    ]
    process.stdout.write(json ? `${lines[0]}\n` : textSection(file, [...lines, ...more]))
    return DONE
  }
}
