import type { ReactNode } from 'react'

import { severalOf, shapeTitles, sizesOf } from '../../core/geometry/shapes/index.ts'
import type { Plan, PlanShape } from '../../core/plan/schema/plan.ts'
import { canLieEitherWay, flatOf, type ShapeKind, type ShapeSize, withFlat, withShape } from '../edits/shape.ts'
import { Icon } from '../icons.tsx'
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

/** The same plan with other parts of its shape. */
const withOwnShape = (plan: Plan, shape: PlanShape): Plan => ({ ...plan, piece: { ...plan.piece, shape } })

const flatSides = [
  { id: 'up', title: 'Up' },
  { id: 'down', title: 'Down' },
]

/** The shape and its sizes. */
export function ShapeFields(): ReactNode {
  const { shape } = useOpenPlan().piece
  const { kind } = shape
  const several = severalOf(shape)
  const edit = usePlan((state) => state.edit)
  const units = useSettings(({ settings }) => settings)
  const placeholder = (size: ShapeSize): { placeholder?: string } => {
    const usual = size.fallback
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
      {several === undefined ? null : (
        <div className="several">
          {several.count < 2
            ? null
            : Array.from({ length: several.count }, (_, index) => index).map((index) => (
                <button
                  key={index}
                  type="button"
                  className="link"
                  aria-label={`Take ${several.title.toLowerCase()} ${index + 1} away`}
                  onClick={() =>
                    edit(`${several.title.toLowerCase()} taken away`, (plan) =>
                      withOwnShape(plan, several.without(index)),
                    )
                  }
                >
                  <Icon name="bin" />
                  {several.title} {index + 1}
                </button>
              ))}
          {several.count < several.most ? (
            <button
              type="button"
              className="link"
              onClick={() =>
                edit(`another ${several.title.toLowerCase()}`, (plan) => withOwnShape(plan, several.withOneMore()))
              }
            >
              <Icon name="plus" />
              Another {several.title.toLowerCase()}
            </button>
          ) : null}
        </div>
      )}
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
