import type { Ambient } from '../boundary/ambient.ts'
import type { FaceCondition } from '../boundary/face.ts'
import type { HeldHeat } from '../boundary/held-heat.ts'
import type { Profile } from '../boundary/profile.ts'
import { elementaryFaces, type FaceName } from '../geometry/body.ts'
import type { Action, Job } from './job.ts'

function sameProfile(a: Profile, b: Profile): boolean {
  if (a === b) return true
  if (a.curved || b.curved || a.breaks.length !== b.breaks.length) return false
  // Straight between breaks: equal at every break and on both sides of it means equal everywhere.
  const moments = [0, ...a.breaks].flatMap((t) => [t, Math.max(0, t - 1e-6)])
  const beyond = (a.breaks.at(-1) ?? 0) + 3600
  return a.breaks.every((t, i) => t === b.breaks[i]) && [...moments, beyond].every((t) => a.at(t) === b.at(t))
}

function sameAmbient(a: Ambient | undefined, b: Ambient | undefined): boolean {
  if (a === undefined || b === undefined) return a === b
  const humid = JSON.stringify(a.humidity) === JSON.stringify(b.humidity)
  return humid && sameProfile(a.air_C, b.air_C) && sameProfile(a.walls_C, b.walls_C)
}

const resistanceOf = ({ resistances }: { readonly resistances: readonly { readonly R: number }[] }): number =>
  resistances.reduce((total, layer) => total + layer.R, 0)

const sameHeld = (a: HeldHeat | undefined, b: HeldHeat | undefined): boolean =>
  a === b || JSON.stringify(a) === JSON.stringify(b)

/** Whether two faces meet the same in a stage. */
export function sameCondition(a: FaceCondition, b: FaceCondition): boolean {
  if (a === b) return true
  if (a.kind === 'insulated') return b.kind === 'insulated'
  if (a.kind === 'fixed') return b.kind === 'fixed' && sameProfile(a.surface_C, b.surface_C)
  if (a.kind === 'flux') return b.kind === 'flux' && sameProfile(a.q, b.q)
  if (a.kind === 'law') {
    if (b.kind !== 'law' || a.key !== b.key || a.open !== b.open) return false
    const alike = a.emissivity === b.emissivity && a.spread === b.spread && resistanceOf(a) === resistanceOf(b)
    return alike && sameHeld(a.held, b.held) && sameAmbient(a.ambient, b.ambient)
  }
  if (b.kind !== 'convective') return false
  const radiates =
    a.radiation === undefined || b.radiation === undefined
      ? a.radiation === b.radiation
      : a.radiation.emissivity === b.radiation.emissivity && sameProfile(a.radiation.walls_C, b.radiation.walls_C)
  return a.h === b.h && resistanceOf(a) === resistanceOf(b) && radiates && sameProfile(a.air_C, b.air_C)
}

/** Whether an action leaves both halves of an axis alike. */
function keepsHalves(job: Job, action: Action, axis: number): boolean {
  const { low, high } = job.body.axes[axis]!
  switch (action.do) {
    case 'pour':
      return job.body.stackAxis !== axis
    case 'coat':
      return action.faces.includes(low!) === action.faces.includes(high!)
    case 'cut':
      return action.keep.every((keep) => keep.axis !== axis || Math.abs(keep.low + keep.high - 1) < 1e-9)
    case 'turn':
    case 'cover':
    case 'uncover':
    case 'unmould':
    case 'move':
      return true
  }
}

/** For every axis of the body: whether both of its halves go through the same course, so that one is enough. */
export function mirroredAxes(job: Job): boolean[] {
  const actions = job.stages.flatMap((stage) => stage.start)
  return job.body.axes.map(({ low, high, idle, radial, linedLow, linedHigh }, axis) => {
    const kept = actions.every((action) => keepsHalves(job, action, axis))
    // Nothing varies along an idle axis until it is cut; then both new faces are alike.
    if (idle === true) return kept
    if (low === null || high === null || radial === true) return false
    const alike = job.stages.every(({ faces }) => {
      const [one, other] = [faces[low], faces[high]]
      // A face that was cut away is missing.
      return one === undefined || other === undefined ? one === other : sameCondition(one, other)
    })
    const lined = linedLow === linedHigh || job.lining.length === 0
    const stacked = job.body.stackAxis === axis && (job.fill.length > 1 || job.body.tiers !== undefined)
    const centred = (job.inserts ?? []).every(({ margins }) => (margins[low] ?? 0) === (margins[high] ?? 0))
    return alike && lined && kept && !stacked && centred
  })
}

/** Faces through which nothing passes in any stage. */
export function idleFaces(job: Job): Set<FaceName> {
  return new Set(
    elementaryFaces(job.body).filter((name) =>
      job.stages.every(({ faces }) => (faces[name]?.kind ?? 'insulated') === 'insulated'),
    ),
  )
}
