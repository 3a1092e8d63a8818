import { type KeyboardEvent, type PointerEvent, type ReactNode, useRef } from 'react'

import { writeAt } from '../edits/path.ts'
import { lengthRange } from '../parts/ranges.ts'
import { usePlan } from '../plan-store.ts'
import { useSettings } from '../settings.ts'
import { length, shownQuantity, shownUnit } from '../units.ts'
import type { Grip } from './grip.ts'

interface EdgeGripProps {
  readonly grip: Grip
  /** The paper stays as it is while this is true. */
  readonly onHold: (held: boolean) => void
}

interface Drag {
  readonly at: number
  readonly value: number
  readonly mmPerPx: number
  readonly key: string
}

const words = { thickness: 'Thickness of the chosen layer', diameter: 'Diameter', radius: 'Radius' } as const

let drags = 0

/** The handle on the chosen layer's edge: drag it, or arrow keys by 1 mm, with Shift by 10. */
export function EdgeGrip({ grip, onHold }: EdgeGripProps): ReactNode {
  const units = useSettings(({ settings }) => settings)
  const { edit, seal } = usePlan.getState()
  const drag = useRef<Drag | null>(null)

  const take = (value: number, key: string): void => {
    const whole = Math.min(Math.max(Math.round(value), 1), lengthRange.high)
    edit(grip.size, (plan) => writeAt(plan, grip.path, whole), key)
  }

  function begin(event: PointerEvent<HTMLDivElement>): void {
    event.currentTarget.setPointerCapture(event.pointerId)
    drags += 1
    const at = grip.axis === 'x' ? event.clientX : event.clientY
    drag.current = { at, value: grip.value, mmPerPx: grip.mmPerPx, key: `drag ${drags}` }
    onHold(true)
  }

  function move(event: PointerEvent<HTMLDivElement>): void {
    const from = drag.current
    if (from === null) return
    const at = grip.axis === 'x' ? event.clientX : event.clientY
    take(from.value + (at - from.at) * from.mmPerPx, from.key)
  }

  function end(): void {
    if (drag.current === null) return
    drag.current = null
    onHold(false)
    seal()
  }

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
      onPointerDown={begin}
      onPointerMove={move}
      onPointerUp={end}
      onPointerCancel={end}
      onLostPointerCapture={end}
      onKeyDown={press}
      onBlur={seal}
    >
      <span />
    </div>
  )
}
