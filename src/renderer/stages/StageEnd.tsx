import type { ReactNode } from 'react'

import type { PlanStage } from '../../core/plan/schema.ts'
import { stageLetter } from '../course/stage-letters.ts'
import { endKind } from '../edits/stages.ts'
import { QuantityField } from '../parts/QuantityField.tsx'
import { hoursRange, temperatureRange } from '../parts/ranges.ts'
import { TextField } from '../parts/TextField.tsx'
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
      return (
        <Inline look={look} before="core">
          <QuantityField
            look={look}
            path={`${path}.core_C`}
            label={end('core at')}
            quantity={temperature}
            range={temperatureRange}
            change="core temperature"
          />
        </Inline>
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
