import type { ReactNode } from 'react'

import { AIR_LAYER } from '../../core/materials/air-layer.ts'
import { findWall } from '../../core/materials/wall.ts'
import type { Plan } from '../../core/plan/schema/plan.ts'
import { stageLetter } from '../../core/words/stage.ts'
import { layerChoices, materialLook, materialTitle, ownMaterials, wallChoices } from '../catalog.ts'
import { type LayerRow, moveLayer, removeLayer } from '../edits/layers.ts'
import { writeAt } from '../edits/path.ts'
import { freeName, ownRecipe } from '../edits/recipes.ts'
import { takesRest } from '../edits/shape.ts'
import { Icon } from '../icons.tsx'
import { useMaterialPage } from '../material/material-page.ts'
import { Choice, type OptionGroup } from '../parts/Choice.tsx'
import { IconButton } from '../parts/IconButton.tsx'
import { lookFill } from '../parts/Patterns.tsx'
import { QuantityField } from '../parts/QuantityField.tsx'
import { lengthRange, shareRange, temperatureRange } from '../parts/ranges.ts'
import { usePlan } from '../plan-store.ts'
import { length, ratio, temperature } from '../units.ts'
import { useView } from '../view-store.ts'
import { FaceChoice } from './FaceChoice.tsx'

interface LayerItemProps {
  readonly plan: Plan
  readonly row: LayerRow
  readonly number: number
  readonly chosen: boolean
}

/** One layer: what it is made of, how thick, how warm at the start; chosen, it can be moved and taken away. */
export function LayerItem({ plan, row, number, chosen }: LayerItemProps): ReactNode {
  const choose = useView(({ chooseLayer }) => chooseLayer)
  const edit = usePlan((state) => state.edit)
  const mould = row.list === 'mould'
  const title = materialTitle(plan, row.material)
  const isRest = row.list === 'fill' && row.thickness_mm === undefined && takesRest(plan.piece.shape)
  return (
    <li className={chosen ? 'layer-row layer-chosen' : 'layer-row'}>
      <button
        type="button"
        className="balloon-button"
        aria-pressed={chosen}
        aria-label={`Layer ${number}, ${title}`}
        onClick={() => choose(chosen ? null : row.name)}
      >
        <span className="balloon">{number}</span>
      </button>
      <span className="layer-name">
        <svg className="swatch" width="14" height="14" aria-hidden="true" focusable="false">
          <rect width="14" height="14" fill={lookFill(mould ? 'mould' : materialLook(plan, row.material))} />
        </svg>
        <span className="layer-words">
          <Choice
            look="inline"
            label={`Material of layer ${number}`}
            value={row.material}
            groups={mould ? wallGroups : materialGroups(plan)}
            onChoose={(id) => edit('material', (now) => writeAt(now, `${row.path}.material`, id))}
          />
          <small>{listWords(row)}</small>
        </span>
      </span>
      <span className="layer-number">
        {row.list === 'insert' ? (
          <Margin plan={plan} row={row} number={number} />
        ) : isRest ? (
          <span className="second">the rest</span>
        ) : row.list === 'coat' && row.thickness_mm === undefined ? (
          <span className="second">drained</span>
        ) : (
          <QuantityField
            look="inline"
            path={`${row.path}.thickness_mm`}
            label={`Thickness of layer ${number}`}
            quantity={length}
            range={lengthRange}
            change="thickness"
          />
        )}
      </span>
      <span className="layer-number">
        {row.material === AIR_LAYER ? null : (
          <QuantityField
            look="inline"
            path={`${row.path}.start_C`}
            label={`Temperature of layer ${number} at start`}
            quantity={temperature}
            range={temperatureRange}
            change="start temperature"
            {...(mould ? { optional: true, placeholder: 'room' } : {})}
          />
        )}
      </span>
      {chosen ? <LayerTools plan={plan} row={row} number={number} /> : null}
    </li>
  )
}

