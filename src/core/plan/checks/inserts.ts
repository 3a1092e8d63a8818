import type { Fault } from '../../errors.ts'
import type { Body, BodyAxis } from '../../geometry/body.ts'
import { SHALLOWEST } from '../../geometry/shapes/half-round.ts'
import { didYouMean } from '../../nearest.ts'
import type { Draft, DraftPlan } from '../draft.ts'
import { faceNamesOf } from '../face-names.ts'
import { marginsOf } from '../margins.ts'
import { type Path, sayPath } from '../path.ts'
import type { PlanInsert } from '../schema/plan.ts'

const fault = (path: Path, problem: string, remedy: string): Fault => ({ path: sayPath(path), problem, remedy })
const shown = (mm: number): number => Math.round(mm * 10) / 10

/** Faces that the shape doesn't have. */
function unknownFaces({ margin_mm }: Draft<PlanInsert>, body: Body, path: Path): Fault[] {
  if (typeof margin_mm !== 'object') return []
  const known = faceNamesOf(body)
  return Object.keys(margin_mm)
    .filter((name) => !known.includes(name))
    .map((name) => fault([...path, 'margin_mm', name], `a ${body.kind} has no such face`, didYouMean(name, known)))
}

/** mm that a fill offers along an axis, and what of it the margins take; undefined where the length isn't known. */
function roomAlong(
  axis: BodyAxis,
  index: number,
  body: Body,
  wall_mm: number,
  depth_mm: number | undefined,
  margins: Readonly<Record<string, number>>,
): { readonly room: number; readonly taken: number } | undefined {
  const margin = (face: string | null): number => (face === null ? 0 : (margins[face] ?? 0))
  const taken = margin(axis.low) + margin(axis.high)
  if (index === body.stackAxis) return depth_mm === undefined ? undefined : { room: depth_mm, taken }
  const lined = Number(axis.linedLow) + Number(axis.linedHigh)
  return { room: axis.length * 1000 - lined * wall_mm, taken }
}

/** Inserts in fills that aren't there, or that leave no room for them. */
export function checkInserts({ plan, body, sized, whole }: DraftPlan): Fault[] {
  const inserts = plan.piece?.inserts ?? []
  if (body === undefined || inserts.length === 0 || !whole(['piece', 'fill'])) return []
  if (body.mixed === true)
    return [fault(['piece', 'inserts'], `nothing lies within a ${body.kind} mass`, 'take them out')]
  const fill = plan.piece?.fill ?? []
  const wall_mm = (plan.piece?.lining ?? []).reduce((sum, layer) => sum + (layer?.thickness_mm ?? 0), 0)
  const given_mm = fill.reduce((sum, layer) => sum + (layer?.thickness_mm ?? 0), 0)
  const rest_mm = body.fit === undefined ? undefined : body.axes[0]!.length * 1000 - wall_mm - given_mm
  const faults: Fault[] = []
  for (const [index, insert] of inserts.entries()) {
    const path: Path = ['piece', 'inserts', index]
    if (insert === undefined || !whole(path)) continue
    const within = insert.within ?? 0
    if (within >= fill.length) {
      faults.push(fault([...path, 'within'], `there is no fill ${within}`, `give 0 to ${fill.length - 1}`))
      continue
    }
    const unknown = unknownFaces(insert, body, path)
    faults.push(...unknown)
    if (unknown.length > 0 || !sized || !whole(['piece', 'lining'])) continue
    const depth_mm = fill[within]?.thickness_mm ?? rest_mm
    const margins = marginsOf(body, insert.margin_mm)
    const tight = body.axes
      .map((axis, at) => roomAlong(axis, at, body, wall_mm, depth_mm, margins))
      .find((room) => room !== undefined && room.taken >= room.room)
    if (tight !== undefined) {
      const remedy = `keep the margins together under ${shown(Math.max(0, tight.room))} mm`
      faults.push(fault([...path, 'margin_mm'], 'leaves no room for the insert', remedy))
      continue
    }
    if (body.tiers !== undefined && tiersAround(body, fill, within) > 1)
      faults.push(fault([...path, 'within'], 'goes through several tiers', 'give each tier a fill of its own'))
    if (body.fit !== undefined && depth_mm !== undefined)
      faults.push(...inHalfRound(body, path, inserts, index, depth_mm - coverOf(body, margins), given_mm, wall_mm))
  }
  return faults
}

/** mm that lie on an insert where layers lie level. */
const coverOf = (body: Body, margins: Readonly<Record<string, number>>): number =>
  margins[body.axes[body.stackAxis!]!.high!] ?? 0

/** In a half-round mould coordinates follow one insert a fill, and its upper side may not lie too deep. */
function inHalfRound(
  body: Body,
  path: Path,
  inserts: readonly (Draft<PlanInsert> | undefined)[],
  index: number,
  depth_mm: number,
  given_mm: number,
  wall_mm: number,
): Fault[] {
  const within = inserts[index]?.within ?? 0
  if (inserts.findIndex((one) => (one?.within ?? 0) === within) < index)
    return [fault([...path, 'within'], 'has an insert already', `give each fill of a ${body.kind} one`)]
  const least_mm = SHALLOWEST * (body.axes[0]!.length * 1000 - wall_mm)
  if (depth_mm >= least_mm || given_mm === 0) return []
  return [
    fault(
      [...path, 'margin_mm'],
      `makes the insert ${shown(depth_mm)} mm deep, too shallow where the mould is round`,
      `leave it ${shown(least_mm)} mm or more`,
    ),
  ]
}

/** How many tiers a fill goes through. */
function tiersAround(
  body: Body,
  fill: readonly (Draft<{ thickness_mm: number }> | undefined)[],
  within: number,
): number {
  const thickness = (layer: Draft<{ thickness_mm: number }> | undefined): number => (layer?.thickness_mm ?? 0) / 1000
  const from = fill.slice(0, within).reduce((sum, layer) => sum + thickness(layer), 0)
  const to = from + thickness(fill[within])
  let base = 0
  return body.tiers!.filter(({ height }, index) => {
    const low = base
    base += height
    const high = index === body.tiers!.length - 1 ? Number.POSITIVE_INFINITY : base
    return low < to - 1e-9 && high > from + 1e-9
  }).length
}
