import type { FaceCondition } from '../boundary/face.ts'
import type { Gap } from '../boundary/gap.ts'
import { type Profile, steady } from '../boundary/profile.ts'
import { findSurroundings } from '../boundary/surroundings.ts'
import { type Body, elementaryFaces, type FaceName, isLong } from '../geometry/body.ts'
import type { Layer } from '../geometry/layer.ts'
import type { Action, Ending, Stage } from '../journey/job.ts'
import { getWall, type Wall } from '../materials/wall.ts'
import { message } from '../messages.ts'
import type { Target } from '../outcomes/target.ts'
import { isWaitedFor, metFrom } from '../outcomes/targets/index.ts'
import { fromMm, toHours } from '../units.ts'
import { type Exchange, exchangeOf, FOOD_EMISSIVITY, surroundingsOf } from './exchange.ts'
import { facesNamed } from './face-names.ts'
import { laysOn } from './laying.ts'
import { asMeasured } from './measured.ts'
import { type Notes, noteAppliance, noteExchanges } from './notes.ts'
import { resolveAction } from './resolve-actions.ts'
import { scheduleStages } from './schedule.ts'
import type { Plan, PlanLayer, PlanStage } from './schema/plan.ts'
import type { Sheet } from './sheath.ts'
import { type InAppliance, stageAppliance } from './stage-appliance.ts'
import { conditionOf, profileOf } from './stage-faces.ts'
import { unrolled } from './unrolled.ts'
import { type WallHeat, wallHeat } from './wall-heat.ts'
import { bodyAs, type StandOn, sideAs, startWrapping, type Wrapping, wrapped } from './wrapping.ts'

/** Wall material of a board whose thickness alone is given. */
const BOARD = 'plywood'
/** What the piece is put on, where the plan tells no more. Common practice, no source. */
const bases: Readonly<Partial<Record<StandOn, { readonly wall: string; readonly thickness_mm: number }>>> = {
  board: { wall: BOARD, thickness_mm: 18 },
  tray: { wall: 'stainless', thickness_mm: 1 },
}
/** Of boards and lids that are laid on or under the piece, where the plan gives none, °C: of the room. */
const LAID_C = 20

/**
 * The stages of a plan in SI, repeated ones as often as they are done: what is done at their start, how each face
 * meets the surroundings, when they end.
 */
export function resolveStages(
  plan: Plan,
  body: Body,
  layers: readonly Layer[],
  layerOf: (name: string, layer: PlanLayer) => Layer,
  targets: readonly Target[],
  notes: Notes,
): Stage[] {
  const rounds = unrolled(plan.stages)
  const scheduled = scheduleStages(
    plan.startsAt,
    rounds.map(({ stage }) => untilOf(plan, stage)),
    plan.clock_changes,
  )
  const shortest = Math.min(...scheduled.map(({ ending }) => Math.min(ending.max, ending.after ?? ending.max)))
  const heat = wallHeat(body, layers, shortest)
  let wrapping: Wrapping = startWrapping((plan.piece.mould ?? []).length > 0)
  let height = heightOf(plan, body)
  let inside: InAppliance | undefined
  return rounds.map(({ stage, index, round }, position) => {
    const again = round === 1 ? '' : ` (${round})`
    const start = (stage.start ?? []).map((action, at): Action => {
      const name = `stages[${index}].start[${at}]${again}`
      const resolved = resolveAction(action, { body, stage, name, wrapping, layerOf, notes })
      if (action.do === 'unmould') noteMouldGoes(plan, body, stage, heat, notes)
      wrapping = wrapped(wrapping, action, body).wrapping
      if (laysOn(action)) height += fromMm(action.thickness_mm)
      return resolved
    })
    const { ending, guarded } = scheduled[position]!
    if (guarded) notes.add(message('guard-default', { stage: stage.name, within_h: toHours(ending.max) }))
    const lying = bodyAs(body, wrapping)
    const { faces, exchanges } = facesOfStage(stage, lying, wrapping, height, (face, exchange) =>
      sheetsOf({ plan, body, lying, wrapping, height, heat, notes }, face, exchange),
    )
    noteExchanges(stage, lying, exchanges, notes)
    const opened = (stage.start ?? []).filter((action) => action.do === 'open-door')
    inside = stageAppliance(surroundingsOf(stage), inside, opened)
    if (inside !== undefined) noteAppliance(stage, inside, notes)
    const measured = asMeasured(surroundingsOf(stage).measured, lying)
    return {
      name: `${stage.name}${again}`,
      start,
      faces: measured.faces(faces),
      air_C: measured.air(airOf(stage, exchanges)),
      ...(inside === undefined
        ? {}
        : { appliance: measured.appliance(inside.stage), applianceFigures: inside.figures }),
      until: { ...ending, ...temperatureEnds(plan, stage), ...metEnd(stage, targets) },
      ...(stage.power_W === undefined ? {} : { source: stage.power_W / volumeOf(body) }),
    }
  })
}

