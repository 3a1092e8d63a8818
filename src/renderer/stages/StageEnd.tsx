import type { ReactNode } from 'react'

import type { PlanStage } from '../../core/plan/schema/plan.ts'
import { stageLetter } from '../../core/words/stage.ts'
import { writeAt } from '../edits/path.ts'
import { endKind } from '../edits/stages.ts'
import { Choice } from '../parts/Choice.tsx'
import { QuantityField } from '../parts/QuantityField.tsx'
import { hoursRange, temperatureRange } from '../parts/ranges.ts'
import { TextField } from '../parts/TextField.tsx'
import { useOpenPlan, usePlan } from '../plan-store.ts'
import { questionWord } from '../text.ts'
import { duration, temperature } from '../units.ts'

interface StageEndProps {
  readonly stage: PlanStage
  readonly index: number
  readonly look: 'box' | 'inline'
}

/** The number that ends a stage: hours, a core temperature or a time. */
export function StageEnd({ stage, index, look }: StageEndProps): ReactNode {
  const path = `stages[${index}].until`
  const end = (words: string): string => (look === 'inline' ? `End of stage ${stageLetter(index)}: ${words}` : words)
  switch (endKind(stage)) {
    case 'after':
      return (
        <Inline look={look} before="">
          <QuantityField
            look={look}
            path={`${path}.after_h`}
            label={end('after')}
            quantity={duration}
            range={hoursRange}
            change="duration"
          />
        </Inline>
      )
    case 'core':
    case 'surface':
    case 'mean':
    case 'probe': {
      const where = endKind(stage)
      const called = where === 'probe' ? (stage.until.probe?.name ?? 'probe') : where
      return (
        <Inline look={look} before={called}>
          {where === 'probe' && look === 'box' ? <AwaitedProbe path={path} chosen={called} /> : null}
          <QuantityField
            look={look}
            path={where === 'probe' ? `${path}.probe.C` : `${path}.${where}_C`}
            label={end(`${called} at`)}
            quantity={temperature}
            range={temperatureRange}
            change={`${where} temperature`}
          />
        </Inline>
      )
    }
    case 'target':
      return look === 'box' ? (
        <AwaitedTarget path={path} chosen={stage.until.target ?? ''} />
      ) : (
        <span className="stage-end">{questionWord(stage.until.target ?? '').toLowerCase()}</span>
      )
    case 'clock':
    case 'moment': {
      const type = endKind(stage) === 'clock' ? 'time' : 'datetime-local'
      return (
        <Inline look={look} before="to">
          <TextField
            look={look === 'box' ? 'box' : 'bare'}
            type={type}
            path={`${path}.clock`}
            label={end('at')}
            change="end of stage"
          />
        </Inline>
      )
    }
  }
}

interface AwaitedProps {
  readonly path: string
  readonly chosen: string
}

function AwaitedProbe({ path, chosen }: AwaitedProps): ReactNode {
  const edit = usePlan((state) => state.edit)
  const names = (useOpenPlan().probes ?? []).map(({ name }) => ({ id: name, title: name }))
  return (
    <Choice
      label="Probe"
      value={chosen}
      groups={[{ title: null, options: names }]}
      onChoose={(id) => edit('end of stage', (plan) => writeAt(plan, `${path}.probe.name`, id))}
    />
  )
}

function AwaitedTarget({ path, chosen }: AwaitedProps): ReactNode {
  const edit = usePlan((state) => state.edit)
  const kinds = [...new Set((useOpenPlan().targets ?? []).map(({ kind }) => kind))]
  return (
    <Choice
      label="Target"
      value={chosen}
      groups={[{ title: null, options: kinds.map((id) => ({ id, title: questionWord(id) })) }]}
      onChoose={(id) => edit('end of stage', (plan) => writeAt(plan, `${path}.target`, id))}
    />
  )
}

interface InlineProps {
  readonly look: 'box' | 'inline'
  readonly before: string
  readonly children: ReactNode
}

function Inline({ look, before, children }: InlineProps): ReactNode {
  if (look === 'box') return children
  return (
    <span className="stage-end">
      {before === '' ? null : <small>{before}</small>}
      {children}
    </span>
  )
}
