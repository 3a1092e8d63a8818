import type { ReactNode } from 'react'

import type { Answer } from '../../core/forecast-types.ts'
import { useWidth } from '../course/use-width.ts'
import { trackScale } from './track-scale.ts'

interface TrackProps {
  readonly answer: Answer
  readonly startsAt: string
}

const height = 66
const line = 44

/** Early, likely and late against the asked time; the words above and below it say the same. */
export function Track({ answer, startsAt }: TrackProps): ReactNode {
  const [element, width] = useWidth<HTMLDivElement>()
  const scale = width > 0 ? trackScale(answer, startsAt, width) : undefined
  const x = (at_h: number): number => (scale ? ((at_h - scale.from_h) / (scale.to_h - scale.from_h)) * width : 0)
  const { at_h, early_h, late_h, by_h } = answer
  // An open late end runs to the end of the track.
  const late = late_h === undefined ? width : x(late_h)
  return (
    <div ref={element} className="track">
      {scale && (
        <svg width={width} height={height} aria-hidden="true">
          <path d={`M0 ${line}H${width}`} className="axis-line" />
          {scale.ticks.map((tick) => (
            <g key={tick.at_h}>
              <path d={`M${x(tick.at_h)} ${line - 4}v8`} className="midnight" />
              {tick.word && <TrackWord x={x(tick.at_h)} word={tick.word} width={width} />}
            </g>
          ))}
          {scale.between.map(({ at_h: middle, word }) => (
            <TrackWord key={middle} x={x(middle)} word={word} width={width} />
          ))}
          {early_h !== undefined && (
            <>
              <rect x={x(early_h)} y={24} width={Math.max(1, late - x(early_h))} height={13} className="track-band" />
              <path d={`M${x(early_h)} 24v13${late_h === undefined ? '' : `M${late} 24v13`}`} className="whisker" />
            </>
          )}
          {by_h !== undefined && <AskedFlag x={x(by_h)} width={width} />}
          {at_h !== undefined && <path d={`M${x(at_h)} 23.5l7 7l-7 7l-7 -7z`} className="lozenge" />}
        </svg>
      )}
    </div>
  )
}

function TrackWord({
  x,
  word,
  width,
}: {
  readonly x: number
  readonly word: string
  readonly width: number
}): ReactNode {
  const half = word.length * 3.7
  return (
    <text x={Math.min(width - half, Math.max(half, x))} y={line + 18} textAnchor="middle" className="axis-number">
      {word}
    </text>
  )
}

function AskedFlag({ x, width }: { readonly x: number; readonly width: number }): ReactNode {
  const left = x > 64
  const side = left ? -1 : 1
  return (
    <>
      <path d={`M${x} 4V${line}`} className="asked-line" />
      <path d={`M${x} 4h${side * 13}l${-side * 3.5} 5l${side * 3.5} 5h${-side * 13}z`} className="flag" />
      <text x={Math.min(width, x + side * 18)} y={14} textAnchor={left ? 'end' : 'start'} className="axis-number">
        asked
      </text>
    </>
  )
}
