import { type ReactNode, useId } from 'react'

import type { Plan, PlanStage } from '../../core/plan/schema/plan.ts'
import { stageLetter } from '../../core/words/stage.ts'
import { surroundingsTitle, usualAir } from '../catalog.ts'
import { type StageStart, surroundingsChoice } from '../edits/stages.ts'
import { dayAndClock } from '../format-time.ts'
import { stageFill } from '../parts/Patterns.tsx'
import { Problem } from '../parts/Problem.tsx'
import { faultSentence, isFieldFault, usePlanFaults } from '../plan-faults.ts'
import { useSettings } from '../settings.ts'
import { shownQuantity, shownUnit, temperature, type Units } from '../units.ts'
import { StageEditor } from './StageEditor.tsx'
import { StageEnd } from './StageEnd.tsx'

export interface StageItemProps {
  readonly plan: Plan
  readonly stage: PlanStage
  readonly index: number
  /** Null where only the computation will tell. */
  readonly starts: StageStart | null
  readonly open: boolean
  readonly onOpen: (index: number | null) => void
}

/** One stage: when, where, until when; opened, everything about it. */
export function StageItem({ plan, stage, index, starts, open, onOpen }: StageItemProps): ReactNode {
  const id = useId()
  const units = useSettings(({ settings }) => settings)
  const letter = stageLetter(index)
  const faults = usePlanFaults().filter(({ path }) => path.startsWith(`stages[${index}]`))
  const told = open ? faults.filter((fault) => !isFieldFault(fault)) : faults
  return (
    <li className={open ? 'stage-item stage-open' : 'stage-item'}>
      <div className="stage-row">
        <button
          type="button"
          className="stage-button"
          aria-expanded={open}
          aria-controls={id}
          onClick={() => onOpen(open ? null : index)}
        >
          <svg className="stage-mark" width="20" height="28" aria-hidden="true" focusable="false">
            <rect x="0.5" y="0.5" width="19" height="27" fill={stageFill(index)} />
          </svg>
          <span className="stage-letter">{letter}</span>
          <span className="stage-time">{starts === null ? 'then' : dayAndClock(plan.startsAt, starts.at_h)}</span>
          <span className="stage-name">
            {stage.name} <small>{stageSummary(stage, units)}</small>
            {starts === null || starts.early_h === undefined ? null : (
              <small className="stage-band">{betweenWords(plan, starts)}</small>
            )}
          </span>
        </button>
        <StageEnd stage={stage} index={index} look="inline" />
      </div>
      {told.map((fault) => (
        <Problem key={`${fault.path} ${fault.problem}`} words={faultSentence(`Stage ${letter}`, fault)} />
      ))}
      <div id={id} hidden={!open}>
        {open ? <StageEditor plan={plan} stage={stage} index={index} onOpen={onOpen} /> : null}
      </div>
    </li>
  )
}

/** "between Sun 11:45 and Mon 09:35" */
function betweenWords({ startsAt }: Plan, { early_h = 0, late_h }: StageStart): string {
  const late = late_h === undefined ? 'after the end of the plan' : dayAndClock(startsAt, late_h)
  return `between ${dayAndClock(startsAt, early_h)} and ${late}`
}

const repeatWords = ({ from, times }: NonNullable<PlanStage['repeat']>): string =>
  from === undefined ? `${times} times in all` : `from ${from} on ${times} times in all`

/** Where the word for what is done is not the plan's own. */
const verbs: Readonly<Record<string, string>> = { turn: 'turn over' }

/** "6 °C, pour, cover": the air and what is done at the start. */
function stageSummary(stage: PlanStage, units: Units): string {
  const given = stage.in
  const own = typeof given === 'string' ? undefined : given.air_C
  const air = typeof own === 'number' ? own : own === undefined ? usualAir(surroundingsChoice(stage)) : null
  const place = surroundingsTitle(stage)
  const words = [
    ...(place.toLowerCase() === stage.name.toLowerCase() ? [] : [place.toLowerCase()]),
    ...(air === null ? [] : [shownQuantity(air, shownUnit(temperature, units))]),
    ...(stage.power_W === undefined ? [] : [`${stage.power_W} W`]),
    ...(stage.start ?? []).map((action) => verbs[action.do] ?? action.do),
    ...(stage.repeat === undefined ? [] : [repeatWords(stage.repeat)]),
  ]
  return words.join(', ')
}
