import type { Humidity } from '../boundary/psychrometrics.ts'
import { findSurroundings, type Side } from '../boundary/surroundings.ts'
import type { Body, FaceName } from '../geometry/body.ts'
import { facesNamed } from './face-names.ts'
import type { PlanCourse, PlanFace, PlanStage, PlanSurroundings } from './schema/plan.ts'
import { applianceFigures, humidityOf } from './stage-appliance.ts'

/** How a face meets what is around it, with every default decided; units still the plan's. */
export type Exchange =
  | { readonly kind: 'surface'; readonly surface_C: PlanCourse; readonly board_mm?: number; readonly board?: string }
  | {
      readonly kind: 'air'
      readonly h_W_m2K: number
      readonly air_C: PlanCourse
      readonly radiation?: {
        readonly emissivity: number
        readonly walls_C: PlanCourse
        /** How much warmer the walls are than `walls_C` says. */
        readonly shift_K: number
        /** Whether the plan tells the emissivity of the outermost surface. */
        readonly told: boolean
      }
      readonly board_mm?: number
      readonly board?: string
      /** What was not said and therefore taken. */
      readonly assumed: readonly ('emissivity' | 'walls_C')[]
      readonly builtIn: boolean
    }
  /** Film by laws, renewed with the temperatures; or a film of the plan's own in air that is an appliance's. */
  | {
      readonly kind: 'law'
      /** Air and walls that the face meets; absent: the air of the stage's appliance. */
      readonly ambient?: { readonly air_C: PlanCourse; readonly walls_C: PlanCourse; readonly shift_K: number }
      readonly fluid: 'air' | 'water'
      readonly speed_m_s: number
      readonly emissivity: number
      /** Whether the plan tells it. */
      readonly told?: true
      readonly humidity?: Humidity
      /** The plan's own, convection and radiation together; or that of a contact. */
      readonly h_W_m2K?: number
      /** Lies on something solid. */
      readonly contact?: true
      readonly board_mm?: number
      readonly board?: string
      readonly assumed: readonly ('emissivity' | 'walls_C')[]
      readonly builtIn: boolean
    }
  | { readonly kind: 'incomplete'; readonly missing: readonly ('air_C' | 'h_W_m2K')[] }

/** Emissivity of food where the plan gives none: dough, cake and cream 0.85 to 0.95, from memory. */
export const FOOD_EMISSIVITY = 0.9

/** A stage's surroundings as an object, whether it names built-in ones or describes its own. */
export function surroundingsOf(stage: PlanStage): PlanSurroundings {
  return typeof stage.in === 'string' ? { like: stage.in } : stage.in
}

/** Whether a name means this face as such, and no group that happens to hold nothing else. */
const isOwnName = (body: Body, name: string, face: FaceName): boolean =>
  name === face || ((name === 'top' || name === 'bottom') && body.faces[name]?.[0] === face)

/** What a plan says of one elementary face: of all names that mean it, the narrowest counts most. */
function saidOf(given: PlanSurroundings, body: Body, face: FaceName): PlanFace {
  const said = Object.entries(given.faces ?? {})
    .map(([name, what]) => ({ name, what, faces: facesNamed(body, [name]) }))
    .filter(({ faces }) => faces.includes(face))
    .sort(
      (a, b) =>
        b.faces.length - a.faces.length ||
        Number(isOwnName(body, a.name, face)) - Number(isOwnName(body, b.name, face)),
    )
  return said.reduce<PlanFace>((merged, { what }) => narrowedBy(merged, what), {})
}

/** A surface temperature and an exchange with air exclude each other: the narrower one wins whole. */
function narrowedBy(wide: PlanFace, narrow: PlanFace): PlanFace {
  if (narrow.surface_C !== undefined) return { ...boardOf(wide), ...narrow }
  if (!hasAir(narrow)) return { ...wide, ...narrow }
  const { surface_C: _, ...rest } = wide
  return { ...rest, ...narrow }
}

/** The board on a face, where there is one. */
function boardOf({ board_mm, board }: PlanFace): Pick<PlanFace, 'board_mm' | 'board'> {
  return {
    ...(board_mm === undefined ? {} : { board_mm }),
    ...(board === undefined ? {} : { board }),
  }
}

function hasAir(face: PlanFace): boolean {
  return (
    face.h_W_m2K !== undefined ||
    face.air_C !== undefined ||
    face.emissivity !== undefined ||
    face.walls_C !== undefined ||
    face.air_speed_m_s !== undefined
  )
}

/**
 * How an elementary face of the piece exchanges heat in given surroundings.
 * @param body  as it lies, so that names of faces are those of the plan at that moment
 * @param side  whose film coefficient of built-in surroundings the face takes
 */
