import type { ReactNode } from 'react'

import type { LikelyCourse } from '../../core/forecast-types.ts'
import type { Plan } from '../../core/plan/schema/plan.ts'
import type { ChartFrame } from './chart-frame.ts'
import type { ChartWords, DangerNote, Flag, Lozenge } from './chart-words.ts'
import type { CourseModel } from './course-model.ts'
import { curveStyle, markerPaths, type ProbeMarker, probeNumber } from './curve-style.ts'
import type { CurveLabel } from './label-places.ts'
import { fromPixel, type LinearScale, toPixel } from './linear-scale.ts'
import { readCurve } from './read-curve.ts'

/** Beyond this, rings would be a smear: the latest are the ones that matter. */
const mostReadings = 200

interface ChartMarksProps {
  readonly forecast: Pick<LikelyCourse, 'times_h' | 'curves'>
  readonly model: CourseModel
  readonly frame: ChartFrame
  readonly y: LinearScale
  readonly words: ChartWords
  readonly unitSign: string
  readonly readings: NonNullable<Plan['readings']>
}

/** What is written and marked in the plot, above the curves: names, flags, likely moments, the danger zone's words. */
export function ChartMarks({ forecast, model, frame, y, words, unitSign, readings }: ChartMarksProps): ReactNode {
  return (
    <svg className="chart-marks" width={frame.width} height={frame.plot.bottom + 1} aria-hidden="true">
      <text x={frame.plot.left - 8} y={18} textAnchor="end" className="axis-number">
        {unitSign}
      </text>
      <path
        d={`M${frame.plot.left} ${frame.plot.top - 6}V${frame.plot.bottom + 0.5}H${frame.plot.right}`}
        className="frame-line"
      />
      {words.danger && <DangerLines note={words.danger} />}
      {model.keys.map((key) => {
        const { marker } = curveStyle(key, probeNumber(model.keys, key))
        return marker && <ProbeMarkers key={key} name={key} marker={marker} forecast={forecast} frame={frame} y={y} />
      })}
      {words.labels.map((label) => (
        <CurveNameLabel key={label.key} label={label} colour={curveStyle(label.key).colour} />
      ))}
      {words.flags.map((flag) => (
        <AskedFlag key={flag.index} flag={flag} />
      ))}
      {words.lozenges.map((lozenge) => (
        <LikelyLozenge key={lozenge.index} lozenge={lozenge} right={frame.plot.right} />
      ))}
      <Readings readings={readings} frame={frame} y={y} />
    </svg>
  )
}

function Readings({ readings, frame, y }: Pick<ChartMarksProps, 'readings' | 'frame' | 'y'>): ReactNode {
  const shown = readings.filter(({ at_h, C }) => at_h >= frame.x.from && at_h <= frame.x.to && C >= y.from && C <= y.to)
  return shown
    .slice(-mostReadings)
    .map(({ probe, at_h, C }) => (
      <circle key={`${probe} ${at_h}`} cx={toPixel(frame.x, at_h)} cy={toPixel(y, C)} r={6} className="reading-ring" />
    ))
}

function DangerLines({ note }: { readonly note: DangerNote }): ReactNode {
  const right = note.box.x + note.box.width
  return (
    <text textAnchor="end" className="chart-words">
      <tspan x={right} y={note.box.y + 14} className="danger-title">
        {note.lines[0]}
      </tspan>
      {note.lines[1] && (
        <tspan x={right} y={note.box.y + 33}>
          {note.lines[1]}
        </tspan>
      )}
    </text>
  )
}

function CurveNameLabel({ label, colour }: { readonly label: CurveLabel; readonly colour: string }): ReactNode {
  const { anchor, box, right } = label
  const middle = box.y + box.height / 2
  return (
    <>
      <path d={`M${anchor.x} ${anchor.y}L${right ? box.x - 2 : box.x + box.width + 2} ${middle}`} className="leader" />
      <text
        x={right ? box.x : box.x + box.width}
        y={middle + 4.5}
        textAnchor={right ? 'start' : 'end'}
        className="chart-words curve-name"
        style={{ fill: colour }}
      >
        {label.text}
      </text>
    </>
  )
}

function AskedFlag({ flag }: { readonly flag: Flag }): ReactNode {
  const side = flag.left ? -1 : 1
  const cloth = `M${flag.x} ${flag.top + 3}h${side * 15}l${-side * 4} 5.5l${side * 4} 5.5h${-side * 15}z`
  return (
    <>
      <path d={`M${flag.x} ${flag.top + 3}V${flag.foot}`} className="asked-line" />
      <path d={cloth} className="flag" />
      <text
        x={flag.x + side * 20}
        y={flag.top + 13}
        textAnchor={flag.left ? 'end' : 'start'}
        className="chart-words curve-name"
      >
        {flag.text}
      </text>
    </>
  )
}

function LikelyLozenge({ lozenge, right }: { readonly lozenge: Lozenge; readonly right: number }): ReactNode {
  const { x, y, early, late, words } = lozenge
  const box = words?.box
  // An open late end is an arrow instead of a stroke.
  const open = Math.min(right, x + 36)
  const end = late === undefined ? `H${open}M${open - 6} ${y - 5}l6 5l-6 5` : `H${late}M${late} ${y - 7}v14`
  const whisker = `M${early} ${y - 7}v14M${early} ${y}${end}`
  return (
    <>
      {box && <path d={leaderTo(x, y, box)} className="leader" />}
      <path d={whisker} className="whisker" />
      <path d={`M${x} ${y - 7}l7 7l-7 7l-7 -7z`} className="lozenge" />
      {box && (
        <text x={box.x + box.width / 2} y={box.y + 13.5} textAnchor="middle" className="chart-words curve-name">
          {words.text}
        </text>
      )}
    </>
  )
}

function leaderTo(x: number, y: number, box: { x: number; y: number; width: number; height: number }): string {
  const above = box.y < y
  const at = Math.min(box.x + box.width - 6, Math.max(box.x + 6, x))
  return `M${x} ${above ? y - 8 : y + 8}L${at} ${above ? box.y + box.height : box.y}`
}

interface ProbeMarkersProps {
  readonly name: string
  readonly marker: ProbeMarker
  readonly forecast: Pick<LikelyCourse, 'times_h' | 'curves'>
  readonly frame: ChartFrame
  readonly y: LinearScale
}

function ProbeMarkers({ name, marker, forecast, frame, y }: ProbeMarkersProps): ReactNode {
  const places: string[] = []
  for (let x = frame.plot.left + 20; x < frame.plot.right; x += 40) {
    const value = readCurve(forecast.times_h, forecast.curves[name]!, fromPixel(frame.x, x))
    if (value !== null) places.push(`translate(${x} ${toPixel(y, value)})`)
  }
  return places.map((place) => <path key={place} transform={place} d={markerPaths[marker]} className="probe-marker" />)
}
