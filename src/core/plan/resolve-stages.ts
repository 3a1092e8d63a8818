import type { FaceCondition } from '../boundary/face.ts'
import { type Profile, steady } from '../boundary/profile.ts'
import { findSurroundings } from '../boundary/surroundings.ts'
import { type Body, elementaryFaces, type FaceName } from '../geometry/body.ts'
import type { Layer } from '../geometry/layer.ts'
import type { Action, Stage } from '../journey/job.ts'
import { getWall } from '../materials/wall.ts'
import { message } from '../messages.ts'
import { fromMm, toHours } from '../units.ts'
import { type Exchange, exchangeOf, surroundingsOf } from './exchange.ts'
import { facesNamed } from './face-names.ts'
import { type Notes, noteExchanges } from './notes.ts'
import { scheduleStages } from './schedule.ts'
import type { Plan, PlanAction, PlanLayer, PlanStage } from './schema.ts'
import type { Sheet } from './sheath.ts'
import { conditionOf, profileOf } from './stage-faces.ts'
import { facesOf, type Wrapping, wrapped } from './wrapping.ts'

/** Wall material of a board whose thickness alone is given. */
const BOARD = 'plywood'

/** The stages of a plan in SI: what is done at their start, how each face meets the surroundings, when they end. */
export function resolveStages(
  plan: Plan,
  body: Body,
  layerOf: (name: string, layer: PlanLayer) => Layer,
  notes: Notes,
): Stage[] {
  const scheduled = scheduleStages(
    plan.startsAt,
    plan.stages.map((stage) => stage.until),
  )
  let wrapping: Wrapping = { moulded: (plan.piece.mould ?? []).length > 0, covers: new Map() }
  return plan.stages.map((stage, index) => {
    const start = (stage.start ?? []).map((action, at): Action => {
      const before = wrapping
      wrapping = wrapped(wrapping, action, body).wrapping
      if (action.do === 'pour') return { do: 'pour', layer: layerOf(`stages[${index}].start[${at}]`, action) }
      return { do: action.do, title: titleOf(action, facesOf(action, before, body)) }
    })
    const { ending, guarded } = scheduled[index]!
    if (guarded) notes.add(message('guard-default', { stage: stage.name, within_h: toHours(ending.max) }))
    const sheetsOn = (face: FaceName, exchange: Exchange): Sheet[] =>
      sheetsOf(plan, body, wrapping, face, exchange, notes)
    const { faces, exchanges } = facesOfStage(stage, body, sheetsOn)
    noteExchanges(stage, body, exchanges, notes)
    return { name: stage.name, start, faces, air_C: airOf(stage, exchanges), until: ending }
  })
}

function titleOf(action: Exclude<PlanAction, { do: 'pour' }>, faces: readonly FaceName[]): string {
  const where = faces.join(', ')
  if (action.do === 'cover') return `cover ${where} with ${getWall(action.with).title.toLowerCase()}`
  return action.do === 'uncover' ? `uncover ${where}` : 'take out of the mould'
}

function facesOfStage(
  stage: PlanStage,
  body: Body,
  sheetsOn: (face: FaceName, exchange: Exchange) => Sheet[],
): { readonly faces: Record<FaceName, FaceCondition>; readonly exchanges: readonly Exchange[] } {
  const given = surroundingsOf(stage)
  const faces: Record<FaceName, FaceCondition> = {}
  const exchanges = elementaryFaces(body).map((face) => {
    const exchange = exchangeOf(given, body, face)
    faces[face] = conditionOf(body, face, exchange, sheetsOn(face, exchange))
    return exchange
  })
  return { faces, exchanges }
}

/** What lies on a face during a stage, inside out: mould walls, then a cover, then a board. */
function sheetsOf(
  plan: Plan,
  body: Body,
  wrapping: Wrapping,
  face: FaceName,
  exchange: Exchange,
  notes: Notes,
): Sheet[] {
  const walls = wrapping.moulded ? (plan.piece.mould ?? []) : []
  const sheets = walls
    .filter((wall) => facesNamed(body, wall.faces).includes(face))
    .map((wall): Sheet => ({ wall: getWall(wall.material), thickness: fromMm(wall.thickness_mm) }))
  const cover = wrapping.covers.get(face)
  if (cover !== undefined) {
    const wall = getWall(cover.with)
    const thickness = cover.thickness_mm === undefined ? wall.usualThickness! : fromMm(cover.thickness_mm)
    if (cover.thickness_mm === undefined)
      notes.add(message('cover-default', { title: wall.title, thickness_m: thickness }))
    sheets.push({ wall, thickness })
  }
  if (exchange.kind !== 'incomplete' && exchange.board_mm !== undefined) {
    const wall = getWall(BOARD)
    const thickness = fromMm(exchange.board_mm)
    notes.add(message('board-default', { title: wall.title, k_W_mK: wall.k }))
    sheets.push({ wall, thickness })
  }
  return sheets
}

/** The course that stands for "the air" of a stage: that of the whole, else of the first face that has one. */
function airOf(stage: PlanStage, exchanges: readonly Exchange[]): Profile {
  const given = surroundingsOf(stage)
  const base = given.like === undefined ? undefined : findSurroundings(given.like)
  const whole = given.air_C ?? (given.surface_C === undefined ? base?.air_C.typical : given.surface_C)
  if (whole !== undefined) return profileOf(whole)
  for (const exchange of exchanges) {
    if (exchange.kind === 'air' && exchange.h_W_m2K > 0) return profileOf(exchange.air_C)
    if (exchange.kind === 'surface') return profileOf(exchange.surface_C)
  }
  const walls = exchanges.flatMap((exchange) =>
    exchange.kind === 'air' && exchange.radiation ? [exchange.radiation] : [],
  )
  return walls[0] === undefined ? steady(20) : profileOf(walls[0].walls_C, walls[0].shift_K)
}
