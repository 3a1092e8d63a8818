import { tableRange } from './causes.ts'
import type { Course } from './course.ts'
import type { Job, Stage } from './job.ts'

/** A stage that ends at a moment that was found; one that never comes is waited for until the stage's other ends. */
function ending({ until, ...stage }: Stage, after: number | undefined): Stage {
  const { met: _, ...others } = until
  if (after === undefined || after >= Math.min(others.after ?? others.max, others.max))
    return { ...stage, until: others }
  return { ...stage, until: { ...others, after, afterIsMet: true } }
}

/**
 * A job with hours in place of what its stages wait for. Each such stage is first left to run to its other ends; what
 * comes before a moment doesn't hang on when the stage ends, so the moment found on that course is the true one.
 * @param run  computes a job and takes no notice of `met`
 */
export function settleEnds(job: Job, run: (job: Job) => Course): Job {
  if (job.stages.every(({ until }) => until.met === undefined)) return job
  const stages = [...job.stages]
  const like = { shapedLike: job.shapedLike ?? job, tables_C: job.tables_C ?? tableRange(job) }
  for (const [index, stage] of stages.entries()) {
    const { met } = stage.until
    if (met === undefined) continue
    const course = run({ ...job, ...like, stages: stages.slice(0, index + 1) })
    const { from } = course.stages[index]!
    const moment = met(course, from)
    stages[index] = ending(stage, moment === undefined ? undefined : Math.max(0, moment - from))
  }
  return { ...job, ...like, stages }
}
