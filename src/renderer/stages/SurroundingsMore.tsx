import { type ReactNode, useState } from 'react'

import type { PlanStage } from '../../core/plan/schema/plan.ts'
import { applianceKind, usualFigure, wallChoices } from '../catalog.ts'
import { faceNames } from '../edits/shape.ts'
import { surroundingsChoice, withFigure } from '../edits/stages.ts'
import { Icon } from '../icons.tsx'
import { Choice } from '../parts/Choice.tsx'
import { IconButton } from '../parts/IconButton.tsx'
import { QuantityField } from '../parts/QuantityField.tsx'
import {
  bandRange,
  filmRange,
  humidityRange,
  lengthRange,
  loadRange,
  lossRange_W_K,
  minutesRange,
  momentRange_h,
  shareRange,
  temperatureRange,
} from '../parts/ranges.ts'
import { useOpenPlan, usePlan } from '../plan-store.ts'
import { useSettings } from '../settings.ts'
import type { Range } from '../typed.ts'
import {
  conductance,
  difference,
  duration,
  film,
  length,
  mass,
  minutes,
  percent,
  type Quantity,
  ratio,
  shownNumber,
  shownUnit,
  temperature,
} from '../units.ts'

interface SurroundingsMoreProps {
  readonly stage: PlanStage
  readonly index: number
}

interface Figure {
  readonly key: string
  readonly label: string
  readonly quantity: Quantity
  readonly range: Range
  readonly placeholder?: string
  /** What goes to the plan under `at`, where that is more than the number. */
  readonly whole?: { readonly at: string; readonly of: (value: number) => object }
}

const ofAir: readonly Figure[] = [
  {
    key: 'humidity.relative_pct',
    label: 'Humidity of the air',
    quantity: percent,
    range: humidityRange,
    whole: { at: 'humidity', of: (relative_pct) => ({ relative_pct }) },
  },
  { key: 'emissivity', label: 'Emissivity of the piece', quantity: ratio, range: shareRange },
  {
    key: 'walls_C',
    label: 'Walls around it',
    quantity: temperature,
    range: temperatureRange,
    placeholder: 'as the air',
  },
]
const ofBath: readonly Figure[] = [
  { key: 'appliance.water_kg', label: 'Water in it', quantity: mass, range: loadRange },
  { key: 'appliance.ice_kg', label: 'Ice in it', quantity: mass, range: loadRange },
]
const ofAppliance: readonly Figure[] = [
  { key: 'appliance.start_C', label: 'Itself at the start', quantity: temperature, range: temperatureRange },
  { key: 'appliance.room_C', label: 'Room that it stands in', quantity: temperature, range: temperatureRange },
  { key: 'appliance.UA_W_K', label: 'Heat through its walls', quantity: conductance, range: lossRange_W_K },
  { key: 'appliance.thermostat_K', label: 'Thermostat switches by', quantity: difference, range: bandRange },
  { key: 'appliance.limit_C', label: 'Limit for what else lies in it', quantity: temperature, range: temperatureRange },
  { key: 'appliance.goods.mass_kg', label: 'What else lies in it', quantity: mass, range: loadRange },
  { key: 'appliance.rating_kg_24h', label: 'Rated to freeze in a day', quantity: mass, range: loadRange },
]

/** The rest of what can be told of a stage's surroundings: air, appliance, and each face by itself. */
export function SurroundingsMore({ stage, index }: SurroundingsMoreProps): ReactNode {
  const given = typeof stage.in === 'string' ? {} : stage.in
  const choice = surroundingsChoice(stage)
  const kind = applianceKind(choice, given)
  const appliance = kind === null ? [] : [...(kind === 'bath' ? ofBath : []), ...ofAppliance]
  return (
    <details className="surroundings-more">
      <summary>More about these surroundings</summary>
      <div className="field-row">
        {[...ofAir, ...appliance].map((figure) => (
          <FigureField key={figure.key} figure={figure} index={index} choice={choice} />
        ))}
      </div>
      {kind === null || kind === 'bath' ? null : <DoorFields stage={stage} index={index} />}
      <FaceFields stage={stage} index={index} />
    </details>
  )
}

interface FigureFieldProps {
  readonly figure: Figure
  readonly index: number
  /** Surroundings whose usual figure stands there until another is typed. */
  readonly choice?: string
}

