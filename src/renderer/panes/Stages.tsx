import type { ReactNode } from 'react'

import { addStage, stageStarts } from '../edits/stages.ts'
import { useForecast } from '../forecast-client.ts'
import { Icon } from '../icons.tsx'
import { useOpenPlan, usePlan } from '../plan-store.ts'
import { PlanClock } from '../stages/PlanClock.tsx'
import { StageItem } from '../stages/StageItem.tsx'
import { useView } from '../view-store.ts'

/** The stages in order; one of them may be open for editing. */
export function Stages(): ReactNode {
  const plan = useOpenPlan()
  const edit = usePlan((state) => state.edit)
  const forecast = useForecast((state) => state.forecast)
  const open = useView(({ opened }) => opened)
  const setOpen = useView(({ openStage }) => openStage)
  const starts = stageStarts(plan, forecast)
  return (
    <section className="stage-list" aria-labelledby="stages-heading">
      <div className="heading-row">
        <h3 id="stages-heading">Stages</h3>
        <button
          type="button"
          className="link"
          disabled={plan.stages.length >= 60}
          onClick={() => {
            edit('new stage', addStage)
            setOpen(plan.stages.length)
          }}
        >
          <Icon name="plus" />
          Stage
        </button>
      </div>
      <ol>
        {plan.stages.map((stage, i) => (
          <StageItem
            // biome-ignore lint/suspicious/noArrayIndexKey: a stage is known by its place in the order
            key={i}
            plan={plan}
            stage={stage}
            index={i}
            starts={starts[i] ?? null}
            open={open === i}
            onOpen={setOpen}
          />
        ))}
      </ol>
      <PlanClock />
    </section>
  )
}
