import type { FaceCondition } from '../boundary/face.ts'
import type { Profile } from '../boundary/profile.ts'
import type { Control } from '../control.ts'
import { Cancelled, ComputeError } from '../errors.ts'
import type { FaceName } from '../geometry/body.ts'
import type { Layer } from '../geometry/layer.ts'
import { buildMesh, type Mesh } from '../geometry/mesh.ts'
import type { Material } from '../materials/material.ts'
import { prepare } from '../solver/conduction.ts'
import type { Films } from '../solver/film.ts'
import { createStepper, type Stepper } from '../solver/stepper.ts'
import {
  buildThermalTable,
  enthalpyOf,
  placeInTable,
  type ThermalTable,
  temperatureAt,
} from '../solver/thermal-table.ts'
import type { Course, StageSpan } from './course.ts'
import { findExtreme } from './extremes.ts'
import type { Ending, Job, Stage } from './job.ts'
import { facesOf, finishCourse, startTake, type Take } from './record.ts'
import type { Resolution } from './resolution.ts'
import { idleFaces, mirroredAxes } from './symmetry.ts'
import { transfer } from './transfer.ts'

const SHORTEST_STEP = 1e-9
/** A stage that needs more than so many of the longest steps that its cells allow would not end while someone waits. */
const MOST_STEPS = 1e6
/** A stage that ends at a core temperature is met within this, K. */
const ENDING_K = 1e-7
/** Share of its whole range by which a curved air course may leave the straight line within a step. */
const CURVED_SHARE = 0.002

/** Lowest and highest temperature among the causes of a job, °C: nothing in the piece can leave them. */
export function causesOf(job: Job): { readonly range_C: readonly [number, number]; readonly driven: boolean } {
  let low = Number.POSITIVE_INFINITY
  let high = Number.NEGATIVE_INFINITY
  const include = (range: readonly [number, number]): void => {
    low = Math.min(low, range[0])
    high = Math.max(high, range[1])
  }
  const poured = job.stages.flatMap((stage) =>
    stage.start.flatMap((action) => (action.do === 'pour' ? [action.layer] : [])),
  )
  for (const layer of [...job.lining, ...job.fill, ...poured]) include([layer.start_C, layer.start_C])
  let driven = false
  for (const stage of job.stages) {
    if ((stage.source ?? 0) !== 0) driven = true
    for (const condition of Object.values(stage.faces)) {
      if (condition.kind === 'convective') {
        if (condition.h > 0) include(condition.air_C.range)
        if (condition.radiation) include(condition.radiation.walls_C.range)
      }
      if (condition.kind === 'fixed') include(condition.surface_C.range)
      if (condition.kind === 'flux') driven = true
    }
  }
  return { range_C: [low, high], driven }
}

/** Range of the thermal tables: the causes with room to spare, °C. */
function tableRange(job: Job): [number, number] {
  const { range_C, driven } = causesOf(job)
  const [low, high] = range_C
  const room = 0.1 * (high - low) + 5
  // A given heat flow or source has no temperature of its own; allow it a wide range, the solver tests for its end.
  return driven ? [low - room - 100, high + room + 500] : [low - room, high + room]
}

function allLayers(job: Job): Layer[] {
  const poured = job.stages.flatMap((stage) =>
    stage.start.flatMap((action) => (action.do === 'pour' ? [action.layer] : [])),
  )
  return [...job.lining, ...job.fill, ...poured]
}

function curvedLimit(profiles: readonly Profile[], t: number, dt: number): number {
  let limit = dt
  for (const profile of profiles) {
    if (!profile.curved) continue
    const allowed = CURVED_SHARE * (profile.range[1] - profile.range[0])
    for (let halving = 0; halving < 30; halving++) {
      const bend = profile.at(t + limit / 2) - (profile.at(t) + profile.at(t + limit)) / 2
      if (Math.abs(bend) <= allowed) break
      limit /= 2
    }
  }
  return limit
}

