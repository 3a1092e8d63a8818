import type { Box } from '../geometry/coordinates/coordinates.ts'
import { type Cut, coated, cutOut, type Form, laid, startForm } from '../geometry/form.ts'
import type { Reference } from '../geometry/mesh.ts'
import type { Action, Job } from './job.ts'

/** What the piece looks like after an action. */
export function formAfter(form: Form, action: Action): Form {
  switch (action.do) {
    case 'pour':
      return laid(form, action.layer, action.end ?? 'high')
    case 'coat':
      return coated(form, action.layer, new Set(action.faces))
    case 'cut': {
      const cuts = action.keep.map(({ axis, low, high }): Cut => {
        const from = form.box.low[axis]!
        const span = form.box.high[axis]! - from
        return { axis, low: from + low * span, high: from + high * span }
      })
      return cutOut(form, cuts, action.pieces)
    }
    case 'turn':
    case 'cover':
    case 'uncover':
    case 'unmould':
    case 'move':
      return form
  }
}

/** The form at the start, and all that follow, in order. */
export function formsOf(job: Job): Form[] {
  const forms = [startForm(job.body, job.lining, job.fill, job.inserts)]
  for (const stage of job.stages) {
    for (const action of stage.start) {
      const before = forms[forms.length - 1]!
      const after = formAfter(before, action)
      if (after !== before) forms.push(after)
    }
  }
  return forms
}

/** The whole piece with everything that is ever on it, before it is cut. */
export function referenceOf(forms: readonly Form[]): Reference {
  const { coordinates } = forms[0]!
  const box: Box = {
    low: forms[0]!.box.low.map((_, axis) => Math.min(...forms.map((form) => form.box.low[axis]!))),
    high: forms[0]!.box.high.map((_, axis) => Math.max(...forms.map((form) => form.box.high[axis]!))),
  }
  return { box, bounds: coordinates.bounds(box) }
}
