import type { StageAppliance } from '../boundary/appliance.ts'
import { type ApplianceFigures, applianceOf, figuresOfFile } from '../boundary/appliance-figures.ts'
import type { Humidity } from '../boundary/psychrometrics.ts'
import { findSurroundings } from '../boundary/surroundings.ts'
import { fromHours } from '../units.ts'
import type { PlanAction, PlanAppliance, PlanSurroundings } from './schema/plan.ts'

/* The appliance of a stage: that of built-in surroundings with what the plan says over it. */

/** Heat through an open door, W/K, where a plan doesn't say (assumed: a cabinet's air goes several times a minute). */
const DOOR_W_K = { cold: 20, oven: 3, bath: 0 } as const
/** Other goods as blocks of this density [kg/m³] in air with this film [W/(m² K)] (assumed). */
const GOODS_DENSITY = 600
const GOODS_FILM = 6

/** A stage's appliance with what it is judged by. */
export interface InAppliance {
  readonly figures: ApplianceFigures
  readonly stage: StageAppliance
}

type Goods = NonNullable<PlanAppliance['goods']>

function goodsOf({ mass_kg, c_kJ_kgK, W_K }: Goods, set_C: number): NonNullable<ApplianceFigures['goods']> {
  const c = 1000 * (c_kJ_kgK ?? (set_C < 0 ? 2 : 3.5))
  const area = 6 * (mass_kg / GOODS_DENSITY) ** (2 / 3)
  return { heat: mass_kg * c, film: W_K ?? GOODS_FILM * area }
}

/** What the plan says of an appliance, in the units of the core. */
function figuresSaid(said: PlanAppliance, kind: ApplianceFigures['kind'], set_C: number): Partial<ApplianceFigures> {
  const kilo = (value: number | undefined): number | undefined => (value === undefined ? undefined : 1000 * value)
  const openings = said.door?.map(({ at_h, minutes, W_K }) => ({
    from: fromHours(at_h),
    to: fromHours(at_h) + 60 * minutes,
    conductance: W_K ?? DOOR_W_K[kind],
  }))
  const figures = {
    name: said.name,
    start_C: said.start_C,
    room_C: said.room_C,
    capacity: said.capacity_W,
    rated_C: said.rated_C ?? (said.capacity_W === undefined ? undefined : set_C),
    slope: said.slope_pct_K === undefined ? undefined : said.slope_pct_K / 100,
    heater: said.heater_W,
    UA: said.UA_W_K,
    fan: said.fan_W,
    liner: kilo(said.liner_kJ_K),
    linerFilm: said.liner_W_K,
    cavity: kilo(said.cavity_kJ_K),
    shell: kilo(said.shell_kJ_K),
    water: said.water_kg,
    ice: said.ice_kg,
    off: said.off,
    band: said.thermostat_K,
    goods: said.goods === undefined ? undefined : goodsOf(said.goods, set_C),
    openings,
    limit_C: said.limit_C,
    rating_kg_24h: said.rating_kg_24h,
    pieces: said.pieces,
    powerTold: said.capacity_W !== undefined || said.heater_W !== undefined || undefined,
  }
  return Object.fromEntries(Object.entries(figures).filter(([, value]) => value !== undefined))
}

/** Humidity of a stage's air: the plan's, else that of built-in surroundings. */
export function humidityOf(given: PlanSurroundings): Humidity | undefined {
  const { humidity } = given
  if (humidity !== undefined) return 'kg_kg' in humidity ? humidity : { relative: humidity.relative_pct / 100 }
  return given.like === undefined ? undefined : findSurroundings(given.like)?.humidity
}

/**
 * Figures of the appliance that surroundings mean; undefined where their air is simply given: because the plan says so,
 * gives its course, or nothing tells of an appliance.
 */
export function applianceFigures(given: PlanSurroundings): ApplianceFigures | undefined {
  const { appliance: said, like, air_C } = given
  const base = like === undefined ? undefined : findSurroundings(like)
  if (said === false || Array.isArray(air_C)) return undefined
  if (said === undefined && (base?.appliance === undefined || given.surface_C !== undefined)) return undefined
  const file = base?.appliance === undefined ? undefined : figuresOfFile(base.appliance)
  const usual = typeof base?.air_C.typical === 'number' ? base.air_C.typical : undefined
  const set_C = said?.set_C ?? (typeof air_C === 'number' ? air_C : undefined) ?? file?.set_C ?? usual
  const kind = said?.kind ?? file?.kind
  if (set_C === undefined || kind === undefined) return undefined
  const named = { name: like ?? kind, title: base?.title ?? 'Appliance', kind }
  return { ...named, ...file, kind, set_C, ...figuresSaid(said ?? {}, kind, set_C) }
}

/** How often and how long its door is opened at the very start. */
export type DoorOpened = Extract<PlanAction, { do: 'open-door' }>

/** Openings one after the other from the start of the stage on, before those that its appliance tells of. */
function withOpenings(figures: ApplianceFigures, opened: readonly DoorOpened[]): ApplianceFigures {
  if (opened.length === 0) return figures
  let from = 0
  const first = opened.map(({ minutes, W_K }) => {
    const opening = { from, to: from + 60 * minutes, conductance: W_K ?? DOOR_W_K[figures.kind] }
    from = opening.to
    return opening
  })
  const others = (figures.openings ?? []).flatMap((one) =>
    one.to <= from ? [] : [{ ...one, from: Math.max(one.from, from) }],
  )
  return { ...figures, openings: [...first, ...others] }
}

/**
 * The appliance of a stage.
 * @param before  of the stage before: an oven that is only switched off is the same one
 * @param opened  what the plan does with its door at the stage's start
 */
export function stageAppliance(
  given: PlanSurroundings,
  before: InAppliance | undefined,
  opened: readonly DoorOpened[] = [],
): InAppliance | undefined {
  const own = applianceFigures(given)
  if (own === undefined) return undefined
  const same =
    own.off === true && own.kind === 'oven' && before?.figures.kind === 'oven' && given.appliance === undefined
  const plain: ApplianceFigures = same
    ? { ...before.figures, off: true, openings: [], ...(own.door === undefined ? {} : { door: own.door }) }
    : own
  const figures = withOpenings(plain, opened)
  const base = given.like === undefined ? undefined : findSurroundings(given.like)
  const humidity = humidityOf(given)
  return {
    figures,
    stage: {
      appliance: applianceOf(figures),
      wallsShift_K: figures.kind === 'oven' ? (base?.walls_minus_air_K ?? 0) : 0,
      vapour: figures.kind === 'cold' ? 'coil' : 'leaves',
      ...(humidity === undefined ? {} : { humidity }),
      ...(figures.start_C === undefined ? {} : { start_C: figures.start_C }),
      ...(figures.pieces === undefined ? {} : { pieces: figures.pieces }),
    },
  }
}
