import type { Control } from '../control.ts'
import { Cancelled, ComputeError } from '../errors.ts'
import { temperaturesOf } from '../solver/conduction.ts'
import type { Films } from '../solver/film.ts'
import type { Around } from './around.ts'
import { curvedLimit, profilesOf } from './causes.ts'
import type { StageSpan } from './course.ts'
import { untilClock, watchOf } from './ending.ts'
import type { Sample } from './field-reader.ts'
import type { Stage } from './job.ts'
import type { Piece } from './piece.ts'
import type { Lost } from './record.ts'
import type { Resolution } from './resolution.ts'

const SHORTEST_STEP = 1e-9
/** A stage that needs more than so many of the longest steps that its cells allow would not end while someone waits. */
const MOST_STEPS = 1e6
/** A stage that ends at a temperature is met within this, K. */
const ENDING_K = 1e-7

/** Water that boiled out together with what evaporated below boiling. */
const withSurfaceWater = (lost: Lost, surface: number): Lost => ({ ...lost, water: lost.water + surface })

/** Where a journey stands. */
export interface Progress {
  /** Seconds since the start of the plan. */
  time: number
  steps: number
  /** Moments kept. */
  kept: number
}

/**
 * Lives through one stage: does what is done at its start, then steps to its end.
 * Throws `ComputeError` when the fields stop being finite or the steps vanish, `Cancelled` when asked to stop.
 */
