import { type KeyboardEvent, type PointerEvent, type ReactNode, useId, useState } from 'react'

import type { Forecast } from '../../core/forecast-types.ts'
import type { Plan } from '../../core/plan/schema/plan.ts'
import { lengthBand } from '../../core/stage-times.ts'
import { bandedWords } from '../../core/words/banded.ts'
import { stageLetter } from '../../core/words/stage.ts'
import { dropIndex, type RibbonStage, ribbonStages, withLength } from '../edits/ribbon.ts'
import { duplicateStage, moveStage, removeStage } from '../edits/stages.ts'
import { durationWords } from '../format-time.ts'
import { useDrag } from '../parts/use-drag.ts'
import { usePlan } from '../plan-store.ts'
import { useView } from '../view-store.ts'
import type { ChartFrame } from './chart-frame.ts'
import { fromPixel, toPixel } from './linear-scale.ts'
import { beginWords } from './StageRibbon.tsx'

interface RibbonTouchProps {
  /** The plan of which the ribbon was drawn. */
  readonly plan: Plan
  readonly spans: Forecast['stages']
  readonly frame: ChartFrame
}

/** Less than this is a press and no drag, px. */
const STILL = 8

interface Drag {
  readonly index: number
  readonly from: number
  readonly moved: boolean
}

/** How long a stage takes, with its band; of one that is done several times, all its rounds together. */
function lengthWords(spans: Forecast['stages'], { from_h, to_h }: RibbonStage): string {
  const own = spans.filter((span) => span.from_h >= from_h - 1e-6 && span.to_h <= to_h + 1e-6)
  const sum = (end: 'early_h' | 'late_h'): number =>
    own.reduce((all, span) => all + (lengthBand(span)[end] ?? span.to_h - span.from_h), 0)
  return bandedWords(durationWords, to_h - from_h, { early_h: sum('early_h'), late_h: sum('late_h') }, 'longer')
}

/**
 * The ribbon's surface: a press chooses a stage, a drag puts it elsewhere in the order. By keys: arrows choose, with Alt
 * they move it, Insert makes it once more, Delete takes it away, Enter opens it in the list.
 */
