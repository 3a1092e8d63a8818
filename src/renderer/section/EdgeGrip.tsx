import type { KeyboardEvent, ReactNode } from 'react'

import { writeAt } from '../edits/path.ts'
import { lengthRange } from '../parts/ranges.ts'
import { useDrag } from '../parts/use-drag.ts'
import { usePlan } from '../plan-store.ts'
import { useSettings } from '../settings.ts'
import { length, shownQuantity, shownUnit } from '../units.ts'
import type { Grip } from './grip.ts'

interface EdgeGripProps {
  readonly grip: Grip
  /** The paper stays as it is while this is true. */
  readonly onHold: (held: boolean) => void
}

const words = { thickness: 'Thickness of the chosen layer', diameter: 'Diameter', radius: 'Radius' } as const

/** The handle on the chosen layer's edge: drag it, or arrow keys by 1 mm, with Shift by 10. */
export function EdgeGrip({ grip, onHold }: EdgeGripProps): ReactNode {
  const units = useSettings(({ settings }) => settings)
  const { edit } = usePlan.getState()

  const take = (value: number, key: string): void => {
    const whole = Math.min(Math.max(Math.round(value), 1), lengthRange.high)
    edit(grip.size, (plan) => writeAt(plan, grip.path, whole), key)
  }

  const handlers = useDrag(
    () => {
      onHold(true)
      return grip
    },
    ({ axis, value, mmPerPx }, way, key) => take(value + way[axis] * mmPerPx, key),
    () => onHold(false),
  )

  function press(event: KeyboardEvent<HTMLDivElement>): void {
    const more = { ArrowUp: 1, ArrowRight: 1, ArrowDown: -1, ArrowLeft: -1 }[event.key]
    if (more === undefined) return
    event.preventDefault()
    take(grip.value + more * (event.shiftKey ? 10 : 1), `keys ${grip.path}`)
  }

  return (
    <div
      className={`grip grip-${grip.axis}`}
      style={{ left: grip.at.x, top: grip.at.y }}
      role="slider"
      tabIndex={0}
      aria-label={words[grip.size]}
      aria-orientation={grip.axis === 'x' ? 'horizontal' : 'vertical'}
      aria-valuemin={1}
      aria-valuemax={lengthRange.high}
      aria-valuenow={Math.round(grip.value)}
      aria-valuetext={shownQuantity(grip.value, shownUnit(length, units))}
      {...handlers}
      onKeyDown={press}
    >
      <span />
    </div>
  )
}
