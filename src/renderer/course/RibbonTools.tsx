import type { ReactNode } from 'react'

import { stageLetter } from '../../core/words/stage.ts'
import { duplicateStage, moveStage, removeStage } from '../edits/stages.ts'
import { Icon, type IconName } from '../icons.tsx'
import { usePlan } from '../plan-store.ts'
import { useView } from '../view-store.ts'

/** What can be done with the stage that is chosen on the ribbon, by press. */
export function RibbonTools(): ReactNode {
  const chosen = useView(({ stage }) => stage)
  const { chooseStage, openStage, showRegion } = useView.getState()
  const { edit } = usePlan.getState()
  const present = usePlan(({ history }) => history?.present)
  const stage = chosen === null ? undefined : present?.stages[chosen]
  if (chosen === null || stage === undefined || present === undefined) return null
  const last = present.stages.length - 1
  const move = (by: number): void => {
    edit('order of stages', (now) => moveStage(now, chosen, by))
    chooseStage(chosen + by)
  }
  return (
    <div className="ribbon-tools" role="toolbar" aria-label={`Stage ${stageLetter(chosen)} on the ribbon`}>
      <b>
        {stageLetter(chosen)} {stage.name}
      </b>
      <Tool icon="up" turned word="Earlier" off={chosen === 0} onPress={() => move(-1)} />
      <Tool icon="down" turned word="Later" off={chosen === last} onPress={() => move(1)} />
      <Tool
        icon="copy"
        word="Once more"
        off={present.stages.length >= 60}
        onPress={() => {
          edit('stage once more', (now) => duplicateStage(now, chosen))
          chooseStage(chosen + 1)
        }}
      />
      <Tool
        icon="bin"
        word="Take away"
        off={last === 0}
        onPress={() => {
          edit('stage taken away', (now) => removeStage(now, chosen))
          chooseStage(Math.max(0, chosen - 1))
        }}
      />
      <Tool
        icon="chevron"
        word="Edit"
        onPress={() => {
          showRegion('piece')
          openStage(chosen)
        }}
      />
      <Tool icon="close" word="Done" onPress={() => chooseStage(null)} />
    </div>
  )
}

interface ToolProps {
  readonly icon: IconName
  readonly word: string
  readonly onPress: () => void
  readonly off?: boolean
  /** The arrow lies on its side: time runs to the right. */
  readonly turned?: boolean
}

function Tool({ icon, word, onPress, off = false, turned = false }: ToolProps): ReactNode {
  return (
    <button type="button" className="link" aria-disabled={off || undefined} onClick={off ? undefined : onPress}>
      <span className={turned ? 'tool-turned' : undefined}>
        <Icon name={icon} />
      </span>
      {word}
    </button>
  )
}
