import type { ReactNode } from 'react'

import type { Plan } from '../../core/plan/schema/plan.ts'
import { QuantityField } from '../parts/QuantityField.tsx'
import { lengthRange, stressRange, temperatureRange } from '../parts/ranges.ts'
import { FaceChoice } from '../piece/FaceChoice.tsx'
import { length, stress, temperature } from '../units.ts'
import { MaterialChoice } from './MaterialChoice.tsx'

interface CoatFieldsProps {
  readonly plan: Plan
  readonly path: string
  readonly material: string
}

/** A coat: of what, how thick or how stiff, how warm, and where. */
export function CoatFields({ plan, path, material }: CoatFieldsProps): ReactNode {
  return (
    <>
      <MaterialChoice plan={plan} path={path} material={material} />
      <div className="field-row">
        <QuantityField
          path={`${path}.thickness_mm`}
          label="Thickness when set"
          quantity={length}
          range={lengthRange}
          change="thickness of coat"
          optional
        />
        <QuantityField
          path={`${path}.yield_Pa`}
          label="or yield stress"
          quantity={stress}
          range={stressRange}
          change="yield stress"
          optional
        />
        <QuantityField
          path={`${path}.start_C`}
          label="Coated at"
          quantity={temperature}
          range={temperatureRange}
          change="coat temperature"
        />
      </div>
      <FaceChoice plan={plan} path={`${path}.faces`} label="On (none marked: all but the bottom)" optional />
    </>
  )
}