export function RibbonTouch({ plan, spans, frame }: RibbonTouchProps): ReactNode {
  const id = useId()
  const chosen = useView(({ stage }) => stage)
  const { chooseStage, openStage, showRegion } = useView.getState()
  const { edit } = usePlan.getState()
  const present = usePlan(({ history }) => history?.present) ?? plan
  const [drag, setDrag] = useState<(Drag & { readonly x: number }) | null>(null)
  const stages = ribbonStages(plan, spans)
  const stage = stages.find(({ index }) => index === chosen)
  // until its forecast is there, a plan with other stages has no places on the ribbon: keys go on, presses wait
  const current = present.stages.length === plan.stages.length
  const last = present.stages.length - 1

  function stageAt(x: number): RibbonStage | undefined {
    const at_h = fromPixel(frame.x, x)
    return stages.find(({ from_h, to_h }) => at_h >= from_h && at_h <= to_h) ?? stages.at(-1)
  }

  const reorder = (index: number, to: number): void => {
    if (to === index) return
    edit('order of stages', (now) => moveStage(now, index, to - index))
    chooseStage(to)
    if (useView.getState().opened === index) openStage(to)
  }

  function press(event: KeyboardEvent): void {
    const step = { ArrowLeft: -1, ArrowRight: 1 }[event.key]
    if (step !== undefined && event.altKey && chosen !== null) {
      const to = chosen + step
      if (to >= 0 && to <= last) reorder(chosen, to)
    } else if (step !== undefined) chooseStage(Math.max(0, Math.min(last, (chosen ?? -1) + step)))
    else if (event.key === 'Home') chooseStage(0)
    else if (event.key === 'End') chooseStage(last)
    else if (chosen === null) return
    else if (event.key === 'Enter') {
      showRegion('piece')
      openStage(chosen)
    } else if (event.key === 'Insert') {
      edit('stage once more', (now) => duplicateStage(now, chosen))
      chooseStage(chosen + 1)
    } else if (event.key === 'Delete' && last > 0) {
      edit('stage taken away', (now) => removeStage(now, chosen))
      chooseStage(Math.max(0, chosen - 1))
    } else return
    event.preventDefault()
    event.stopPropagation()
  }

  const pixel = (event: PointerEvent<HTMLElement>): number =>
    event.clientX - event.currentTarget.getBoundingClientRect().left + frame.plot.left

  function begin(event: PointerEvent<HTMLElement>): void {
    if (event.button !== 0 || !current) return
    event.currentTarget.setPointerCapture(event.pointerId)
    const x = pixel(event)
    const pressed = stageAt(x)
    if (pressed === undefined) return
    chooseStage(pressed.index)
    setDrag({ index: pressed.index, from: x, moved: false, x })
  }

  function move(event: PointerEvent<HTMLElement>): void {
    if (drag === null) return
    const x = pixel(event)
    setDrag({ ...drag, x, moved: drag.moved || Math.abs(x - drag.from) > STILL })
  }

  function end(): void {
    if (drag === null) return
    setDrag(null)
    if (drag.moved) reorder(drag.index, dropIndex(stages, drag.index, fromPixel(frame.x, drag.x)))
  }

  const others = drag?.moved === true ? stages.filter(({ index }) => index !== drag.index) : []
  const target = drag?.moved === true ? dropIndex(stages, drag.index, fromPixel(frame.x, drag.x)) : null
  const targetX = target === null ? null : toPixel(frame.x, others[target]?.from_h ?? others.at(-1)?.to_h ?? 0)
  return (
    <>
      <div
        className="ribbon-touch"
        data-testid="ribbon"
        style={{
          left: frame.plot.left,
          top: frame.ribbon.top,
          width: frame.plot.right - frame.plot.left,
          height: frame.ribbon.height,
        }}
        role="listbox"
        aria-orientation="horizontal"
        aria-label="Stages on the ribbon. Alt with an arrow moves one, Insert makes it once more, Delete takes it away, Enter opens it."
        aria-activedescendant={chosen === null ? undefined : `${id}-${chosen}`}
        tabIndex={0}
        onPointerDown={begin}
        onPointerMove={move}
        onPointerUp={end}
        onPointerCancel={() => setDrag(null)}
        onKeyDown={press}
      >
        {present.stages.map(({ name }, index) => {
          const span = current ? stages.find((one) => one.index === index) : undefined
          const [from, to] = span === undefined ? [0, 0] : [toPixel(frame.x, span.from_h), toPixel(frame.x, span.to_h)]
          const when =
            span === undefined
              ? ''
              : `, from ${beginWords(spans, span.from_h, plan.startsAt)}, ${lengthWords(spans, span)}`
          return (
            <div
              // biome-ignore lint/suspicious/noArrayIndexKey: a stage is known by its place in the order
              key={index}
              id={`${id}-${index}`}
              role="option"
              tabIndex={-1}
              aria-selected={index === chosen}
              aria-label={`${stageLetter(index)} ${name}${when}`}
              className={index === chosen ? 'ribbon-stage ribbon-chosen' : 'ribbon-stage'}
              style={{ left: from - frame.plot.left, width: Math.max(2, to - from) }}
            />
          )
        })}
        {targetX === null ? null : <span className="ribbon-drop" style={{ left: targetX - frame.plot.left }} />}
      </div>
      {current && stage?.byLength === true ? <LengthGrip stage={stage} frame={frame} /> : null}
    </>
  )
}

/** The handle at the end of the chosen stage: drag it, or arrow keys by a quarter of an hour, with Shift by four. */
function LengthGrip({ stage, frame }: { readonly stage: RibbonStage; readonly frame: ChartFrame }): ReactNode {
  const { edit } = usePlan.getState()
  const given = usePlan(({ history }) => history?.present.stages[stage.index]?.until.after_h)
  const hours = given ?? stage.to_h - stage.from_h
  const whole_h = frame.x.to - frame.x.from
  const take = (value: number, key: string): void =>
    edit('duration', (plan) => withLength(plan, stage.index, value, whole_h), key)

  const handlers = useDrag(
    () => ({ hours, perPx: whole_h / (frame.plot.right - frame.plot.left) }),
    ({ hours: from, perPx }, way, key) => take(from + way.x * perPx, key),
  )

  function press(event: KeyboardEvent): void {
    const way = { ArrowLeft: -1, ArrowDown: -1, ArrowRight: 1, ArrowUp: 1 }[event.key]
    if (way === undefined) return
    event.preventDefault()
    take(hours + way * (event.shiftKey ? 1 : 0.25), `length keys ${stage.index}`)
  }

  return (
    <div
      className="grip grip-x ribbon-grip"
      style={{ left: toPixel(frame.x, stage.to_h), top: frame.ribbon.top + frame.ribbon.height / 2 }}
      role="slider"
      tabIndex={0}
      aria-label={`Length of stage ${stageLetter(stage.index)}`}
      aria-orientation="horizontal"
      aria-valuemin={0}
      aria-valuemax={2000}
      aria-valuenow={hours}
      aria-valuetext={durationWords(hours)}
      {...handlers}
      onKeyDown={press}
    >
      <span />
    </div>
  )
}