/** The end of a stage that waits for what no temperature tells. */
function metEnd({ until: { target: kind } }: PlanStage, targets: readonly Target[]): Partial<Ending> {
  const target = targets.find((one) => one.kind === kind && isWaitedFor(one.kind))
  return target === undefined ? {} : { met: (course, from) => metFrom(target, course, from) }
}

/** A stage's end with a target's core temperature in place of the target. */
function untilOf({ targets }: Plan, { until }: PlanStage): PlanStage['until'] {
  if (until.target === undefined || isWaitedFor(until.target)) return until
  const { target, ...rest } = until
  const core_C = targets?.find(({ kind, ...asked }) => kind === target && 'core_C' in asked)
  return core_C === undefined || !('core_C' in core_C) ? rest : { ...rest, core_C: core_C.core_C }
}

function temperatureEnds({ probes }: Plan, { until }: PlanStage): Partial<Ending> {
  const { surface_C, mean_C, probe } = until
  const asked = probe === undefined ? undefined : probes?.find(({ name }) => name === probe.name)
  const { x = 0.5, y = 0.5, z = 0.5 } = asked ?? {}
  return {
    ...(surface_C === undefined ? {} : { surface_C }),
    ...(mean_C === undefined ? {} : { mean_C }),
    ...(probe === undefined || asked === undefined ? {} : { place: { place: { x, y, z }, T_C: probe.C } }),
  }
}

/** Height of a piece at the start, m: that of its layers, or of its shape. */
function heightOf({ piece }: Plan, body: Body): number {
  const layers = [...(piece.lining ?? []), ...piece.fill]
  const stacked = layers.reduce((sum, { thickness_mm = 0 }) => sum + fromMm(thickness_mm), 0)
  const shaped = body.stackAxis === null || body.fit !== undefined ? (body.axes[0]?.length ?? 0) : 0
  const own = body.axes.find((axis, index) => axis.carries === 'y' && index !== body.stackAxis)?.length ?? 0
  return Math.max(stacked, shaped, own)
}

/** Volume of a body whose shape gives all its sizes, m³. */
function volumeOf({ coordinates, axes }: Body): number {
  return coordinates.volume({
    low: axes.map(({ from = 0 }) => from),
    high: axes.map(({ from = 0, length }) => from + length),
  })
}

function facesOfStage(
  stage: PlanStage,
  lying: Body,
  wrapping: Wrapping,
  height: number,
  sheetsOn: (face: FaceName, exchange: Exchange) => Sheet[],
): { readonly faces: Record<FaceName, FaceCondition>; readonly exchanges: readonly Exchange[] } {
  const given = surroundingsOf(stage)
  const faces: Record<FaceName, FaceCondition> = {}
  const exchanges = elementaryFaces(lying).flatMap((face) => {
    const side = sideAs(lying, face, wrapping)
    const rack = side === 'bottom' && wrapping.stand?.on === 'rack'
    // A rack holds the piece off whatever lies below.
    const exchange = exchangeOf(given, lying, face, rack ? 'sides' : side)
    // Ends that nobody speaks of: what the checks let pass is left out of the model.
    if (exchange.kind === 'incomplete' && isLong(lying, face)) return []
    faces[face] = conditionOf(lying, face, exchange, sheetsOn(face, exchange), { side, height, rack })
    return [exchange]
  })
  return { faces, exchanges }
}

interface Covered {
  readonly plan: Plan
  readonly body: Body
  readonly lying: Body
  readonly wrapping: Wrapping
  readonly height: number
  readonly heat: WallHeat
  readonly notes: Notes
}

/** A layer whose heat is followed where it counts. */
function holding(
  { heat }: Covered,
  face: FaceName,
  { wall, thickness }: Pick<Sheet, 'wall' | 'thickness'>,
  layer: string,
  start_C?: number,
): Pick<Sheet, 'holds'> {
  if (!heat.counts(wall, thickness, face)) return {}
  return { holds: { layer, ...(start_C === undefined ? {} : { start_C }) } }
}