/** What of the fill is left around an insert, where it is the same on every side. */
function Margin({ plan, row, number }: Omit<LayerItemProps, 'chosen'>): ReactNode {
  if (typeof plan.piece.inserts?.[row.index]?.margin_mm !== 'number') return <span className="second">by face</span>
  return (
    <QuantityField
      look="inline"
      path={`${row.path}.margin_mm`}
      label={`Margin around layer ${number}`}
      quantity={length}
      range={lengthRange}
      change="margin"
    />
  )
}

const wallGroups: readonly OptionGroup[] = [{ title: null, options: wallChoices }]

function materialGroups(plan: Plan): OptionGroup[] {
  const own = ownMaterials(plan)
  const builtIn = { title: own.length > 0 ? 'Built in' : null, options: layerChoices }
  return own.length > 0 ? [{ title: 'Of this plan', options: own }, builtIn] : [builtIn]
}

function listWords(row: LayerRow): string {
  if (row.list === 'pour') return `poured in stage ${stageLetter(row.stage ?? 0)}`
  if (row.list === 'coat') return `coated in stage ${stageLetter(row.stage ?? 0)}`
  if (row.list === 'lining') return 'lining'
  if (row.list === 'insert') return 'insert, its margin at the right'
  return row.list === 'mould' ? 'mould' : ''
}

function LayerTools({ plan, row, number }: Omit<LayerItemProps, 'chosen'>): ReactNode {
  const edit = usePlan((state) => state.edit)
  const choose = useView(({ chooseLayer }) => chooseLayer)
  const move = (up: boolean): void => {
    const moved = moveLayer(plan, row, up)
    edit('order of layers', () => moved.plan)
    choose(moved.name)
  }
  const openMaterial = useMaterialPage((state) => state.open)
  const own = ownRecipe(plan, row.material)
  const last = row.list === 'fill' && plan.piece.fill.length === 1
  return (
    <div className="row-tools">
      {row.list === 'mould' ? (
        <>
          <FaceChoice plan={plan} path={`${row.path}.faces`} label={`Faces of mould wall ${number}`} />
          <QuantityField
            path={`${row.path}.emissivity`}
            label="Emissivity of its outside: 0.05 bright, 0.9 dark"
            quantity={ratio}
            range={shareRange}
            change="emissivity of the mould"
            optional
            placeholder={String(findWall(row.material)?.emissivity ?? '')}
          />
        </>
      ) : null}
      <span className="row-tools-start">
        {row.material === AIR_LAYER ? null : (
          <button
            type="button"
            className="link"
            data-card-of={row.path}
            aria-label={own === undefined ? `Material card of layer ${number}` : `Recipe of layer ${number}`}
            onClick={() => openMaterial(row.material, row.path)}
          >
            <Icon name="card" />
            {own === undefined ? 'Material' : 'Recipe'}
          </button>
        )}
        {row.list === 'mould' ? null : (
          <button
            type="button"
            className="link"
            aria-label={`New recipe for layer ${number}`}
            onClick={() => openMaterial(freeName(plan), row.path, true)}
          >
            <Icon name="plus" />
            New recipe
          </button>
        )}
      </span>
      <span className="row-tools-end">
        {row.list === 'pour' || row.list === 'coat' || row.list === 'insert' ? null : (
          <>
            <IconButton
              icon="up"
              label={`Move layer ${number} up`}
              disabled={!row.canRise}
              onPress={() => move(true)}
            />
            <IconButton
              icon="down"
              label={`Move layer ${number} down`}
              disabled={!row.canSink}
              onPress={() => move(false)}
            />
          </>
        )}
        <IconButton
          icon="bin"
          label={last ? 'The only filling stays' : `Take layer ${number} away`}
          disabled={last}
          onPress={() => {
            edit('layer taken away', (now) => removeLayer(now, row))
            choose(null)
          }}
        />
      </span>
    </div>
  )
}
