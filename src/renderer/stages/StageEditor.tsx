import type { ReactNode } from 'react'

import type { Plan, PlanStage } from '../../core/plan/schema/plan.ts'
import { stageLetter } from '../../core/words/stage.ts'
import {
  duplicateStage,
  type EndKind,
  endKind,
  endKinds,
  isAwaited,
  moveStage,
  removeStage,
  withEnd,
} from '../edits/stages.ts'
import { Choice } from '../parts/Choice.tsx'
import { IconButton } from '../parts/IconButton.tsx'
import { QuantityField } from '../parts/QuantityField.tsx'
import { hoursRange } from '../parts/ranges.ts'
import { TextField } from '../parts/TextField.tsx'
import { usePlan } from '../plan-store.ts'
import { duration } from '../units.ts'
import { StageEnd } from './StageEnd.tsx'
import { StartActions } from './StartActions.tsx'
import { SurroundingsFields } from './SurroundingsFields.tsx'

interface StageEditorProps {
  readonly plan: Plan
  readonly stage: PlanStage
  readonly index: number
  readonly onOpen: (index: number | null) => void
}

const ends: Readonly<Record<EndKind, string>> = {
  after: 'After some hours',
  core: 'When the core is at',
  surface: 'When the surface is at',
  mean: 'When the mean is at',
  probe: 'When a probe is at',
  target: 'When a target is met',
  clock: 'At a time of day',
  moment: 'On a day, at a time',
}

/** Everything about one stage. */
export function StageEditor({ plan, stage, index, onOpen }: StageEditorProps): ReactNode {
  const edit = usePlan((state) => state.edit)
  const path = `stages[${index}]`
  return (
    <div className="stage-editor">
      <TextField path={`${path}.name`} label="Name" change="name of stage" />
      <SurroundingsFields stage={stage} index={index} />
      <div className="field-row">
        <Choice
          label="Ends"
          value={endKind(stage)}
          groups={[{ title: null, options: endKinds(plan, stage).map((id) => ({ id, title: ends[id] })) }]}
          onChoose={(id) => edit('end of stage', (now) => withEnd(now, index, id as EndKind))}
        />
        <StageEnd stage={stage} index={index} look="box" />
      </div>
      {isAwaited(endKind(stage)) ? (
        <QuantityField
          path={`${path}.until.max_h`}
          label="But after this long at the latest"
          quantity={duration}
          range={hoursRange}
          change="guard"
          placeholder="168"
          optional
        />
      ) : null}
      <StartActions plan={plan} stage={stage} index={index} />
      <StageTools plan={plan} index={index} onOpen={onOpen} />
    </div>
  )
}

function StageTools({ plan, index, onOpen }: Omit<StageEditorProps, 'stage'>): ReactNode {
  const edit = usePlan((state) => state.edit)
  const letter = stageLetter(index)
  const last = plan.stages.length - 1
  const move = (by: number): void => {
    edit('order of stages', (now) => moveStage(now, index, by))
    onOpen(index + by)
  }
  return (
    <div className="row-tools">
      <IconButton icon="up" label={`Stage ${letter} earlier`} disabled={index === 0} onPress={() => move(-1)} />
      <IconButton icon="down" label={`Stage ${letter} later`} disabled={index === last} onPress={() => move(1)} />
      <IconButton
        icon="copy"
        label={`Stage ${letter} once more`}
        disabled={plan.stages.length >= 60}
        onPress={() => {
          edit('stage once more', (now) => duplicateStage(now, index))
          onOpen(index + 1)
        }}
      />
      <IconButton
        icon="bin"
        label={last === 0 ? 'The only stage stays' : `Take stage ${letter} away`}
        disabled={last === 0}
        onPress={() => {
          edit('stage taken away', (now) => removeStage(now, index))
          onOpen(null)
        }}
      />
    </div>
  )
}
