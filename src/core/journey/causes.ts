import { vapourOf } from '../boundary/ambient.ts'
import { applianceRange } from '../boundary/appliance.ts'
import type { FaceCondition } from '../boundary/face.ts'
import type { Profile } from '../boundary/profile.ts'
import { dewPoint, type Humidity } from '../boundary/psychrometrics.ts'
import { type Job, layersOfJob } from './job.ts'

/** Share of its whole range by which a curved air course may leave the straight line within a step. */
const CURVED_SHARE = 0.002

/** Coldest that evaporation is taken to make a surface, °C. */
const DRIEST_C = -45

/** Lowest and highest temperature among the causes of a job, °C: nothing in the piece can leave them. */
export function causesOf(job: Job): { readonly range_C: readonly [number, number]; readonly driven: boolean } {
  let low = Number.POSITIVE_INFINITY
  let high = Number.NEGATIVE_INFINITY
  const include = (range: readonly [number, number]): void => {
    low = Math.min(low, range[0])
    high = Math.max(high, range[1])
  }
  for (const { material, start_C } of layersOfJob(job)) if (material.empty !== true) include([start_C, start_C])
  let driven = false
  /** What evaporates cools a surface below its air, down to the dew point at the least. */
  const includeAir = (range: readonly [number, number], humidity: Humidity | undefined): void => {
    include(range)
    if (humidity === undefined) return
    const dew_C = Math.max(DRIEST_C, dewPoint(vapourOf(humidity, range[0])))
    include([dew_C, dew_C])
  }
  for (const stage of job.stages) {
    if (stage.appliance !== undefined) includeAir(applianceRange(stage.appliance), stage.appliance.humidity)
    if ((stage.source ?? 0) !== 0) driven = true
    for (const condition of Object.values(stage.faces)) {
      if (condition.kind === 'convective') {
        if (condition.h > 0) include(condition.air_C.range)
        if (condition.radiation) include(condition.radiation.walls_C.range)
      }
      if (condition.kind === 'fixed') include(condition.surface_C.range)
      if (condition.kind === 'flux') driven = true
      if (condition.kind === 'law')
        for (const { start_C } of condition.held?.nodes ?? []) if (start_C !== undefined) include([start_C, start_C])
      if (condition.kind === 'law' && condition.ambient !== undefined) {
        includeAir(condition.ambient.air_C.range, condition.ambient.humidity)
        include(condition.ambient.walls_C.range)
      }
    }
  }
  return { range_C: [low, high], driven }
}

/** Range of the thermal tables: the causes with room to spare, °C. */
export function tableRange(job: Job): [number, number] {
  if (job.tables_C !== undefined) return [...job.tables_C]
  const { range_C, driven } = causesOf(job)
  const [low, high] = range_C
  const room = 0.1 * (high - low) + 5
  // A given heat flow or source has no temperature of its own; allow it a wide range, the solver tests for its end.
  return driven ? [low - room - 100, high + room + 500] : [low - room, high + room]
}

/** Courses in time of the given conditions. */
export function profilesOf(conditions: readonly FaceCondition[]): Profile[] {
  return conditions.flatMap((condition): Profile[] => {
    if (condition.kind === 'fixed') return [condition.surface_C]
    if (condition.kind === 'flux') return [condition.q]
    if (condition.kind === 'insulated') return []
    if (condition.kind === 'law')
      return condition.ambient === undefined ? [] : [condition.ambient.air_C, condition.ambient.walls_C]
    return condition.radiation ? [condition.air_C, condition.radiation.walls_C] : [condition.air_C]
  })
}

/** Longest step from `t`, up to `dt`, within which no curved course leaves the straight line much, s. */
export function curvedLimit(profiles: readonly Profile[], t: number, dt: number): number {
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
