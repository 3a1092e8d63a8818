import { type ReactNode, useState } from 'react'

import type { Forecast, LikelyCourse } from '../../core/forecast-types.ts'
import type { Plan } from '../../core/plan/schema/plan.ts'
import { boundaryBand } from '../../core/stage-times.ts'
import { bandedWords } from '../../core/words/banded.ts'
import type { Show } from '../../core/words/show.ts'
import { actionWords, stageLetter } from '../../core/words/stage.ts'
import { dayAndClock } from '../format-time.ts'
import { stageFill } from '../parts/Patterns.tsx'
import type { ChartFrame } from './chart-frame.ts'
import { labelWidth } from './label-places.ts'
import { toPixel } from './linear-scale.ts'

interface StageRibbonProps {
  readonly stages: Forecast['stages']
  readonly plan: Plan
  readonly frame: ChartFrame
  readonly show: Show
}

/** When a stage begins, with the band of what it waits for. */
export const beginWords = (stages: Forecast['stages'], from_h: number, startsAt: string): string =>
  bandedWords((h) => dayAndClock(startsAt, h), from_h, boundaryBand(stages, from_h), 'later')

/** The stages on the chart's own time axis, with marks for what is done at their starts. */
export function StageRibbon({ stages, plan, frame, show }: StageRibbonProps): ReactNode {
  const [told, tell] = useState<number | null>(null)
  const spoken = stages.map(
    (stage, index) => `${stageLetter(index)} ${stage.name} from ${beginWords(stages, stage.from_h, plan.startsAt)}`,
  )
  const words = stages.map((_, index) => actionWords(plan, index, show).join(', '))
  const marks = stages.map((stage) => toPixel(frame.x, stage.from_h))
  const places = apart(marks, words)
  return (
    <>
      <StageBoxes stages={stages} frame={frame} label={`Stages: ${spoken.join('; ')}`} />
      {words.map((word, index) => {
        const stage = stages[index]
        if (word === '' || !stage) return null
        return (
          <button
            // biome-ignore lint/suspicious/noArrayIndexKey: a stage is its place in the plan
            key={index}
            type="button"
            className="deed"
            style={{ left: (places[index] ?? 0) - DEED / 2, top: frame.ribbon.top - DEED / 2 }}
            aria-label={`${beginWords(stages, stage.from_h, plan.startsAt)}: ${word}`}
            onMouseEnter={() => tell(index)}
            onMouseLeave={() => tell(null)}
            onFocus={() => tell(index)}
            onBlur={() => tell(null)}
            onClick={() => tell(told === index ? null : index)}
            onKeyDown={(event) => event.key === 'Escape' && tell(null)}
          >
            <svg
              width="12"
              height="8"
              aria-hidden="true"
              style={{ transform: `translateX(${(marks[index] ?? 0) - (places[index] ?? 0)}px)` }}
            >
              <path d="M0 0h12l-6 8z" className="deed-mark" />
            </svg>
          </button>
        )
      })}
      {told !== null && stages[told] && (
        <DeedWords words={words[told] ?? ''} x={toPixel(frame.x, stages[told].from_h)} frame={frame} />
      )}
    </>
  )
}

/** The stages as boxes on the time axis. */
export function StageBoxes({
  stages,
  frame,
  label,
}: {
  readonly stages: LikelyCourse['stages']
  readonly frame: ChartFrame
  readonly label: string
}): ReactNode {
  return (
    <svg
      className="stage-ribbon"
      style={{ top: frame.ribbon.top - 1 }}
      width={frame.width}
      height={frame.ribbon.height + 2}
      role="img"
      aria-label={label}
    >
      {stages.map((stage, index) => (
        <Segment
          // biome-ignore lint/suspicious/noArrayIndexKey: a stage is its place in the plan
          key={index}
          index={index}
          name={stage.name}
          from={toPixel(frame.x, stage.from_h)}
          to={toPixel(frame.x, stage.to_h)}
          height={frame.ribbon.height}
          wide={frame.wide}
          first={index === 0}
        />
      ))}
    </svg>
  )
}

/** Width of a mark's button: room for a finger, and none on another. */
const DEED = 24

/** Middles of the buttons: at their moments, later ones moved on where starts follow each other closely. */
function apart(marks: readonly number[], words: readonly string[]): number[] {
  let free = Number.NEGATIVE_INFINITY
  return marks.map((mark, index) => {
    if (words[index] === '') return mark
    const place = Math.max(mark, free)
    free = place + DEED
    return place
  })
}

interface SegmentProps {
  readonly index: number
  readonly name: string
  readonly from: number
  readonly to: number
  readonly height: number
  readonly wide: boolean
  readonly first: boolean
}

const edgeHeight = 9

function Segment({ index, name, from, to, height, wide, first }: SegmentProps): ReactNode {
  const width = Math.max(1, to - from)
  const letter = stageLetter(index)
  const named = width > 28 + labelWidth(name)
  // A first stage too narrow for its letter has it in the margin, where the axis keeps room.
  const outside = first && width < 14
  const x = named ? from + 9 : from + width / 2
  const shown = named || width >= 14
  const label = named || wide || width >= 14
  return (
    <>
      <rect x={from} y={1} width={width} height={height} className="stage-box" />
      <rect x={from} y={1} width={width} height={edgeHeight} fill={stageFill(index)} />
      {outside && (
        <text x={from - 8} y={height - 9} textAnchor="end" className="stage-letter">
          {letter}
        </text>
      )}
      {!outside && shown && label && (
        <text x={x} y={height - 9} textAnchor={named ? 'start' : 'middle'} className="stage-letter">
          {letter}
        </text>
      )}
      {named && (
        <text x={from + 9 + labelWidth(letter) + 8} y={height - 9} className="stage-name">
          {name}
        </text>
      )}
    </>
  )
}

function DeedWords({
  words,
  x,
  frame,
}: {
  readonly words: string
  readonly x: number
  readonly frame: ChartFrame
}): ReactNode {
  const side = x > frame.width / 2 ? { right: frame.width - x } : { left: x }
  return (
    <div
      className="deed-words"
      style={{ ...side, bottom: `calc(100% - ${frame.ribbon.top - 14}px)` }}
      aria-hidden="true"
    >
      {words}
    </div>
  )
}
