import type { ReactNode } from 'react'

import type { PlanStage } from '../../core/plan/schema/plan.ts'
import { applianceKind, surroundingsChoices, usualAir, usualPower, usualSpeed } from '../catalog.ts'
import { withKeptSurroundings } from '../edits/measured.ts'
import { surroundingsChoice, withAir, withFigure, withSurroundings } from '../edits/stages.ts'
import { MeasuredAir } from '../measured/MeasuredAir.tsx'
import { useMeasured } from '../measured/measured-store.ts'
import { Choice } from '../parts/Choice.tsx'
import { QuantityField } from '../parts/QuantityField.tsx'
import { filmRange, piecesAlikeRange, powerRange, speedRange, temperatureRange } from '../parts/ranges.ts'
import { usePlan } from '../plan-store.ts'
import { useSettings } from '../settings.ts'
import { count, film, power, shownNumber, shownUnit, speed, temperature } from '../units.ts'
import { AirLogButton } from './AirLogButton.tsx'
import { SurroundingsMeaning } from './SurroundingsMeaning.tsx'
import { SurroundingsMore } from './SurroundingsMore.tsx'

const groups = [
  { title: null, options: [{ id: 'own', title: 'Own air and film coefficient' }] },
  { title: 'Built in', options: surroundingsChoices },
]
/** Before the place of one that was measured, among the choices. */
const KEPT = 'measured '

/** Where the stage takes place: built-in surroundings, or own ones by air and film coefficient. */
export function SurroundingsFields({ stage, index }: { readonly stage: PlanStage; readonly index: number }): ReactNode {
  const edit = usePlan((state) => state.edit)
  const units = useSettings(({ settings }) => settings)
  const path = `stages[${index}].in`
  const choice = surroundingsChoice(stage)
  const own = choice === 'own'
  const measured = useMeasured(({ kept }) => kept.surroundings)
  const offered =
    measured.length === 0
      ? groups
      : [
          ...groups,
          { title: 'Measured', options: measured.map(({ name }, at) => ({ id: `${KEPT}${at}`, title: name })) },
        ]
  const choose = (id: string): void => {
    const kept = id.startsWith(KEPT) ? measured[Number(id.slice(KEPT.length))] : undefined
    if (kept === undefined) edit('surroundings', (plan) => withSurroundings(plan, index, id, usual ?? 4))
    else edit('measured surroundings', (plan) => withKeptSurroundings(plan, index, kept))
  }
  const usual = usualAir(choice)
  const given = typeof stage.in === 'string' ? {} : stage.in
  const course = Array.isArray(given.air_C) ? given.air_C : null
  const unit = shownUnit(temperature, units)
  const usualWatts = course === null && given.appliance !== false ? usualPower(choice) : null
  const usualStream = usualSpeed(choice)
  return (
    <>
      <Choice label="Surroundings" value={choice} groups={offered} onChoose={choose} />
      <MeasuredAir stage={stage} index={index} />
      <div className="field-row">
        {course === null ? (
          <QuantityField
            path={`${path}.air_C`}
            label={applianceKind(choice, given) === 'bath' ? 'Water' : 'Air'}
            quantity={temperature}
            range={temperatureRange}
            change="air temperature"
            optional={!own}
            write={(plan, value) => withAir(plan, index, value)}
            {...(usual === null ? {} : { placeholder: shownNumber(usual, unit) })}
          />
        ) : (
          <p className="second">
            Air changes along {course.length} points.{' '}
            <button
              type="button"
              className="link"
              onClick={() => edit('steady air', (plan) => withAir(plan, index, course[0]?.[1] ?? 4))}
            >
              Keep it steady
            </button>
          </p>
        )}
        {own || given.h_W_m2K !== undefined ? (
          <QuantityField
            path={`${path}.h_W_m2K`}
            label="Film coefficient"
            quantity={film}
            range={filmRange}
            change="film coefficient"
            optional={!own}
          />
        ) : null}
        {own && given.air_speed_m_s === undefined ? null : (
          <QuantityField
            path={`${path}.air_speed_m_s`}
            label="Speed of the air"
            quantity={speed}
            range={speedRange}
            change="speed of the air"
            optional
            write={(plan, value) => withFigure(plan, index, 'air_speed_m_s', value)}
            {...(usualStream === null ? {} : { placeholder: shownNumber(usualStream, shownUnit(speed, units)) })}
          />
        )}
        {usualWatts === null ? null : (
          <QuantityField
            path={`${path}.appliance.${usualWatts.key}`}
            label={usualWatts.key === 'heater_W' ? 'Its heater' : 'Its cooling power'}
            quantity={power}
            range={powerRange}
            change="power"
            optional
            write={(plan, value) => withFigure(plan, index, `appliance.${usualWatts.key}`, value)}
            placeholder={shownNumber(usualWatts.watts, shownUnit(power, units))}
          />
        )}
        {applianceKind(choice, given) === null ? null : (
          <QuantityField
            path={`${path}.appliance.pieces`}
            label="Pieces alike in it"
            quantity={count}
            range={piecesAlikeRange}
            change="pieces in the appliance"
            optional
            write={(plan, value) =>
              withFigure(plan, index, 'appliance.pieces', value === undefined ? undefined : Math.round(value))
            }
            placeholder="1"
          />
        )}
      </div>
      <SurroundingsMore stage={stage} index={index} />
      <AirLogButton index={index} />
      <SurroundingsMeaning index={index} />
      {Object.keys(given.faces ?? {}).length === 0 ? null : (
        <p className="second">Faces with conditions of their own: {Object.keys(given.faces ?? {}).join(', ')}.</p>
      )}
    </>
  )
}
