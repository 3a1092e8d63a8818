import type { FaceCondition } from '../boundary/face.ts'
import { dimensionsOf, type Place } from '../geometry/body.ts'
import { carrierIndex } from '../geometry/coordinates/coordinates.ts'
import { startForm } from '../geometry/form.ts'
import type { Fidelity, Job } from './job.ts'

/*
 * Which directions of a piece need to be in its model. The estimate takes each direction as a plate, a cylinder or a
 * half disc of its own: how fast it would follow alone, from the conduction within and the film outside in series. By
 * the time at which the other directions have brought the core nine tenths of the way, a slow direction has done next to
 * nothing there; what it would have done is what leaving it out costs.
 */

/** Share of the core's time that leaving directions out may cost. */
const ALLOWED: Readonly<Record<Fidelity, number>> = { quick: 0.02, standard: 0.005, fine: 0.001 }

/** First zeros of the Bessel functions of order 0 and 1. Source: Abramowitz and Stegun (1964), table 9.5. */
const ZERO_OF_J0 = 2.404825557695773
const ZERO_OF_J1 = 3.831705970207512

/** Film that radiation adds at about room temperature, W/(m² K): 4 σ T³. */
const RADIATION = 5.5
/** Film of a surface held at a temperature, W/(m² K). */
const HELD = 1e5
/** A surface and an air that films of laws are judged for. */
const ROOM = { T_C: 40, vapour: 0 }
const COLD = { T_C: 15, vapour: 0 }
/** What is left of the core's difference when it counts as having followed, with the usual first coefficients. */
const FOLLOWED = Math.log(16)
/** A probe farther from the middle than this (share of the axis) keeps its axis in the model. */
const NEAR_MIDDLE = 0.25

/** What it costs to leave an axis out: share of the core's time. */
export interface AxisLoss {
  readonly axis: number
  readonly loss: number
}

export interface Choice {
  /** Axes in the model. */
  readonly kept: readonly number[]
  /** Axes that were weighed and left out, with what each costs. */
  readonly leftOut: readonly AxisLoss[]
  /** Axes that were weighed and kept. */
  readonly weighed: readonly AxisLoss[]
}

function filmOf(condition: FaceCondition | undefined): number {
  if (condition === undefined || condition.kind === 'insulated') return 0
  if (condition.kind === 'law') {
    const within = condition.resistances.reduce((sum, { R }) => sum + R, 0)
    const outside = condition.film(ROOM, COLD) * condition.spread + RADIATION * condition.emissivity
    return outside === 0 ? 0 : 1 / (1 / outside + within)
  }
  if (condition.kind !== 'convective') return HELD
  const outside = condition.h + (condition.radiation === undefined ? 0 : RADIATION * condition.radiation.emissivity)
  const within = condition.resistances.reduce((sum, { R }) => sum + R, 0)
  return outside === 0 ? 0 : 1 / (1 / outside + within)
}

/** How fast a direction follows alone, 1/m² (to be multiplied by the diffusivity), and its first coefficient. */
interface Pace {
  readonly rate: number
  readonly coefficient: number
}

const still: Pace = { rate: 0, coefficient: 1 }

/** A plate between two films: half of it, or all of it where one side lets nothing through. */
function platePace(length: number, k: number, low: number, high: number): Pace {
  if (low === 0 && high === 0) return still
  const half = low > 0 && high > 0 ? length / 2 : length
  const film = low > 0 && high > 0 ? (low + high) / 2 : low + high
  const biot = (film * half) / k
  return { rate: 1 / (((2 * half) / Math.PI) ** 2 + (half * k) / film), coefficient: 1 + (0.273 * biot) / (biot + 2) }
}

function cylinderPace(radius: number, k: number, film: number): Pace {
  if (film === 0) return still
  const biot = (film * radius) / k
  return {
    rate: 1 / ((radius / ZERO_OF_J0) ** 2 + (radius * k) / (2 * film)),
    coefficient: 1 + (0.602 * biot) / (biot + 2),
  }
}

function halfDiscPace(radius: number, k: number, flat: number, arc: number): Pace {
  const perimeter = 2 * radius + Math.PI * radius
  const film = (2 * radius * flat + Math.PI * radius * arc) / perimeter
  if (film === 0) return still
  const depth = (Math.PI * radius * radius) / 2 / perimeter
  return { rate: 1 / ((radius / ZERO_OF_J1) ** 2 + (depth * k) / film), coefficient: 1.3 }
}