export function live(
  piece: Piece,
  stage: Stage,
  resolution: Resolution,
  progress: Progress,
  report: (share: number) => void,
  control: Control,
  around: Around,
  index: number,
): StageSpan {
  piece.act(stage.start)
  const [mesh, conduction, stepper, take] = [piece.mesh(), piece.conduction(), piece.stepper(), piece.take()]
  const conditions = conduction.faces.map((face) => stage.faces[face]!)
  const idle = new Set(conduction.faces.filter((face) => stage.faces[face]!.kind === 'insulated'))
  const profiles = profilesOf(conditions)
  const surround = around.enter(stage, index, conduction)
  const doors = stage.appliance?.appliance.openings.flatMap((opening) => [opening.from, opening.to]) ?? []
  const bends = [...profiles, stage.air_C].flatMap((profile) => [...profile.breaks])
  const breaks = [...new Set([...bends, ...doors])].filter((moment) => moment > 0).sort((a, b) => a - b)
  const { until } = stage
  const from = progress.time
  const clock = untilClock(until, from)
  const after = until.after ?? Number.POSITIVE_INFINITY
  const end = Math.min(after, clock, until.max)
  const endedAtLatestBy =
    end === after ? (until.afterIsMet === true ? 'met' : 'after') : end === clock ? 'clock' : 'max'
  const source = stage.source ?? 0
  const totalSource = source * conduction.volume
  const through = new Float64Array(conduction.faces.length)
  const first = progress.kept
  const keep = (t: number): void => {
    take.keep(stepper.y(), stepper.films(), {
      t: from + t,
      air_C: surround?.state()?.air_C ?? stage.air_C.at(t),
      sourceHeat: piece.sourceHeat(),
      through: piece.through,
      lost: withSurfaceWater(piece.lost(), around.waterLost()),
      insulated: idle,
    })
    around.keep()
    progress.kept++
  }
  // The watch looks at one moment at a time.
  const [surfaces, outsides] = [mesh.cells, mesh.cells + mesh.boundary.length]
  const looked = new Float64Array(outsides + mesh.boundary.length)
  const sampleOf = (y: Float64Array, films: Films): Sample => {
    temperaturesOf(conduction, y, looked, 0)
    looked.set(films.surface_C, surfaces)
    looked.set(films.airStart_C, outsides)
    return { data: looked, cells: 0, surfaces, outsides, insulated: idle, parts: take.parts }
  }

  let t = 0
  let dt = resolution.firstStep
  const begin = (at: number): void => stepper.begin(conditions, source, at, surround)
  begin(0)
  keep(0)
  const start = sampleOf(stepper.y(), stepper.films())
  const watch = watchOf(until, take, mesh, start, stepper.films())
  const excessOf = (y: Float64Array, films: Films) => watch!.excess(sampleOf(y, films))
  let now = watch?.excess(start) ?? { excess: Number.POSITIVE_INFINITY, by: endedAtLatestBy }
  let endedBy: StageSpan['endedBy'] = now.excess <= 0 ? now.by : endedAtLatestBy

  while (t < end && now.excess > 0) {
    if (control.stopped?.()) throw new Cancelled()
    const stop = Math.min(end, breaks.find((moment) => moment > t + 1e-9) ?? end)
    const longest = Math.min(stepper.longest(), surround?.longest() ?? Number.POSITIVE_INFINITY)
    if (end - t > MOST_STEPS * longest) {
      const reason = 'a layer is too thin, or conducts too well, for so long a time'
      throw new ComputeError(reason, stage.name, (from + t) / 3600)
    }
    let step = Math.min(dt, resolution.longestStep, longest)
    step = curvedLimit(profiles, t, Math.min(step, stop - t))
    step = (stop - t) / Math.ceil((stop - t) / step - 1e-9)
    const { error_K } = stepper.attempt(step)
    if (!(error_K <= resolution.tolerance_K)) {
      dt = step * Math.max(0.25, Math.min(0.8 * Math.sqrt(resolution.tolerance_K / error_K) || 0.25, 0.9))
      if (dt < SHORTEST_STEP) throw new ComputeError('the steps became too short', stage.name, (from + t) / 3600)
      continue
    }
    if (watch !== undefined) {
      let tried = stepper.tried()
      let next = excessOf(tried.y, tried.films)
      if (next.excess <= 0) {
        endedBy = next.by
        // Land on the moment: shorten the step by the secant until the temperature is there.
        let low = 0
        let high = step
        let excessLow = now.excess
        let excessHigh = next.excess
        for (let pass = 0; pass < 40 && Math.abs(next.excess) > ENDING_K && high - low > 1e-6; pass++) {
          const share = pass % 3 === 2 ? 0.5 : excessLow / (excessLow - excessHigh)
          step = low + Math.min(Math.max(share, 0.02), 0.98) * (high - low)
          stepper.attempt(step)
          tried = stepper.tried()
          next = excessOf(tried.y, tried.films)
          if (next.excess > 0) {
            low = step
            excessLow = next.excess
          } else {
            high = step
            excessHigh = next.excess
            endedBy = next.by
          }
        }
        if (next.excess > 0) {
          // The met side of what is left, so that the stage never ends a hair before its end.
          step = high
          stepper.attempt(step)
          next = { excess: 0, by: endedBy }
        }
      }
      now = next
    }
    through.fill(0)
    const jumped = stepper.accept(through)
    around.book(through)
    if (piece.advance(step) || jumped) begin(t + step)
    progress.steps++
    t = stop - (t + step) < 1e-6 ? stop : t + step
    piece.book(through)
    if (totalSource !== 0) piece.bookSource(totalSource * step)
    if (take.full()) {
      const reason =
        'its course takes more memory than it may: ask for a lower fidelity, or give fewer layers or inserts'
      throw new ComputeError(reason, stage.name, (from + t) / 3600)
    }
    keep(t)
    const grown = 0.8 * Math.sqrt(resolution.tolerance_K / Math.max(error_K, 1e-12))
    dt = step * Math.min(Math.max(grown, 0.5), 2)
    if (t === stop && stop < end) {
      dt = Math.min(dt, resolution.firstStep)
      begin(t)
    }
    report(t / end)
  }
  around.leave()
  progress.time = from + t
  return { name: stage.name, from, to: from + t, endedBy, first, last: progress.kept - 1 }
}
