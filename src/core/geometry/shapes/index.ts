import { assertNever } from '../../errors.ts'
import type { PlanShape } from '../../plan/schema.ts'
import type { Body } from '../body.ts'
import { ballBody } from './ball.ts'
import { barBody } from './bar.ts'
import { blockBody } from './block.ts'
import { roundBody } from './round.ts'
import { sheetBody } from './sheet.ts'

/** What the window and the plan's messages call each shape. */
export const shapeTitles: Readonly<Record<PlanShape['kind'], string>> = {
  sheet: 'Sheet',
  bar: 'Bar',
  block: 'Block',
  round: 'Round',
  ball: 'Ball',
}

const mm = 1e-3

/** The body of a plan's shape, in SI. */
export function buildBody(shape: PlanShape): Body {
  switch (shape.kind) {
    case 'sheet':
      return sheetBody({ area: shape.area_m2 })
    case 'bar':
      return barBody({ width: shape.width_mm * mm, length: shape.length_mm * mm })
    case 'block':
      return blockBody({ width: shape.width_mm * mm, length: shape.length_mm * mm })
    case 'round':
      return roundBody({ diameter: shape.diameter_mm * mm })
    case 'ball':
      return ballBody({ diameter: shape.diameter_mm * mm })
    default:
      return assertNever(shape)
  }
}
