import type { Fault } from '../../errors.ts'
import { findWall } from '../../materials/wall.ts'
import type { Draft, DraftPlan } from '../draft.ts'
import { type Path, sayPath } from '../path.ts'
import type { PlanAction } from '../schema/plan.ts'
import { type Obstacle, startWrapping, type Wrapping, wrapped } from '../wrapping.ts'

const fault = (path: Path, problem: string, remedy: string): Fault => ({ path: sayPath(path), problem, remedy })

function obstacleFault(path: Path, action: Draft<PlanAction>, kind: string, obstacle: Obstacle): Fault {
  const doing = action.do ?? 'this'
  switch (obstacle.kind) {
    case 'no mould':
      return fault(path, 'unmould, but the piece is in no mould here', 'give the mould in the piece, or take this out')
    case 'in its mould':
      return fault(path, `${doing}, but the piece is in its mould`, 'unmould it first')
    case 'no top':
      return fault(path, `${doing}, but nothing can be laid on a ${kind} as it lies`, 'give it as the fill or a lining')
    case 'alike':
      return fault(path, `turn, but a ${kind} is the same either way up`, 'take this out')
    case 'no bottom':
      return fault(path, 'stand, but there is no flat side below', 'turn it over first, or take this out')
    case 'stirred':
      return fault(path, `${doing}, but the mass is stirred`, 'take this out')
    case 'cut already':
      return fault(path, 'cut, but it was cut before', 'give all cuts at once')
    case 'no such cut':
      return fault(
        path,
        `cut, but not so: a ${kind} of this size can be cut ${obstacle.can.length === 0 ? 'in no way' : `by ${obstacle.can.join(', ')}`}`,
        obstacle.can.length === 0 ? 'take this out' : `give ${obstacle.can.join(' or ')}`,
      )
    case 'covered already':
      return fault(
        path,
        `${doing}, but ${obstacle.faces.join(', ')} is covered already`,
        'uncover first, or name other faces',
      )
    case 'under a cover':
      return obstacle.faces.length === 1 && obstacle.faces[0] === 'top'
        ? fault(path, `${doing}, but the top is covered`, 'uncover it first')
        : fault(path, `${doing}, but ${obstacle.faces.join(', ')} is covered`, 'uncover first, or name other faces')
    case 'not covered':
      if (obstacle.faces.length === 0) return fault(path, 'uncover, but nothing is covered here', 'take this out')
      return fault(
        path,
        `uncover, but nothing covers ${obstacle.faces.join(', ')}`,
        'name the faces that are covered, or none for all of them',
      )
  }
}

/** What an action leaves open or says twice. */
function ownFaults(action: Draft<PlanAction>, path: Path, whole: DraftPlan['whole']): Fault[] {
  if (action.do === 'cover' && action.thickness_mm === undefined && whole([...path, 'thickness_mm'])) {
    const wall = action.with === undefined ? undefined : findWall(action.with)
    if (wall !== undefined && wall.usualThickness === undefined)
      return [fault([...path, 'thickness_mm'], 'is missing', `give it: ${wall.title} has no usual thickness`)]
  }
  if (action.do === 'coat' && whole(path)) {
    if (action.thickness_mm === undefined && action.yield_Pa === undefined)
      return [fault([...path, 'thickness_mm'], 'is missing', 'give it in mm, or the yield stress of the melt in Pa')]
    if (action.thickness_mm !== undefined && action.yield_Pa !== undefined)
      return [fault([...path, 'yield_Pa'], 'stands beside thickness_mm', 'give one of them')]
  }
  if (action.do === 'cut' && whole(path)) {
    const { across, along, wedges, slice_mm } = action
    const counts = [across, along, wedges].filter((count) => count !== undefined)
    if (slice_mm === undefined && !counts.some((count) => count > 1))
      return [fault(path, 'cut, but into how many?', 'give across, along, wedges or slice_mm')]
    if (slice_mm !== undefined && along !== undefined)
      return [fault([...path, 'slice_mm'], 'stands beside along', 'give one of them')]
  }
  if (action.do === 'stand' && action.on !== undefined && action.on !== 'board' && action.on !== 'tray')
    return (['board_mm', 'board', 'start_C'] as const)
      .filter((key) => action[key] !== undefined)
      .map((key) => fault([...path, key], `is not asked on ${action.on}`, 'leave it out'))
  return []
}

/** What is done to the piece, in order: pours that have no place, covers twice, moulds that aren't there. */
export function checkActions({ plan, body, whole, sized }: DraftPlan): Fault[] {
  if (body === undefined) return []
  const faults: Fault[] = []
  const mould = plan.piece?.mould ?? []
  let wrapping: Wrapping = startWrapping(mould.length > 0)
  // A mould that could not be read may be there or not: nothing is said of it.
  const mouldKnown = whole(['piece', 'mould'])
  for (const [index, stage] of (plan.stages ?? []).entries())
    for (const [at, action] of (stage?.start ?? []).entries()) {
      const path: Path = ['stages', index, 'start', at]
      if (action === undefined) continue
      faults.push(...ownFaults(action, path, whole))
      const after = wrapped(wrapping, action, body)
      const { obstacle } = after
      const unsure =
        obstacle === undefined ||
        !whole([...path, 'faces']) ||
        (obstacle.kind === 'no mould' && !mouldKnown) ||
        (obstacle.kind === 'no such cut' && (!sized || !whole(path)))
      if (!unsure) faults.push(obstacleFault(path, action, body.kind, obstacle))
      wrapping = after.wrapping
    }
  return faults
}

/** Heaters and repeats that have no meaning. */
export function checkStages({ plan, body, whole }: DraftPlan): Fault[] {
  const stages = plan.stages ?? []
  return stages.flatMap((stage, index): Fault[] => {
    const path: Path = ['stages', index]
    const faults: Fault[] = []
    if (stage?.power_W !== undefined && body !== undefined && body.mixed !== true)
      faults.push(
        fault([...path, 'power_W'], `is for a stirred mass, not for a ${body.kind}`, 'say how its faces are heated'),
      )
    const from = stage?.repeat?.from
    if (from !== undefined && whole([...path, 'repeat'])) {
      const named = stages.findIndex((one) => one?.name === from)
      if (named < 0)
        faults.push(fault([...path, 'repeat', 'from'], `no stage is called "${from}"`, 'name an earlier one'))
      else if (named > index)
        faults.push(fault([...path, 'repeat', 'from'], `"${from}" comes later`, 'name this stage or an earlier one'))
    }
    const cuts = stages.slice(0, index + 1).some((one) => one?.start?.some((action) => action?.do === 'cut'))
    if (stage?.repeat !== undefined && cuts && repeatsCut(stages, index))
      faults.push(fault([...path, 'repeat'], 'repeats a cut', 'cut once, before or after'))
    return faults
  })
}

function repeatsCut(stages: NonNullable<DraftPlan['plan']['stages']>, index: number): boolean {
  const from = stages[index]?.repeat?.from
  const first = from === undefined ? index : stages.findIndex((stage) => stage?.name === from)
  return stages
    .slice(Math.max(0, first), index + 1)
    .some((stage) => stage?.start?.some((action) => action?.do === 'cut'))
}
