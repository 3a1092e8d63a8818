import { metricUnits, shownUnit, type TemperatureUnit, temperature, toShown, toStored } from '../units.ts'
import { cividisAt, type Rgb } from './cividis.ts'

/** A scale of filled steps: values below `edges[0]` share the first colour, values from the last edge on the last. */
export interface StepScale {
  /** Edges of the steps with both ends, rising and round. Shape: steps + 1 */
  readonly edges: readonly number[]
  /** Shape: steps */
  readonly colours: readonly Rgb[]
}

const fewest = 4
const most = 9
/** A range of less gets as much around its middle: steps finer than a tenth could not be told apart by their labels. */
const narrowest = 0.8
const roundSteps = [0.1, 0.2, 0.25, 0.5, 1, 2, 2.5, 5, 10, 20, 25, 50, 100, 200, 250, 500, 1000]

/** Round steps that cover a range, four to nine of them. */
export function roundEdges(low: number, high: number): readonly number[] {
  const widen = Math.max(0, narrowest - (high - low)) / 2
  const [from, to] = [low - widen, high + widen]
  let best: readonly number[] = []
  let least = Number.POSITIVE_INFINITY
  for (const step of roundSteps) {
    const first = Math.floor(from / step + 1e-9)
    const count = Math.ceil(to / step - 1e-9) - first
    if (count < fewest || count > most) continue
    // Slack wastes colours and many steps crowd the labels: seven steps read well.
    const slack = (count * step) / (to - from) - 1
    const score = slack + Math.abs(count - 7) * 0.06
    if (score >= least) continue
    least = score
    best = Array.from({ length: count + 1 }, (_, index) => tidy((first + index) * step))
  }
  return best
}

/** Without the crumbs of floating point, and without a negative zero. */
const tidy = (value: number): number => Number(value.toFixed(6)) + 0

/** The scale whose steps run evenly through the colour map. */
export function stepScale(low: number, high: number): StepScale {
  return scaleOf(roundEdges(low, high))
}

/** Steps that are round in the reader's degrees; given and kept in °C. */
export function temperatureScale(low_C: number, high_C: number, unit: TemperatureUnit): StepScale {
  const degrees = shownUnit(temperature, { ...metricUnits, temperature: unit })
  const edges = roundEdges(toShown(low_C, degrees), toShown(high_C, degrees))
  return scaleOf(edges.map((edge) => toStored(edge, degrees)))
}

function scaleOf(edges: readonly number[]): StepScale {
  const steps = edges.length - 1
  return { edges, colours: Array.from({ length: steps }, (_, index) => cividisAt(index / (steps - 1))) }
}

export function stepOf(scale: StepScale, value: number): number {
  let step = 0
  while (step < scale.colours.length - 1 && value >= scale.edges[step + 1]!) step++
  return step
}

export function colourOf(scale: StepScale, value: number): Rgb {
  return scale.colours[stepOf(scale, value)]!
}

/** Anchors of the strip's one scale: temperatures that mean something, at fixed shares of the colour map. */
const stripAnchors: readonly (readonly [T_C: number, share: number])[] = [
  [-20, 0],
  [-12, 0.12],
  [-2, 0.42],
  [5, 0.6],
  [60, 0.9],
  [85, 1],
]

/** Share of the colour map for a temperature in the film strip, whose pictures must be comparable. */
export function stripShare(T_C: number): number {
  if (T_C <= stripAnchors[0]![0]) return 0
  for (let index = 1; index < stripAnchors.length; index++) {
    const [from, low] = stripAnchors[index - 1]!
    const [to, high] = stripAnchors[index]!
    if (T_C <= to) return low + ((T_C - from) / (to - from)) * (high - low)
  }
  return 1
}

const stripEdges_C = [-20, -12, -7, -2, 1.5, 5, 15, 30, 45, 60, 72, 85]

/** The strip's scale as steps, each in the colour of its middle. */
export const stripScale: StepScale = {
  edges: stripEdges_C,
  colours: stripEdges_C.slice(1).map((edge, index) => cividisAt(stripShare((edge + stripEdges_C[index]!) / 2))),
}