/** What lies on a face during a stage, inside out: mould walls, then a cover, then a board. */
function sheetsOf(covered: Covered, face: FaceName, exchange: Exchange): Sheet[] {
  const { plan, body, lying, wrapping, height, heat, notes } = covered
  const walls = wrapping.moulded ? (plan.piece.mould ?? []) : []
  const sheets = walls.flatMap((own, index): Sheet[] => {
    if (!facesNamed(body, own.faces).includes(face)) return []
    const sheet = { wall: getWall(own.material), thickness: fromMm(own.thickness_mm) }
    const holds = holding(covered, face, sheet, `mould[${index}]`, own.start_C ?? heat.mould_C)
    if (holds.holds !== undefined && own.start_C === undefined)
      notes.add(message('mould-start-default', { title: sheet.wall.title, start_C: heat.mould_C }))
    return [{ ...sheet, ...holds, ...(own.emissivity === undefined ? {} : { emissivity: own.emissivity }) }]
  })
  const cover = wrapping.covers.get(face)
  if (cover !== undefined) {
    const wall = getWall(cover.with)
    const thickness = cover.thickness_mm === undefined ? wall.usualThickness! : fromMm(cover.thickness_mm)
    if (cover.thickness_mm === undefined)
      notes.add(message('cover-default', { title: wall.title, thickness_m: thickness }))
    const holds = holding(covered, face, { wall, thickness }, `cover ${cover.with}`, cover.start_C ?? LAID_C)
    sheets.push({ wall, thickness, ...holds, ...gapOf(lying, face, cover.gap_mm, wall, height) })
  }
  const stand = lying.faces.bottom?.includes(face) === true ? wrapping.stand : null
  const under = stand === null ? undefined : bases[stand.on]
  const own_mm = exchange.kind === 'incomplete' ? undefined : exchange.board_mm
  const board_mm = own_mm ?? (under === undefined ? undefined : (stand?.board_mm ?? under.thickness_mm))
  if (board_mm !== undefined) {
    const said = exchange.kind === 'incomplete' ? undefined : (exchange.board ?? stand?.board)
    const wall = getWall(said ?? under?.wall ?? BOARD)
    const thickness = fromMm(board_mm)
    if (said === undefined) notes.add(message('board-default', { title: wall.title, k_W_mK: wall.k }))
    // A board of the surroundings is as cold as they are; one that comes with the piece is not.
    const start_C = own_mm === undefined ? (stand?.start_C ?? LAID_C) : undefined
    sheets.push({ wall, thickness, ...holding(covered, face, { wall, thickness }, 'board', start_C) })
  }
  return sheets
}

/** A mould that goes takes what it holds along. */
function noteMouldGoes(plan: Plan, body: Body, stage: PlanStage, heat: WallHeat, notes: Notes): void {
  for (const { material, thickness_mm, faces } of plan.piece.mould ?? []) {
    const wall = getWall(material)
    const thickness = fromMm(thickness_mm)
    if (facesNamed(body, faces).some((face) => heat.counts(wall, thickness, face)))
      notes.add(
        message('mould-goes', {
          stage: stage.name,
          title: wall.title,
          heat_kJ_m2K: (wall.rho * wall.c * thickness) / 1000,
        }),
      )
  }
}

/** The air between a face and its lid; nothing where it touches. */
function gapOf(
  lying: Body,
  face: FaceName,
  gap_mm: number | undefined,
  wall: Wall,
  height: number,
): { readonly gap?: Gap } {
  if (gap_mm === undefined) return {}
  const above = lying.faces.bottom?.includes(face) !== true
  const level = lying.faces.top?.includes(face) === true || !above
  const common = { thickness: fromMm(gap_mm), above, emissivities: [FOOD_EMISSIVITY, wall.emissivity] as const }
  return { gap: level ? common : { ...common, height } }
}

/** The course that stands for "the air" of a stage: that of the whole, else of the first face that has one. */
function airOf(stage: PlanStage, exchanges: readonly Exchange[]): Profile {
  const given = surroundingsOf(stage)
  const base = given.like === undefined ? undefined : findSurroundings(given.like)
  const whole = given.air_C ?? (given.surface_C === undefined ? base?.air_C.typical : given.surface_C)
  if (whole !== undefined) return profileOf(whole)
  for (const exchange of exchanges) {
    if (exchange.kind === 'air' && exchange.h_W_m2K > 0) return profileOf(exchange.air_C)
    if (exchange.kind === 'law' && exchange.ambient !== undefined) return profileOf(exchange.ambient.air_C)
    if (exchange.kind === 'surface') return profileOf(exchange.surface_C)
  }
  const walls = exchanges.flatMap((exchange) =>
    exchange.kind === 'air' && exchange.radiation ? [exchange.radiation] : [],
  )
  return walls[0] === undefined ? steady(20) : profileOf(walls[0].walls_C, walls[0].shift_K)
}