/** The pace of every axis in one stage; of a fan of rays both axes as one, told on the first. */
function pacesOf(job: Job, k: number, faces: Readonly<Record<string, FaceCondition>>): Pace[] {
  const { body } = job
  const form = startForm(body, job.lining, job.fill)
  const film = (face: string | null): number => (face === null ? 0 : filmOf(faces[face]))
  return body.axes.map((axis, index) => {
    const length = form.box.high[index]! - form.box.low[index]!
    if (axis.apex === true) return halfDiscPace(length, k, film(body.axes[1]!.high), film(axis.high))
    if (body.axes[0]!.apex === true && index === 1) return still
    const radius = index === 0 && axis.low === null && axis.idle !== true
    return radius ? cylinderPace(length, k, film(axis.high)) : platePace(length, k, film(axis.low), film(axis.high))
  })
}

/** Share of the core's time that an axis is worth beside others. */
function lossOf(own: Pace, others: number): number {
  if (own.rate === 0) return 0
  if (others === 0) return 1
  const left = Math.min(1, own.coefficient * Math.exp((-own.rate * FOLLOWED) / others))
  return -Math.log(left) / FOLLOWED
}

/** Axes that may be left out at all. */
function candidates(job: Job, asked: readonly Place[]): number[] {
  const { body, lining, inserts = [] } = job
  if (
    body.mixed === true ||
    body.tiers !== undefined ||
    body.coordinates.name === 'sphere' ||
    body.coordinates.name === 'dome'
  )
    return []
  return body.axes.flatMap((axis, index) => {
    const lined = lining.length > 0 && (axis.linedLow || axis.linedHigh)
    const ends = [axis.low, axis.high].filter((face) => face !== null)
    // An insert that ends within the piece can't be told from one that goes through it.
    const ended = inserts.some(({ margins }) => ends.some((face) => (margins[face] ?? 0) > 0))
    const fanned = body.axes[0]!.apex === true && index < 2
    if (axis.idle === true || index === body.stackAxis || lined || ended || fanned) return []
    // The one direction that a log has is not left out.
    if (body.stackAxis === null && axis.long !== true) return []
    const share = (place: Place): number => [place.x, place.y, place.z][carrierIndex[axis.carries]]!
    return asked.some((place) => Math.abs(share(place) - 0.5) > NEAR_MIDDLE) ? [] : [index]
  })
}

/** An axis whose faces nobody speaks of can't be in the model. */
const isUnsaid = (job: Job, axis: number): boolean => {
  const { low, high } = job.body.axes[axis]!
  return job.stages.some(({ faces }) =>
    [low, high].some((face) => face !== null && faces[face] === undefined && !('cut' in faces)),
  )
}

/**
 * Chooses the directions of a job's model.
 * @param job  with the whole body
 * @param forced  as many directions as this, where the plan asks for it
 */
export function chooseAxes(job: Job, fidelity: Fidelity, forced?: number): Choice {
  const { body } = job
  const active = body.axes.flatMap(({ idle }, index) => (idle === true ? [] : [index]))
  const main = job.fill.reduce((most, layer) => ((layer.thickness ?? 1) > (most.thickness ?? 1) ? layer : most))
  const { k } = main.material.at(main.start_C)
  const stages = job.stages.map(({ faces }) => pacesOf(job, k, faces))
  const free = candidates(
    job,
    job.probes.map(({ place }) => place),
  )
  const lossAmong = (axis: number, kept: readonly number[]): number =>
    Math.max(
      ...stages.map((paces) =>
        lossOf(
          paces[axis]!,
          kept.reduce((sum, other) => sum + (other === axis ? 0 : paces[other]!.rate), 0),
        ),
      ),
    )
  let kept: readonly number[] = active
  const leftOut: AxisLoss[] = []
  const drop = ({ axis, loss }: AxisLoss): void => {
    kept = kept.filter((other) => other !== axis)
    leftOut.push({ axis, loss })
  }
  for (const axis of free) if (isUnsaid(job, axis)) drop({ axis, loss: lossAmong(axis, kept) })
  const weigh = (): AxisLoss[] =>
    free
      .filter((axis) => kept.includes(axis))
      .map((axis) => ({ axis, loss: lossAmong(axis, kept) }))
      .sort((a, b) => a.loss - b.loss)
  let spent = 0
  for (let next = weigh()[0]; next !== undefined; next = weigh()[0]) {
    const wanted = forced === undefined ? spent + next.loss <= ALLOWED[fidelity] : kept.length > forced
    if (!wanted) break
    spent += next.loss
    drop(next)
  }
  return { kept, leftOut, weighed: dimensionsOf(body) > 1 ? weigh() : [] }
}
