import { computeSamples, prepareSpread } from '../../src/core/deciding/spread-samples.ts'
import type { Plan } from '../../src/core/plan/schema.ts'

/*
 * A spread of 500 runs of a bar in its section over two days, on one thread. The time of the processor is what counts,
 * as a busy machine stretches the clock; several workers share it evenly.
 */

const RUNS = 500

const plan: Plan = {
  format: 'thickset-plan',
  version: 1,
  title: 'Custard bar, two days',
  startsAt: '2027-03-12T16:00',
  rules: ['fda-food-code-2022'],
  dimensions: 2,
  piece: {
    shape: { kind: 'bar', width_mm: 300, length_mm: 1200 },
    fill: [{ material: 'egg-custard', thickness_mm: 150, start_C: 70 }],
  },
  stages: [
    { name: 'Bench', in: { air_C: 20, h_W_m2K: 12 }, until: { after_h: 4 } },
    { name: 'Freeze', in: { air_C: -20, h_W_m2K: 12 }, until: { after_h: 44 } },
  ],
  targets: [{ kind: 'frozen', core_C: -10 }],
}

const task = prepareSpread(plan, { runs: RUNS, seed: 1 })
// Compiled and warm before it counts, as in a worker after its first runs.
computeSamples(task, 0, 20)
const before = process.cpuUsage()
computeSamples(task, 0, RUNS)
const { user, system } = process.cpuUsage(before)
const seconds = (user + system) / 1e6
console.log(
  `spread of ${RUNS} runs, bar in section, two days: ${seconds.toFixed(1)} s of processor, ${((1000 * seconds) / RUNS).toFixed(1)} ms a run; ${(seconds / 2).toFixed(1)} s on two cores`,
)
