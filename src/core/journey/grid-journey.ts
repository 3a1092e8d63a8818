import type { Control } from '../control.ts'
import { startAround } from './around.ts'
import { causesOf, tableRange } from './causes.ts'
import type { Course } from './course.ts'
import { type Job, layersOfJob } from './job.ts'
import { live, type Progress } from './live.ts'
import { materialsInRun } from './materials-in-run.ts'
import { settleEnds } from './met-ends.ts'
import { startPiece } from './piece.ts'
import { finishCourse } from './record.ts'
import type { Resolution } from './resolution.ts'

/** How much less a step may err where there is but one cell. */
const MIXED_FINER = 30

/**
 * Computes a journey on one grid: all stages in order, from the layers' start temperatures.
 * Throws `ComputeError` when the fields stop being finite or the steps vanish, `Cancelled` when asked to stop.
 */
export function runOnGrid(job: Job, resolution: Resolution, control: Control = {}): Course {
  const quiet = control.stopped === undefined ? {} : { stopped: control.stopped }
  return runSettled(
    settleEnds(job, (part) => runSettled(part, resolution, quiet)),
    resolution,
    control,
  )
}

/** The same where no stage waits for what only a whole course can tell. */
function runSettled(job: Job, asked: Resolution, control: Control): Course {
  const materials = [...new Set(layersOfJob(job).map((layer) => layer.material))]
  // One cell costs nothing, and the error of its steps is all the error there is.
  const resolution = job.body.mixed ? { ...asked, tolerance_K: asked.tolerance_K / MIXED_FINER } : asked
  const piece = startPiece(job, resolution, materialsInRun(materials, causesOf(job), tableRange(job)))
  const around = startAround()
  const progress: Progress = { time: 0, steps: 0, kept: 0 }
  const spans = job.stages.map((stage, index) =>
    live(
      piece,
      stage,
      resolution,
      progress,
      (share) => control.report?.((index + share) / job.stages.length, stage.name),
      control,
      around,
      index,
    ),
  )
  return finishCourse(piece, spans, progress.steps, around.course())
}
