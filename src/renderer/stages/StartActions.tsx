import type { ReactNode } from 'react'

import { assertNever } from '../../core/errors.ts'
import type { Plan, PlanAction, PlanStage } from '../../core/plan/schema/plan.ts'
import { stageLetter } from '../../core/words/stage.ts'
import { usualThickness, wallChoices } from '../catalog.ts'
import { writeAt } from '../edits/path.ts'
import { stacks } from '../edits/shape.ts'
import { type ActionKind, addAction, cutWays, removeAction, withStand } from '../edits/stages.ts'
import { Icon } from '../icons.tsx'
import { Choice } from '../parts/Choice.tsx'
import { IconButton } from '../parts/IconButton.tsx'
import { Menu } from '../parts/Menu.tsx'
import { QuantityField } from '../parts/QuantityField.tsx'
import { lengthRange, minutesRange, temperatureRange } from '../parts/ranges.ts'
import { FaceChoice } from '../piece/FaceChoice.tsx'
import { usePlan } from '../plan-store.ts'
import { useSettings } from '../settings.ts'
import { length, minutes, shownNumber, shownUnit, temperature } from '../units.ts'
import { CoatFields } from './CoatFields.tsx'
import { CutFields } from './CutFields.tsx'
import { MaterialChoice } from './MaterialChoice.tsx'

interface StartActionsProps {
  readonly plan: Plan
  readonly stage: PlanStage
  readonly index: number
}

const titles: Readonly<Record<ActionKind, string>> = {
  pour: 'Pour a layer',
  place: 'Lay a ready layer on',
  cover: 'Cover',
  wrap: 'Wrap',
  uncover: 'Uncover',
  unmould: 'Unmould',
  coat: 'Coat',
  turn: 'Turn over',
  stand: 'Put down',
  'open-door': 'Open the door',
  cut: 'Cut',
}

/** Whether the shape takes it at all: nothing is laid on a ball, a vessel isn't cut. */
function isPossible(plan: Plan, kind: ActionKind): boolean {
  if (kind === 'pour' || kind === 'place' || kind === 'turn') return stacks(plan.piece.shape)
  return kind !== 'cut' || cutWays(plan).length > 0
}

/** What is done when the stage begins, in order. */
export function StartActions({ plan, stage, index }: StartActionsProps): ReactNode {
  const edit = usePlan((state) => state.edit)
  const kinds = (Object.keys(titles) as ActionKind[]).filter((kind) => isPossible(plan, kind))
  return (
    <div className="start-actions">
      <div className="heading-row">
        <h4>At the start</h4>
        <Menu
          label={`Add something to do at the start of stage ${stageLetter(index)}`}
          className="link"
          named
          items={kinds.map((kind) => ({
            id: kind,
            label: titles[kind],
            onChoose: () => edit(titles[kind].toLowerCase(), (now) => addAction(now, index, kind)),
          }))}
        >
          <Icon name="plus" />
          To do
        </Menu>
      </div>
      {(stage.start ?? []).map((action, a) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: what is done is known by its place in the order
        <div className="start-action" key={a}>
          <b>{titles[action.do]}</b>
          <ActionFields plan={plan} action={action} path={`stages[${index}].start[${a}]`} />
          <IconButton
            icon="bin"
            label={`Take “${titles[action.do]}” away`}
            onPress={() => edit('taken from the start', (now) => removeAction(now, index, a))}
          />
        </div>
      ))}
    </div>
  )
}

interface ActionFieldsProps {
  readonly plan: Plan
  readonly action: PlanAction
  readonly path: string
}

