import { readdirSync, readFileSync } from 'node:fs'
import { runVariants } from '../../src/core/deciding/band.ts'
import { movedInputs } from '../../src/core/deciding/moved-inputs.ts'
import { assembleCurves, curveReaders, forecast } from '../../src/core/forecast.ts'
import { findCore } from '../../src/core/journey/core-place.ts'
import { computeJourney } from '../../src/core/journey/journey.ts'
import { coarsePartner, resolutions } from '../../src/core/journey/resolution.ts'
import { readPlan } from '../../src/core/plan/read.ts'
import { resolvePlan } from '../../src/core/plan/resolve.ts'
import type { Plan } from '../../src/core/plan/schema/plan.ts'
import { allTargets, withAllAsked } from '../support/all-asked.ts'

/*
 * What rules and laws cost beside temperatures: each example with every published rule and every target asked of it,
 * against its temperatures, their band and their curves alone. The two take turns, and what is told is the processor's
 * own time, so that whatever else the machine does falls on both.
 */

const ROUNDS = 7
/** What rules and laws may take beside the temperatures of all examples. */
const MOST = 0.3
const EXAMPLES = 'shared/examples'

function temperaturesAlone(plan: Plan): void {
  const resolved = resolvePlan(plan)
  const { job, fidelity } = resolved
  const { course, coarse, error } = computeJourney(job, fidelity, {})
  const resolution = resolutions[fidelity]
  const grid = fidelity === 'quick' ? resolution : coarsePartner(resolution)
  const variants = runVariants(movedInputs(plan, resolved), grid, coarse, {})
  const core = findCore(coarse)
  assembleCurves(course, variants, curveReaders(resolved, core))
  error?.([(one) => one.follow(core), (one) => one.mean_C])
}

const user_ms = (run: () => void): number => {
  const { user } = process.cpuUsage()
  run()
  return (process.cpuUsage().user - user) / 1000
}
/** The least of several: what the work itself takes, whatever else went on. */
const least = (values: readonly number[]): number => Math.min(...values)

let together = { alone: 0, all: 0 }
const only = process.env.BENCH_EXAMPLE ?? ''
for (const name of readdirSync(EXAMPLES).filter((one) => one.includes(only))) {
  const plan = withAllAsked(readPlan(readFileSync(`${EXAMPLES}/${name}`, 'utf8')))
  const alone: number[] = []
  const all: number[] = []
  for (let round = 0; round <= ROUNDS; round++) {
    const pair = [user_ms(() => temperaturesAlone(plan)), user_ms(() => forecast(plan))] as const
    if (round === 0) continue
    alone.push(pair[0])
    all.push(pair[1])
  }
  together = { alone: together.alone + least(alone), all: together.all + least(all) }
  const more = 100 * (least(all) / least(alone) - 1)
  console.info(
    `${name}: temperatures ${least(alone).toFixed(0)} ms, with ${plan.rules!.length} rules and ${allTargets.length} targets ` +
      `${least(all).toFixed(0)} ms of the processor: ${more.toFixed(0)} % more`,
  )
}
const share = together.all / together.alone - 1
console.info(`all examples: ${(100 * share).toFixed(0)} % more (goal ${100 * MOST} %)`)
