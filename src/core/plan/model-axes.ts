import { type Body, dimensionsOf } from '../geometry/body.ts'
import { keepAxes } from '../geometry/shapes/keep-axes.ts'
import { type AxisLoss, chooseAxes } from '../journey/axes-left-out.ts'
import type { Fidelity, Job } from '../journey/job.ts'
import { message } from '../messages.ts'
import { surroundingsOf } from './exchange.ts'
import type { Notes } from './notes.ts'
import type { Plan } from './schema/plan.ts'

/** The job with the directions that its model needs, and a note on each that was weighed. */
export function modelAxes(plan: Plan, job: Job, fidelity: Fidelity, notes: Notes): Job {
  const { kept, leftOut, weighed } = chooseAxes(job, fidelity, plan.dimensions)
  const body = keepAxes(job.body, (axis) => kept.includes(axis))
  for (const loss of leftOut) noteLoss(job.body, loss, 'axis-left-out', notes)
  // What one expects to be in the model needs no words; ends one might expect to be left out do.
  for (const loss of weighed) if (job.body.axes[loss.axis]!.long === true) noteLoss(job.body, loss, 'axis-kept', notes)
  const gone = leftOut.flatMap(({ axis }) => [job.body.axes[axis]!.low, job.body.axes[axis]!.high])
  for (const stage of plan.stages)
    for (const name of Object.keys(surroundingsOf(stage).faces ?? {})) {
      const faces = job.body.faces[name] ?? []
      if (faces.length > 0 && faces.every((face) => gone.includes(face)))
        notes.add(message('face-left-out', { face: name }))
    }
  if (plan.dimensions !== undefined && dimensionsOf(body) !== plan.dimensions)
    notes.add(message('dimensions-not-so', { asked: plan.dimensions, has: dimensionsOf(body) }))
  return { ...job, body }
}

function noteLoss(body: Body, { axis, loss }: AxisLoss, code: 'axis-left-out' | 'axis-kept', notes: Notes): void {
  const { low, high } = body.axes[axis]!
  const faces = [low, high].filter((face) => face !== null)
  const named = Object.entries(body.faces).find(
    ([, own]) => own.length === faces.length && faces.every((face) => own.includes(face)),
  )
  const pct = 100 * loss
  notes.add(
    message(code, { faces: named?.[0] ?? faces.join(' and '), loss_pct: pct < 0.05 ? 0 : Number(pct.toPrecision(2)) }),
  )
}