function FigureField({ figure, index, choice }: FigureFieldProps): ReactNode {
  const units = useSettings(({ settings }) => settings)
  const { key, whole, ...field } = figure
  const usual = choice === undefined ? null : usualFigure(choice, key)
  return (
    <QuantityField
      path={`stages[${index}].in.${key}`}
      change={figure.label.toLowerCase()}
      optional
      write={(plan, value) =>
        whole === undefined
          ? withFigure(plan, index, key, value)
          : withFigure(plan, index, whole.at, value === undefined ? undefined : whole.of(value))
      }
      {...field}
      {...(usual === null ? {} : { placeholder: shownNumber(usual, shownUnit(figure.quantity, units)) })}
    />
  )
}

/** When the door is opened and for how long, each typed. */
function DoorFields({ stage, index }: SurroundingsMoreProps): ReactNode {
  const edit = usePlan((state) => state.edit)
  const given = typeof stage.in === 'string' ? undefined : stage.in.appliance
  const openings = (typeof given === 'object' ? given.door : undefined) ?? []
  const put = (next: typeof openings): void =>
    edit('door', (plan) => withFigure(plan, index, 'appliance.door', next.length > 0 ? next : undefined))
  const path = `stages[${index}].in.appliance.door`
  const last = openings.at(-1)
  return (
    <fieldset className="door-figures">
      <legend>The door is opened</legend>
      {openings.length === 0 ? <p className="second">It stays shut.</p> : null}
      {openings.map((_, at) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: an opening is known by its place in the list
        <div key={at} className="door-row">
          <QuantityField
            path={`${path}[${at}].at_h`}
            label="After"
            quantity={duration}
            range={momentRange_h}
            change="door"
          />
          <QuantityField
            path={`${path}[${at}].minutes`}
            label="For"
            quantity={minutes}
            range={minutesRange}
            change="door"
          />
          <IconButton icon="bin" label={`Take opening ${at + 1} away`} onPress={() => put(openings.toSpliced(at, 1))} />
        </div>
      ))}
      <button
        type="button"
        className="link"
        disabled={openings.length >= 100}
        onClick={() =>
          put([...openings, { at_h: last === undefined ? 0 : last.at_h + 1, minutes: last?.minutes ?? 2 }])
        }
      >
        <Icon name="plus" />
        {openings.length === 0 ? 'Open it' : 'Open it once more'}
      </button>
    </fieldset>
  )
}

/** One face by itself: a board under or over it, a film of its own, or a piece alike against it. */
function FaceFields({ stage, index }: SurroundingsMoreProps): ReactNode {
  const plan = useOpenPlan()
  const edit = usePlan((state) => state.edit)
  const names = faceNames(plan.piece.shape)
  const [face, setFace] = useState(names.includes('bottom') ? 'bottom' : (names[0] ?? 'all'))
  const given = (typeof stage.in === 'string' ? undefined : stage.in.faces?.[face]) ?? {}
  const key = `faces.${face}`
  return (
    <fieldset className="face-figures">
      <legend>One face by itself</legend>
      <div className="field-row">
        <Choice
          label="Face"
          value={face}
          groups={[{ title: null, options: names.map((id) => ({ id, title: id })) }]}
          onChoose={setFace}
        />
        <FigureField
          index={index}
          figure={{
            key: `${key}.board_mm`,
            label: 'Board on it',
            quantity: length,
            range: lengthRange,
            placeholder: 'none',
          }}
        />
        <Choice
          label="Board made of"
          value={given.board ?? 'plywood'}
          groups={[{ title: null, options: wallChoices }]}
          onChoose={(id) => edit('board', (now) => withFigure(now, index, `${key}.board`, id))}
        />
        <FigureField
          index={index}
          figure={{ key: `${key}.h_W_m2K`, label: 'Film of its own', quantity: film, range: filmRange }}
        />
      </div>
      <label className="tick">
        <input
          type="checkbox"
          data-help="stages[].in.faces.*.stacked"
          checked={given.stacked === true}
          onChange={(event) => {
            const stacked = event.target.checked ? true : undefined
            edit('pieces against each other', (now) => withFigure(now, index, `${key}.stacked`, stacked))
          }}
        />
        A piece alike lies against it
      </label>
    </fieldset>
  )
}
