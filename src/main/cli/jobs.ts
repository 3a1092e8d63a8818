import { usualWorkers } from '../pool/pool.ts'
import { wholeOf } from './numbers.ts'
import type { Words } from './words.ts'

const MOST_JOBS = 64

/** How many computations run at a time, by `--jobs`; as many as the machine has room for if left out. Throws `PlanError`. */
export const jobsOf = (words: Words): number => wholeOf(words, 'jobs', usualWorkers(), 1, MOST_JOBS)