function profilesOf(conditions: readonly FaceCondition[]): Profile[] {
  return conditions.flatMap((condition): Profile[] => {
    if (condition.kind === 'fixed') return [condition.surface_C]
    if (condition.kind === 'flux') return [condition.q]
    if (condition.kind === 'insulated') return []
    return condition.radiation ? [condition.air_C, condition.radiation.walls_C] : [condition.air_C]
  })
}

/** Seconds from `time` to the stage's clock end; a time of day that has passed comes again the next day. */
function untilClock({ clock, clockEvery }: Ending, time: number): number {
  if (clock === undefined) return Number.POSITIVE_INFINITY
  if (clock > time || clockEvery === undefined) return Math.max(0, clock - time)
  return clock + (Math.floor((time - clock) / clockEvery) + 1) * clockEvery - time
}

/** Temperature towards which the faces pull, °C: the mean of what is outside, weighted by conductance. */
function pullOf(films: Films): number {
  let sum = 0
  let total = 0
  for (let index = 0; index < films.G.length; index++) {
    sum += films.G[index]! * films.airStart_C[index]!
    total += films.G[index]!
  }
  return total === 0 ? Number.NaN : sum / total
}

/**
 * Computes a journey on one grid: all stages in order, from the layers' start temperatures.
 * Throws `ComputeError` when the fields stop being finite or the steps vanish, `Cancelled` when asked to stop.
 */
export function runOnGrid(job: Job, resolution: Resolution, control: Control = {}): Course {
  const [low_C, high_C] = tableRange(job)
  const layers = allLayers(job)
  const materials = [...new Set(layers.map((layer) => layer.material))]
  const table = buildThermalTable(materials, low_C, high_C)
  const traveller = createTraveller(job, resolution, table, materials)
  const spans: StageSpan[] = []
  for (const [index, stage] of job.stages.entries()) {
    spans.push(
      traveller.live(stage, (share) => control.report?.((index + share) / job.stages.length, stage.name), control),
    )
  }
  return traveller.finish(spans)
}

