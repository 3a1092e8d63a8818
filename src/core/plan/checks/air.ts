import type { Fault } from '../../errors.ts'
import { AIR_LAYER } from '../../materials/air-layer.ts'
import type { DraftPlan } from '../draft.ts'
import { type Path, sayPath } from '../path.ts'

const fault = (path: Path, problem: string, remedy: string): Fault => ({ path: sayPath(path), problem, remedy })

/** Air that lies where nothing can hold it: outside, or poured. */
export function checkAir({ plan, body, whole }: DraftPlan): Fault[] {
  // A material of the plan's own may be called so too.
  if (plan.materials?.[AIR_LAYER] !== undefined || body === undefined) return []
  const { lining = [], fill = [] } = plan.piece ?? {}
  const faults: Fault[] = []
  if (lining[0]?.material === AIR_LAYER)
    faults.push(
      fault(
        ['piece', 'lining', 0, 'material'],
        'is air, with nothing outside to hold it',
        'put a lining before it; air between a cover and the piece is gap_mm of the cover',
      ),
    )
  const bare = lining.length === 0 && whole(['piece', 'lining'])
  if (fill[0]?.material === AIR_LAYER && (bare || body.mixed === true))
    faults.push(
      fault(
        ['piece', 'fill', 0, 'material'],
        'is air, with nothing around to hold it',
        'give a lining, or a layer beneath it',
      ),
    )
  for (const [index, stage] of (plan.stages ?? []).entries())
    for (const [at, action] of (stage?.start ?? []).entries())
      if ((action?.do === 'pour' || action?.do === 'coat') && action.material === AIR_LAYER)
        faults.push(
          fault(
            ['stages', index, 'start', at, 'material'],
            `is air, which can't be used to ${action.do}`,
            'place it, with a layer to lie over it',
          ),
        )
  return faults
}
