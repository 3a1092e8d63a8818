import type { BodyAxis, FaceName } from './body.ts'
import type { Form } from './form.ts'
import { cellsFor, gradedBorders, isGraded } from './grading.ts'

/** An axis divided into cells. */
export interface MeshAxis {
  /** Cell borders in coordinates. Shape: cells + 1. A mirrored axis runs from the middle plane to the high face. */
  readonly borders: Float64Array
  /** Cell middles. Shape: cells */
  readonly middles: Float64Array
  /** Coordinates of both ends of the whole axis, both halves. */
  readonly from: number
  readonly to: number
  readonly mirrored: boolean
  /** Elementary face at each end; null at a symmetry plane, a pole, or where the end is left out. */
  readonly low: FaceName | null
  readonly high: FaceName | null
  /** The low end is the tip of a fan of rays. */
  readonly apex: boolean
}

/** What an axis must know beside the form. */
export interface AxisOptions {
  /** Cells between the middle and the surface of a plain axis. */
  readonly perHalf: number
  readonly halved: boolean
  readonly mirrored: boolean
  /** Faces through which nothing ever passes: no fine cells there. */
  readonly insulated: ReadonlySet<FaceName>
  /** Length of the axis once everything lies on it, m: cells of a layer don't change when another comes on it. */
  readonly finalLength: number
}

/** A layer among others has one cell across up to this thickness, which stands for its heat and its resistance, m. */
export const THIN = 0.0021

/** Up to this one it has two, m: it follows its neighbours within minutes. */
const THINNISH = 0.0061

/** Coordinates closer than this share of the axis count as one. */
const SAME = 1e-9

/** Where a material may change along an axis, both ends included; rising. */
function breakpoints(form: Form, axis: number): number[] {
  const low = form.box.low[axis]!
  const high = form.box.high[axis]!
  const slack = SAME * (high - low)
  const inner = form.regions.flatMap((region) => [region.low[axis]!, region.high[axis]!]).sort((a, b) => a - b)
  const points = [low]
  for (const at of inner) if (at > points[points.length - 1]! + slack && at < high - slack) points.push(at)
  return [...points, high]
}

const isIdle = ({ idle }: BodyAxis, low: FaceName | null, high: FaceName | null): boolean =>
  idle === true && low === null && high === null

/** Whether a form has but one cell along an axis because heat along it is left out. */
export function idleAlong(form: Form, axis: number): boolean {
  const { low, high } = form.ends[axis]!
  return isIdle(form.body.axes[axis]!, low, high) || form.body.mixed === true
}

/** Divides an axis of a form. */
export function divideAxis(form: Form, axis: number, options: AxisOptions): MeshAxis {
  const { low, high } = form.ends[axis]!
  const from = form.box.low[axis]!
  const to = form.box.high[axis]!
  const apex = form.body.axes[axis]!.apex === true
  const axisOf = (borders: readonly number[], mirrored: boolean): MeshAxis => ({
    borders: Float64Array.from(borders),
    middles: Float64Array.from(borders.slice(1), (border, index) => (border + borders[index]!) / 2),
    from,
    to,
    mirrored,
    low: mirrored ? null : low,
    high,
    apex,
  })
  if (idleAlong(form, axis)) return axisOf([from, to], false)
  const metric = (a: number, b: number): number => form.coordinates.distance(axis, a, b, form.box)
  const half = options.mirrored || low === null
  const points = breakpoints(form, axis)
  const centre = (from + to) / 2
  const starts = options.mirrored ? [centre, ...points.filter((at) => at > centre + SAME * (to - from))] : points
  const active = (face: FaceName | null): boolean => face !== null && !options.insulated.has(face)
  const lowFace = options.mirrored ? null : low
  const { fan } = form.coordinates
  // The tip of a fan of rays lies in the face that ends its turn.
  const tip = apex && fan !== undefined && active(form.body.axes[fan.axis]!.high)
  const activeLow = tip || active(lowFace)
  const modelled = metric(starts[0]!, to)
  const length = Math.max(half ? 2 * modelled : modelled, options.finalLength)
  const spans = starts.length - 1
  const uniform = spans === 1 && !activeLow && !active(high)
  // Where heat has one way to go, fine cells cost next to nothing: there no layer is spared them.
  const alone = form.body.axes.filter((_, other) => !idleAlong(form, other)).length === 1
  const borders = [starts[0]!]
  for (let index = 0; index < spans; index++) {
    const grading = { low: index > 0 || activeLow, high: index < spans - 1 || active(high) }
    const oneSided = grading.low !== grading.high
    const thickness = metric(starts[index]!, starts[index + 1]!)
    const wanted = options.perHalf * (form.body.axes[axis]!.finer ?? 1)
    const spared = !alone && thickness < length / 4
    const single = (uniform && low !== null) || (spared && thickness <= THIN)
    const full = single ? 1 : spared && thickness <= THINNISH ? 2 : cellsFor(thickness, length, wanted, oneSided)
    const cells = options.halved && full > 1 ? full / 2 : full
    const graded = isGraded(oneSided ? 2 * full : full) ? grading : { low: false, high: false }
    borders.push(...gradedBorders(starts[index]!, starts[index + 1]!, cells, graded).slice(1))
  }
  return axisOf(borders, options.mirrored)
}