export function exchangeOf(given: PlanSurroundings, body: Body, face: FaceName, side: Side): Exchange {
  const { faces: _, like, humidity: _humidity, appliance: _appliance, measured: _measured, ...whole } = given
  const base = like === undefined ? undefined : findSurroundings(like)
  const own = saidOf(given, body, face)
  const said = narrowedBy(whole, own)
  const board = boardOf(said)
  if (said.stacked === true) return { kind: 'air', h_W_m2K: 0, air_C: 0, assumed: [], builtIn: false }
  if (said.surface_C !== undefined) return { kind: 'surface', surface_C: said.surface_C, ...board }

  const baseFace = base?.faces[side]
  const air_C = own.air_C ?? baseFace?.air_C?.typical ?? whole.air_C ?? base?.air_C.typical
  const inside = own.air_C === undefined && baseFace?.air_C === undefined && applianceFigures(given) !== undefined
  if (baseFace?.contact === true && said.h_W_m2K === undefined && said.air_speed_m_s === undefined)
    return contactOf(baseFace.h_W_m2K.typical, inside ? undefined : (air_C ?? 0), board)
  const byLaw = said.h_W_m2K === undefined && (base !== undefined || said.air_speed_m_s !== undefined)
  if ((byLaw && (inside || air_C !== undefined)) || (inside && said.h_W_m2K !== undefined && said.h_W_m2K > 0))
    return lawOf(given, said, side, inside ? undefined : (air_C ?? 0), byLaw)
  const h_W_m2K = said.h_W_m2K ?? baseFace?.h_W_m2K.typical
  const airless = h_W_m2K === 0 && (said.walls_C !== undefined || said.emissivity === undefined)
  const missing = [
    air_C === undefined && !airless ? ('air_C' as const) : null,
    h_W_m2K === undefined ? ('h_W_m2K' as const) : null,
  ].filter((key) => key !== null)
  if (h_W_m2K === undefined || missing.length > 0) return { kind: 'incomplete', missing }
  // Built-in figures are of convection alone, so radiation comes with them; a plan's own h counts as both.
  const builtIn = said.h_W_m2K === undefined
  const radiating = builtIn ? base : undefined
  const emissivity = builtIn ? (baseFace?.emissivity ?? base?.emissivity) : undefined
  return {
    kind: 'air',
    h_W_m2K,
    air_C: air_C ?? 0,
    ...radiationOf(said, emissivity, radiating?.walls_minus_air_K, air_C ?? 0),
    ...board,
    builtIn,
  }
}

/** Slowest air that a plan's own surroundings have where it gives no speed, m/s. */
const STILL_AIR = 0.1

/** A contact with something held at a temperature, or with the appliance itself. */
function contactOf(
  h_W_m2K: number,
  air_C: PlanCourse | undefined,
  board: Pick<PlanFace, 'board_mm' | 'board'>,
): Exchange {
  return {
    kind: 'law',
    ...(air_C === undefined ? {} : { ambient: { air_C, walls_C: air_C, shift_K: 0 } }),
    fluid: 'air',
    speed_m_s: 0,
    emissivity: 0,
    h_W_m2K,
    contact: true,
    ...board,
    assumed: [],
    builtIn: true,
  }
}

/** An exchange by laws, or by the plan's own film in an appliance. */
function lawOf(
  given: PlanSurroundings,
  said: PlanFace,
  side: Side,
  air_C: PlanCourse | undefined,
  byLaw: boolean,
): Exchange {
  const base = given.like === undefined ? undefined : findSurroundings(given.like)
  const baseFace = base?.faces[side]
  const ownAir = baseFace?.air_C !== undefined
  const fluid = base?.fluid === 'water' && !ownAir ? 'water' : 'air'
  const usual = baseFace?.emissivity ?? base?.emissivity
  const emissivity = said.emissivity ?? (byLaw ? (usual ?? FOOD_EMISSIVITY) : 0)
  const shift_K = said.walls_C === undefined ? (base?.walls_minus_air_K ?? 0) : 0
  const humidity = ownAir ? undefined : humidityOf(given)
  const assumed = [
    byLaw && said.emissivity === undefined && usual === undefined ? ('emissivity' as const) : null,
    byLaw && said.walls_C === undefined && base === undefined && air_C !== undefined ? ('walls_C' as const) : null,
  ].filter((key) => key !== null)
  return {
    kind: 'law',
    ...(air_C === undefined ? {} : { ambient: { air_C, walls_C: said.walls_C ?? air_C, shift_K } }),
    fluid,
    speed_m_s: said.air_speed_m_s ?? base?.speed_m_s?.typical ?? (fluid === 'water' ? 0 : STILL_AIR),
    emissivity: fluid === 'water' ? 0 : emissivity,
    ...(said.emissivity === undefined ? {} : { told: true as const }),
    ...(humidity === undefined ? {} : { humidity }),
    ...(byLaw || said.h_W_m2K === undefined ? {} : { h_W_m2K: said.h_W_m2K }),
    ...boardOf(said),
    assumed,
    builtIn: base !== undefined && byLaw,
  }
}

type Air = Extract<Exchange, { kind: 'air' }>

function radiationOf(
  said: PlanFace,
  builtInEmissivity: number | undefined,
  builtInShift_K: number | undefined,
  air_C: PlanCourse,
): Pick<Air, 'radiation' | 'assumed'> {
  if (said.emissivity === undefined && said.walls_C === undefined && builtInEmissivity === undefined)
    return { assumed: [] }
  const emissivity = said.emissivity ?? builtInEmissivity ?? FOOD_EMISSIVITY
  if (emissivity === 0) return { assumed: [] }
  const assumed = [
    said.emissivity === undefined && builtInEmissivity === undefined ? ('emissivity' as const) : null,
    said.walls_C === undefined && builtInShift_K === undefined ? ('walls_C' as const) : null,
  ].filter((key) => key !== null)
  const shift_K = said.walls_C === undefined ? (builtInShift_K ?? 0) : 0
  const told = said.emissivity !== undefined
  return { radiation: { emissivity, walls_C: said.walls_C ?? air_C, shift_K, told }, assumed }
}
