import type { CourseModel } from './course-model.ts'
import type { LinearScale } from './linear-scale.ts'
import type { TemperatureAxis } from './temperature-axis.ts'

/** Where the parts of the chart lie, pixels from the figure's upper left corner. */
export interface ChartFrame {
  readonly width: number
  /** Room for day names with dates, stage names and the film strip. */
  readonly wide: boolean
  readonly plot: { readonly left: number; readonly right: number; readonly top: number; readonly bottom: number }
  readonly ribbon: { readonly top: number; readonly height: number }
  readonly clock: { readonly top: number }
  readonly hours: { readonly top: number }
  /** Height of everything above the film strip. */
  readonly height: number
  readonly x: LinearScale
}

const wideFrom = 500
/** Room for the numbers of the axis on the left, for the last hour's number on the right, for the scrubber's pill above. */
const left = 40
const right = 14
const top = 30

export function chartFrame(width: number, model: CourseModel): ChartFrame {
  const wide = width > wideFrom
  const bottom = top + (wide ? 310 : 280)
  const plot = { left, right: Math.max(left + 40, width - right), top, bottom }
  const ribbonTop = bottom + 8
  const ribbonHeight = 36
  const clockTop = ribbonTop + ribbonHeight + 8
  const hoursTop = clockTop + 26
  return {
    width,
    wide,
    plot,
    ribbon: { top: ribbonTop, height: ribbonHeight },
    clock: { top: clockTop },
    hours: { top: hoursTop },
    height: hoursTop + 24,
    x: { from: model.from_h, to: Math.max(model.to_h, model.from_h + 1e-6), start: plot.left, end: plot.right },
  }
}

export const valueScale = (frame: ChartFrame, axis: TemperatureAxis): LinearScale => ({
  from: axis.low_C,
  to: axis.high_C,
  start: frame.plot.bottom,
  end: frame.plot.top,
})