function createTraveller(job: Job, resolution: Resolution, table: ThermalTable, materials: readonly Material[]) {
  const mirrored = mirroredAxes(job)
  const insulated = idleFaces(job)
  const fill: Layer[] = [...job.fill]
  const partOfMaterial = new Map(materials.map((material, index) => [material, index]))
  const stackLength = allLayers(job)
    .filter((layer) => !job.lining.includes(layer))
    .reduce((sum, layer) => sum + (layer.thickness ?? 0), 0)
  // An axis through whose ends nothing passes counts for nothing: the others get the cells of a simpler body.
  const open = job.body.axes.filter(({ low, high }) => low === null || !(insulated.has(low) && insulated.has(high)))
  const perHalf = resolution.perHalf[Math.min(Math.max(open.length, 1), 3) - 1]!
  const build = (): Mesh =>
    buildMesh(job.body, job.lining, fill, {
      perHalf,
      halved: resolution.halved,
      mirrored,
      insulated,
      stackLength,
    })
  const partsOf = (mesh: Mesh): number[] => mesh.layers.map((layer) => partOfMaterial.get(layer.material)!)

  const bodyFaces = facesOf(job.body)
  const takes: Take[] = []
  let mesh = build()
  let conduction = prepare(mesh, table, partsOf(mesh))
  let time = 0
  let steps = 0
  let moved = 0
  let sourceHeat = 0
  /** J/m³ of every cell, relative to the table. */
  let contentAtStart = 0
  /** Heat through every elementary face of the body so far, J of the modelled section. */
  const heatByFace = new Float64Array(bodyFaces.length)
  let kept = 0

  const startState = (): Float64Array => {
    const y = conduction.allocate()
    for (let cell = 0; cell < mesh.cells; cell++) {
      const start = placeInTable(table, conduction.partOf[cell]!, mesh.layers[mesh.layerOf[cell]!]!.start_C)
      y[conduction.fields.padding + cell] = start
    }
    return y
  }
  const contentOf = (y: Float64Array): number => {
    let sum = 0
    for (let cell = 0; cell < mesh.cells; cell++) {
      const part = table.parts[conduction.partOf[cell]!]!
      sum += mesh.volume[cell]! * enthalpyOf(part, y[conduction.fields.padding + cell]!)
    }
    return sum
  }

  let stepper: Stepper = createStepper(conduction, startState())
  let take = startTake(conduction)
  takes.push(take)
  contentAtStart = contentOf(stepper.y())

  const keep = (stage: Stage, t: number, insulated: ReadonlySet<FaceName>): void => {
    take.keep(stepper.y(), stepper.films(), {
      t: time + t,
      air_C: stage.air_C.at(t),
      sourceHeat,
      through: heatByFace,
      insulated,
    })
    kept++
  }

  const pour = (layer: Layer): void => {
    const oldMesh = mesh
    const oldConduction = conduction
    const oldY = stepper.y()
    fill.push(layer)
    mesh = build()
    conduction = prepare(mesh, table, partsOf(mesh))
    const H = new Float64Array(oldMesh.cells)
    for (let cell = 0; cell < oldMesh.cells; cell++) {
      const part = table.parts[oldConduction.partOf[cell]!]!
      H[cell] = enthalpyOf(part, oldY[oldConduction.fields.padding + cell]!)
    }
    const carried = transfer(oldMesh, mesh, H, () => Number.NaN)
    const y = startState()
    let poured = 0
    for (let cell = 0; cell < mesh.cells; cell++) {
      const part = table.parts[conduction.partOf[cell]!]!
      const i = conduction.fields.padding + cell
      if (Number.isNaN(carried[cell]!)) poured += mesh.volume[cell]! * enthalpyOf(part, y[i]!)
      else y[i] = part.offset + (carried[cell]! - part.enthalpyAtOffset) / part.enthalpyStep
    }
    // The poured layer brings its own heat; what the transfer gained or lost (nothing, but for round-off) stays in the residual.
    contentAtStart += poured
    stepper = createStepper(conduction, y)
    take = startTake(conduction)
    takes.push(take)
  }

  const live = (stage: Stage, report: (share: number) => void, control: Control): StageSpan => {
    for (const action of stage.start) if (action.do === 'pour') pour(action.layer)
    const conditions = conduction.faces.map((face) => stage.faces[face]!)
    const idle = new Set(conduction.faces.filter((face) => stage.faces[face]!.kind === 'insulated'))
    const profiles = profilesOf(conditions)
    const breaks = [...new Set([...profiles, stage.air_C].flatMap((profile) => [...profile.breaks]))].sort(
      (a, b) => a - b,
    )
    const { until } = stage
    const clock = untilClock(until, time)
    const after = until.after ?? Number.POSITIVE_INFINITY
    const end = Math.min(after, clock, until.max)
    const endedAtLatestBy = end === after ? 'after' : end === clock ? 'clock' : 'max'
    const source = stage.source ?? 0
    const totalSource = source * mesh.volume.reduce((sum, volume) => sum + volume, 0)
    const through = new Float64Array(conduction.faces.length)
    const first = kept
    let t = 0
    let dt = resolution.firstStep
    stepper.begin(conditions, source, 0)
    keep(stage, 0, idle)

    const extremeOf = (y: Float64Array, films: Films, sign: 1 | -1): number => {
      const T_C = new Float64Array(mesh.cells)
      for (let cell = 0; cell < mesh.cells; cell++) {
        T_C[cell] = temperatureAt(table, y[conduction.fields.padding + cell]!)
      }
      const sample = { T_C, surface_C: films.surface_C, outside_C: films.airStart_C, insulated: idle }
      return findExtreme(mesh, sample, sign, take.kinks_C).T_C
    }
    /** Whether the piece has to fall to the asked temperature; where parts lie on both sides, the surroundings say. */
    const mustFall = (target: number): boolean => {
      if (extremeOf(stepper.y(), stepper.films(), -1) >= target) return true
      if (extremeOf(stepper.y(), stepper.films(), 1) <= target) return false
      return !(pullOf(stepper.films()) > target)
    }
    const falling = until.core_C !== undefined && mustFall(until.core_C)
    /** Excess of the slowest place over the asked core temperature, K, in the direction of the stage; ≤ 0 is met. */
    const excess = (y: Float64Array, films: Films): number =>
      falling ? extremeOf(y, films, 1) - until.core_C! : until.core_C! - extremeOf(y, films, -1)
    let excessNow = until.core_C === undefined ? Number.POSITIVE_INFINITY : excess(stepper.y(), stepper.films())
    let endedBy: StageSpan['endedBy'] = excessNow <= 0 ? 'core' : endedAtLatestBy

    while (t < end && excessNow > 0) {
      if (control.stopped?.()) throw new Cancelled()
      const stop = Math.min(end, breaks.find((moment) => moment > t + 1e-9) ?? end)
      const longest = stepper.longest()
      if (end - t > MOST_STEPS * longest)
        throw new ComputeError(
          'a layer is too thin, or conducts too well, for so long a time',
          stage.name,
          (time + t) / 3600,
        )
      let step = Math.min(dt, resolution.longestStep, longest)
      step = curvedLimit(profiles, t, Math.min(step, stop - t))
      step = (stop - t) / Math.ceil((stop - t) / step - 1e-9)
      const { error_K } = stepper.attempt(step)
      if (!(error_K <= resolution.tolerance_K)) {
        dt = step * Math.max(0.25, Math.min(0.8 * Math.sqrt(resolution.tolerance_K / error_K) || 0.25, 0.9))
        if (dt < SHORTEST_STEP) throw new ComputeError('the steps became too short', stage.name, (time + t) / 3600)
        continue
      }
      if (until.core_C !== undefined) {
        let tried = stepper.tried()
        let excessTried = excess(tried.y, tried.films)
        if (excessTried <= 0 && excessNow > 0) {
          // Land on the moment: shorten the step by the secant until the core is there.
          let low = 0
          let high = step
          let excessLow = excessNow
          let excessHigh = excessTried
          for (let pass = 0; pass < 40 && Math.abs(excessTried) > ENDING_K && high - low > 1e-6; pass++) {
            const share = pass % 3 === 2 ? 0.5 : excessLow / (excessLow - excessHigh)
            step = low + Math.min(Math.max(share, 0.02), 0.98) * (high - low)
            stepper.attempt(step)
            tried = stepper.tried()
            excessTried = excess(tried.y, tried.films)
            if (excessTried > 0) {
              low = step
              excessLow = excessTried
            } else {
              high = step
              excessHigh = excessTried
            }
          }
          if (excessTried > 0) {
            // The met side of what is left, so that the stage never ends a hair before its end.
            step = high
            stepper.attempt(step)
            excessTried = 0
          }
          endedBy = 'core'
        }
        excessNow = excessTried
      }
      through.fill(0)
      stepper.accept(through)
      steps++
      t = stop - (t + step) < 1e-6 ? stop : t + step
      for (const [index, face] of conduction.faces.entries()) {
        const position = bodyFaces.indexOf(face)
        heatByFace[position] = heatByFace[position]! + through[index]!
        moved += Math.abs(through[index]!)
      }
      sourceHeat += totalSource * step
      moved += Math.abs(totalSource * step)
      keep(stage, t, idle)
      const grown = 0.8 * Math.sqrt(resolution.tolerance_K / Math.max(error_K, 1e-12))
      dt = step * Math.min(Math.max(grown, 0.5), 2)
      if (t === stop && stop < end) {
        dt = Math.min(dt, resolution.firstStep)
        stepper.begin(conditions, source, t)
      }
      report(t / end)
    }
    const span = { name: stage.name, from: time, to: time + t, endedBy, first, last: kept - 1 }
    time += t
    return span
  }

  const finish = (spans: readonly StageSpan[]): Course => {
    const stored = contentOf(stepper.y()) - contentAtStart
    const entered = heatByFace.reduce((sum, heat) => sum + heat, 0) + sourceHeat
    // Nothing moved: the residual is measured against a kelvin of the whole piece's heat capacity instead.
    const scale = Math.max(moved, conduction.mesh.volume.reduce((sum, volume) => sum + volume, 0) * 1e5)
    return finishCourse(takes, spans, { energyResidual: Math.abs(stored - entered) / scale, steps })
  }

  return { live, finish }
}
