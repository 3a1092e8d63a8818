import type { ReactNode } from 'react'

import { findRule, ruleIds } from '../../core/outcomes/rules.ts'
import type { PlanTarget } from '../../core/plan/schema/plan.ts'
import { writeAt } from '../edits/path.ts'
import { addTarget, removeTarget, type TargetKind, withRule, withTargetKind } from '../edits/targets.ts'
import { Icon } from '../icons.tsx'
import { Choice } from '../parts/Choice.tsx'
import { IconButton } from '../parts/IconButton.tsx'
import { Menu } from '../parts/Menu.tsx'
import { QuantityField } from '../parts/QuantityField.tsx'
import { temperatureRange } from '../parts/ranges.ts'
import { TextField } from '../parts/TextField.tsx'
import { useOpenPlan, usePlan } from '../plan-store.ts'
import { questionTitles, questionWord } from '../text.ts'
import { temperature } from '../units.ts'

const kinds = (Object.keys(questionTitles) as TargetKind[]).map((id) => ({ id, title: questionTitles[id] }))
const shortKinds = kinds.map(({ id }) => ({ id, title: questionWord(id) }))

/** Questions that ask for a temperature of the core. */
const coreKinds: ReadonlySet<TargetKind> = new Set(['cooled', 'frozen', 'baked', 'coat'])

/** Asks one more question. */
export function AddQuestion(): ReactNode {
  const edit = usePlan((state) => state.edit)
  return (
    <Menu
      label="Ask a question"
      className="link"
      named
      items={kinds.map(({ id, title }) => ({
        id,
        label: title,
        onChoose: () => edit('new question', (plan) => addTarget(plan, id)),
      }))}
    >
      <Icon name="plus" />
      Question
    </Menu>
  )
}

/** What is asked of the piece, and by which published rules it is judged. */
export function Questions(): ReactNode {
  const { targets = [], rules = [] } = useOpenPlan()
  const edit = usePlan((state) => state.edit)
  return (
    <section className="questions" aria-labelledby="questions-heading">
      <h3 id="questions-heading">What is asked</h3>
      {targets.length === 0 ? <p className="second">Nothing yet. Ask a question above.</p> : null}
      <ol>
        {targets.map((target, i) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: a question is known by its place in the list
          <QuestionRow key={i} target={target} index={i} />
        ))}
      </ol>
      <fieldset className="rule-choice" data-help="rules">
        <legend>Cooling and holding rules</legend>
        {ruleIds.map((id) => (
          <label key={id}>
            <input
              type="checkbox"
              checked={rules.includes(id)}
              onChange={(event) => edit('rules', (plan) => withRule(plan, id, event.target.checked))}
            />
            {findRule(id)?.title ?? id}
          </label>
        ))}
      </fieldset>
    </section>
  )
}

function QuestionRow({ target, index }: { readonly target: PlanTarget; readonly index: number }): ReactNode {
  const edit = usePlan((state) => state.edit)
  const path = `targets[${index}]`
  const number = index + 1
  return (
    <li className="question-row">
      <Choice
        label={`Question ${number}`}
        value={target.kind}
        groups={[{ title: null, options: shortKinds }]}
        onChoose={(id) => edit('question', (plan) => withTargetKind(plan, index, id as TargetKind))}
      />
      {coreKinds.has(target.kind) ? (
        <QuantityField
          path={`${path}.core_C`}
          label="Core at"
          quantity={temperature}
          range={temperatureRange}
          change="asked temperature"
          optional={target.kind === 'coat'}
        />
      ) : null}
      {target.kind === 'baked' ? (
        <QuantityField
          path={`${path}.most_C`}
          label="At most"
          quantity={temperature}
          range={temperatureRange}
          change="asked temperature"
          optional
        />
      ) : null}
      <TextField path={`${path}.by`} label="Asked by" type="datetime-local" change="asked time" empty="left out" />
      {target.by === undefined ? null : (
        <button
          type="button"
          className="link"
          onClick={() => edit('asked time taken away', (plan) => writeAt(plan, `${path}.by`, undefined))}
        >
          No fixed time
        </button>
      )}
      <IconButton
        icon="bin"
        label={`Take question ${number} away`}
        onPress={() => edit('question taken away', (plan) => removeTarget(plan, index))}
      />
    </li>
  )
}
