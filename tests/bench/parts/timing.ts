/** Middle of some values. */
export function median(values: readonly number[]): number {
  const sorted = values.toSorted((a, b) => a - b)
  return sorted[Math.floor(sorted.length / 2)]!
}

/** Milliseconds that something takes. */
export function wall_ms(run: () => void): number {
  const began = performance.now()
  run()
  return performance.now() - began
}

/** Milliseconds of the processor, of all threads of this process. */
export function processor_ms(run: () => void): number {
  const before = process.cpuUsage()
  run()
  const { user, system } = process.cpuUsage(before)
  return (user + system) / 1000
}

/** Runs something for so long, once at the least: then the compiler is done with it. */
export function warmUp(run: () => void, for_ms: number): void {
  const until = performance.now() + for_ms
  do run()
  while (performance.now() < until)
}

/** Runs in a median: 20, fewer of what is long. */
export const runsFor = (once_ms: number): number => (once_ms < 1000 ? 20 : once_ms < 4000 ? 5 : 3)

export interface Timed {
  readonly median_ms: number
  readonly least_ms: number
  readonly runs: number
}

/** Median of warm runs, and the least: what the work itself takes, whatever else the machine does. */
export function timed(run: () => void, measure: (run: () => void) => number = wall_ms): Timed {
  warmUp(run, 4000)
  const runs = runsFor(measure(run))
  const values = Array.from({ length: runs }, () => measure(run))
  return { median_ms: median(values), least_ms: Math.min(...values), runs }
}
