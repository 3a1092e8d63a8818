import type { ReactNode } from 'react'

import { QuantityField } from '../parts/QuantityField.tsx'
import { lengthRange } from '../parts/ranges.ts'
import { length } from '../units.ts'
import type { Drawing } from './drawing.ts'

/** The numbers of the dimension lines: press and type. */
export function DimensionFields({ drawing }: { readonly drawing: Drawing }): ReactNode {
  const { side } = drawing
  const fields = drawing.dimensions.flatMap(({ name, label, path, text, from, to }) =>
    path === null ? [] : [{ name, label, path, text, middle: from.y === to.y }],
  )
  if (side !== null) fields.push({ name: 'along', label: 'Length', path: side.path, text: side.text, middle: true })
  return (
    <>
      {fields.map(({ name, label, path, text, middle }) => (
        <span
          key={name}
          className={`dimension-field ${middle ? 'dimension-middle' : 'dimension-beside'}`}
          style={{ left: text.x, top: text.y }}
        >
          <QuantityField
            look="inline"
            bare
            path={path}
            label={`${label}, in the drawing`}
            quantity={length}
            range={lengthRange}
            change={label.startsWith('Thickness') ? 'thickness' : label.toLowerCase()}
          />
        </span>
      ))}
    </>
  )
}
