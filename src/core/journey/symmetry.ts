import type { FaceCondition } from '../boundary/face.ts'
import type { Profile } from '../boundary/profile.ts'
import type { FaceName } from '../geometry/body.ts'
import type { Job } from './job.ts'

function sameProfile(a: Profile, b: Profile): boolean {
  if (a === b) return true
  if (a.curved || b.curved || a.breaks.length !== b.breaks.length) return false
  // Straight between breaks: equal at every break and on both sides of it means equal everywhere.
  const moments = [0, ...a.breaks].flatMap((t) => [t, Math.max(0, t - 1e-6)])
  const beyond = (a.breaks.at(-1) ?? 0) + 3600
  return a.breaks.every((t, i) => t === b.breaks[i]) && [...moments, beyond].every((t) => a.at(t) === b.at(t))
}

function sameCondition(a: FaceCondition, b: FaceCondition): boolean {
  if (a === b) return true
  if (a.kind === 'insulated') return b.kind === 'insulated'
  if (a.kind === 'fixed') return b.kind === 'fixed' && sameProfile(a.surface_C, b.surface_C)
  if (a.kind === 'flux') return b.kind === 'flux' && sameProfile(a.q, b.q)
  if (b.kind !== 'convective') return false
  const sum = (condition: typeof a): number => condition.resistances.reduce((total, layer) => total + layer.R, 0)
  const radiates =
    a.radiation === undefined || b.radiation === undefined
      ? a.radiation === b.radiation
      : a.radiation.emissivity === b.radiation.emissivity && sameProfile(a.radiation.walls_C, b.radiation.walls_C)
  return a.h === b.h && sum(a) === sum(b) && radiates && sameProfile(a.air_C, b.air_C)
}

/** For every axis of the body: whether both of its halves go through the same course, so that one is enough. */
export function mirroredAxes(job: Job): boolean[] {
  const poured = job.stages.some((stage) => stage.start.some((action) => action.do === 'pour'))
  return job.body.axes.map((axis, index) => {
    if (axis.low === null) return false
    const low = axis.low
    const alike = job.stages.every((stage) => sameCondition(stage.faces[low]!, stage.faces[axis.high]!))
    const lined = axis.linedLow === axis.linedHigh || job.lining.length === 0
    const stacked = job.body.stackAxis === index && (poured || job.fill.length > 1)
    return alike && lined && !stacked
  })
}

/** Faces through which nothing passes in any stage. */
export function idleFaces(job: Job): Set<FaceName> {
  const names = Object.keys(job.stages[0]?.faces ?? {})
  return new Set(names.filter((name) => job.stages.every((stage) => stage.faces[name]!.kind === 'insulated')))
}
