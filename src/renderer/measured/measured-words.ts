import type { PlanMaterial, PlanSurroundings } from '../../core/plan/schema/plan.ts'
import type { Show } from '../../core/words/show.ts'

type OfSurroundings = NonNullable<PlanSurroundings['measured']>
type OfMaterial = NonNullable<PlanMaterial['measured']>

/** A face that differs by less is not told by itself. */
const TOLD = 0.02

const times = (name: string, value: number | undefined, within_pct: number | undefined, show: Show): string[] =>
  value === undefined
    ? []
    : [`${name} × ${show.number(value)}${within_pct === undefined ? '' : ` (± ${Math.round(within_pct)} %)`}`]

/** What was measured of surroundings, in few words. */
export function surroundingsMeasured(measured: OfSurroundings, show: Show): string {
  const { film_times, film_within_pct, air_plus_K, air_within_K, power_times, power_within_pct } = measured
  const faces = Object.entries(measured.faces ?? {}).filter(([, face]) => Math.abs(face.times - 1) > TOLD)
  const within = air_within_K === undefined ? '' : ` (± ${show.difference(air_within_K)})`
  const air =
    air_plus_K === undefined || air_plus_K === 0
      ? []
      : [`air ${show.difference(Math.abs(air_plus_K))} ${air_plus_K > 0 ? 'warmer' : 'colder'} than said${within}`]
  const parts = [
    ...times('heat passed', film_times, film_within_pct, show),
    ...faces.flatMap(([name, face]) => times(`on ${name} again`, face.times, face.within_pct, show)),
    ...air,
    ...times('power', power_times, power_within_pct, show),
  ]
  return parts.length === 0 ? 'as taken before' : parts.join(', ')
}

/** What was measured of a material, in few words. */
export function materialMeasured(measured: OfMaterial, show: Show): string {
  const parts = [
    ...times('conducts', measured.k_times, measured.k_within_pct, show),
    ...times('holds heat', measured.heat_times, measured.heat_within_pct, show),
  ]
  return parts.length === 0 ? 'as taken before' : parts.join(', ')
}

/** On what it was measured. */
export const measuredOn = ({ on }: { readonly on?: string }): string => (on === undefined ? '' : `, on “${on}”`)