function ActionFields({ plan, action, path }: ActionFieldsProps): ReactNode {
  const edit = usePlan((state) => state.edit)
  const units = useSettings(({ settings }) => settings)
  switch (action.do) {
    case 'pour':
    case 'place':
      return (
        <>
          <MaterialChoice plan={plan} path={path} material={action.material} air={action.do === 'place'} />
          <div className="field-row">
            <QuantityField
              path={`${path}.thickness_mm`}
              label="Thickness"
              quantity={length}
              range={lengthRange}
              change="thickness"
            />
            <QuantityField
              path={`${path}.start_C`}
              label={action.do === 'pour' ? 'Poured at' : 'Laid on at'}
              quantity={temperature}
              range={temperatureRange}
              change={action.do === 'pour' ? 'pour temperature' : 'layer temperature'}
            />
          </div>
        </>
      )
    case 'cover': {
      const usual = usualThickness(action.with)
      return (
        <>
          <div className="field-row">
            <Choice
              label="With"
              value={action.with}
              groups={[{ title: null, options: wallChoices }]}
              onChoose={(id) => edit('cover', (now) => writeAt(now, `${path}.with`, id))}
            />
            <QuantityField
              path={`${path}.thickness_mm`}
              label="Thickness"
              quantity={length}
              range={lengthRange}
              change="thickness of cover"
              optional={usual !== null}
              {...(usual === null ? {} : { placeholder: shownNumber(usual, shownUnit(length, units)) })}
            />
          </div>
          <div className="field-row">
            <QuantityField
              path={`${path}.gap_mm`}
              label="Air under it"
              quantity={length}
              range={lengthRange}
              change="air under the cover"
              optional
              placeholder="touches"
            />
            <LaidAt path={path} />
          </div>
          <FaceChoice plan={plan} path={`${path}.faces`} label="On (none marked: the top)" optional />
        </>
      )
    }
    case 'wrap':
      return (
        <Choice
          label="In"
          value={action.with ?? 'film'}
          groups={[{ title: null, options: wallChoices.filter(({ id }) => usualThickness(id) !== null) }]}
          onChoose={(id) => edit('wrap', (now) => writeAt(now, `${path}.with`, id))}
        />
      )
    case 'open-door':
      return (
        <QuantityField
          path={`${path}.minutes`}
          label="For"
          quantity={minutes}
          range={minutesRange}
          change="minutes of the open door"
        />
      )
    case 'uncover':
      return <FaceChoice plan={plan} path={`${path}.faces`} label="Of (none marked: all that is covered)" optional />
    case 'coat':
      return <CoatFields plan={plan} path={path} material={action.material} />
    case 'stand':
      return (
        <div className="field-row">
          <Choice
            label="On"
            value={action.on}
            groups={[{ title: null, options: stands }]}
            onChoose={(id) => edit('stand', (now) => withStand(now, path, id as typeof action.on))}
          />
          {action.on === 'board' || action.on === 'tray' ? (
            <>
              <QuantityField
                path={`${path}.board_mm`}
                label={`Thickness of the ${action.on}`}
                quantity={length}
                range={lengthRange}
                change="thickness of board"
                optional
                placeholder={shownNumber(action.on === 'board' ? 18 : 1, shownUnit(length, units))}
              />
              <Choice
                label="Made of"
                value={action.board ?? (action.on === 'board' ? 'plywood' : 'stainless')}
                groups={[{ title: null, options: wallChoices }]}
                onChoose={(id) => edit('board', (now) => writeAt(now, `${path}.board`, id))}
              />
              <LaidAt path={path} />
            </>
          ) : null}
        </div>
      )
    case 'cut':
      return <CutFields plan={plan} path={path} action={action} />
    case 'unmould':
    case 'turn':
      return null
    default:
      return assertNever(action)
  }
}

/** How warm a board or a lid is when it comes to the piece. */
function LaidAt({ path }: { readonly path: string }): ReactNode {
  const units = useSettings(({ settings }) => settings)
  return (
    <QuantityField
      path={`${path}.start_C`}
      label="Its temperature"
      quantity={temperature}
      range={temperatureRange}
      change="start temperature"
      optional
      placeholder={shownNumber(20, shownUnit(temperature, units))}
    />
  )
}

const stands = [
  { id: 'board', title: 'A board' },
  { id: 'tray', title: 'A tray' },
  { id: 'rack', title: 'A wire rack' },
  { id: 'spacers', title: 'Spacers' },
  { id: 'shelf', title: 'The shelf itself' },
]
