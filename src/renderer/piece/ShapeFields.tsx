import type { ReactNode } from 'react'

import { shapeTitles, sizesOf } from '../../core/geometry/shapes/index.ts'
import {
  canLieEitherWay,
  flatOf,
  type ShapeKind,
  type ShapeSize,
  usualSize,
  withFlat,
  withShape,
} from '../edits/shape.ts'
import { Choice } from '../parts/Choice.tsx'
import { QuantityField } from '../parts/QuantityField.tsx'
import { areaRange, lengthRange, volumeRange } from '../parts/ranges.ts'
import { useOpenPlan, usePlan } from '../plan-store.ts'
import { useSettings } from '../settings.ts'
import { area, length, shownNumber, shownUnit, volume } from '../units.ts'

const kinds = Object.entries(shapeTitles).map(([id, title]) => ({ id, title }))

const quantities = {
  length: { quantity: length, range: lengthRange },
  area: { quantity: area, range: areaRange },
  volume: { quantity: volume, range: volumeRange },
} as const

const flatSides = [
  { id: 'up', title: 'Up' },
  { id: 'down', title: 'Down' },
]

/** The shape and its sizes. */
export function ShapeFields(): ReactNode {
  const { shape } = useOpenPlan().piece
  const { kind } = shape
  const edit = usePlan((state) => state.edit)
  const units = useSettings(({ settings }) => settings)
  const placeholder = (size: ShapeSize): { placeholder?: string } => {
    const usual = usualSize(shape, size)
    if (usual === undefined) return {}
    return { placeholder: shownNumber(usual, shownUnit(quantities[size.quantity].quantity, units)) }
  }
  return (
    <div className="shape-fields">
      <Choice
        label="Shape"
        value={kind}
        groups={[{ title: null, options: kinds }]}
        onChoose={(id) => edit('shape', (plan) => withShape(plan, id as ShapeKind))}
      />
      {sizesOf(shape).map((size) => (
        <QuantityField
          key={`${kind} ${size.key}`}
          path={`piece.shape.${size.key}`}
          label={size.label}
          quantity={quantities[size.quantity].quantity}
          range={quantities[size.quantity].range}
          change={size.label.toLowerCase()}
          optional={size.fallback !== undefined}
          {...placeholder(size)}
        />
      ))}
      {canLieEitherWay(shape) ? (
        <Choice
          label="Flat side"
          value={flatOf(shape)}
          groups={[{ title: null, options: flatSides }]}
          onChoose={(id) => edit('flat side', (plan) => withFlat(plan, id as 'up' | 'down'))}
        />
      ) : null}
    </div>
  )
}
