import type { ReactNode } from 'react'

import { type LayerRow, layerRows } from '../edits/layers.ts'
import { useOpenPlan } from '../plan-store.ts'
import { useView } from '../view-store.ts'
import { LayerItem } from './LayerItem.tsx'

/** Every layer from the top to the outside, numbered as in the drawing. */
export function LayerList(): ReactNode {
  const plan = useOpenPlan()
  const rows = layerRows(plan)
  const chosen = useView(({ layer }) => layer)
  return (
    <div className="layer-list">
      <div className="list-head" aria-hidden="true">
        <span />
        <span>Layer</span>
        <span className="number-head">Thickness</span>
        <span className="number-head">At start</span>
      </div>
      <ol>
        {rows.map((row, i) => (
          <LayerItem key={keyOf(row)} plan={plan} row={row} number={i + 1} chosen={row.name === chosen} />
        ))}
      </ol>
    </div>
  )
}

const keyOf = (row: LayerRow): string => row.name
