import { message } from '../../messages.ts'
import type { Change } from '../change.ts'
import { firstCooling, isRepeated, splitStage, thickestFill, withFill, withStages } from './parts.ts'

/** Hours between the two pours, at most. */
const BETWEEN_H = 3

/** Half of the top layer now, the other half when the first has cooled. */
export const twoPours: Change = {
  id: 'two-pours',
  title: message('change-two-pours'),
  trouble: message('trouble-two-pours'),
  edit: (plan) => {
    const thick = thickestFill(plan)
    const index = firstCooling(plan)
    // Only what lies on top can be poured in two goes.
    if (thick === undefined || index !== 0 || thick.index !== plan.piece.fill.length - 1 || isRepeated(plan, index))
      return undefined
    const stage = plan.stages[index]
    if (stage === undefined) return undefined
    const half = { material: thick.layer.material, thickness_mm: thick.thickness_mm / 2, start_C: thick.layer.start_C }
    const covers = (stage.start ?? []).filter((action) => action.do === 'cover')
    const others = (stage.start ?? []).filter((action) => action.do !== 'cover')
    const hours = Math.min(BETWEEN_H, (stage.until.after_h ?? Number.POSITIVE_INFINITY) / 2)
    const parts = splitStage({ ...stage, start: others }, hours, [{ do: 'pour', ...half }, ...covers])
    if (parts === undefined) return undefined
    return withFill(withStages(plan, plan.stages.toSpliced(index, 1, ...parts)), thick.index, {
      ...thick.layer,
      ...half,
    })
  },
}
