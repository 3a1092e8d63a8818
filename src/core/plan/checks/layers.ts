import type { Fault } from '../../errors.ts'
import { SHALLOWEST } from '../../geometry/shapes/half-round.ts'
import { shapeFaults } from '../../geometry/shapes/index.ts'
import { findMaterialFaults } from '../../materials/material-from-plan.ts'
import { fromMm } from '../../units.ts'
import type { DraftPlan } from '../draft.ts'
import { type Path, sayPath } from '../path.ts'
import type { PlanMaterial, PlanShape } from '../schema/plan.ts'

const fault = (path: Path, problem: string, remedy: string): Fault => ({ path: sayPath(path), problem, remedy })

/** Thicknesses that are missing, too many or too great for the shape. */
export function checkLayers(draft: DraftPlan): Fault[] {
  const { plan, body, whole } = draft
  const fill = plan.piece?.fill ?? []
  const lining = plan.piece?.lining ?? []
  const faults = lining.flatMap((layer, index) =>
    layer !== undefined && layer.thickness_mm === undefined && whole(['piece', 'lining', index, 'thickness_mm'])
      ? [fault(['piece', 'lining', index, 'thickness_mm'], 'is missing', 'give the thickness of the lining in mm')]
      : [],
  )
  if (body === undefined) return faults
  if (body.mixed && lining.length > 0)
    faults.push(fault(['piece', 'lining'], `a ${body.kind} mass has no lining`, 'give one fill alone'))
  if (body.fit !== undefined) return [...faults, ...checkLevels(draft), ...checkRoom(draft)]
  const stacks = body.stackAxis !== null
  if (!stacks && fill.length > 1)
    faults.push(
      fault(['piece', 'fill'], `has ${fill.length} layers, a ${body.kind} holds one`, 'make the outer ones linings'),
    )
  for (const [index, layer] of fill.entries()) {
    const path: Path = ['piece', 'fill', index, 'thickness_mm']
    if (layer === undefined || !whole(path)) continue
    if (stacks && layer.thickness_mm === undefined)
      faults.push(
        fault(path, 'is missing', `give the thickness in mm: a ${body.kind} is as high as its layers together`),
      )
    if (!stacks && layer.thickness_mm !== undefined && fill.length === 1)
      faults.push(fault(path, 'is not asked', `leave it out: the fill of a ${body.kind} takes what the lining leaves`))
  }
  return [...faults, ...checkRoom(draft), ...checkTiers(draft)]
}

/** Tiers are coated, not lined, and the layers must reach into the uppermost one. */
function checkTiers({ plan, body, sized, whole }: DraftPlan): Fault[] {
  if (body?.tiers === undefined) return []
  if ((plan.piece?.lining ?? []).length > 0)
    return [fault(['piece', 'lining'], 'does not go round tiers', 'coat them at the start of a stage')]
  const fill = plan.piece?.fill ?? []
  if (!sized || !whole(['piece', 'fill'])) return []
  const all_mm = fill.reduce((sum, layer) => sum + (layer?.thickness_mm ?? 0), 0)
  const below_mm = 1000 * body.tiers.slice(0, -1).reduce((sum, { height }) => sum + height, 0)
  if (all_mm > below_mm * (1 + 1e-9)) return []
  return [
    fault(
      ['piece', 'fill'],
      `is ${Math.round(all_mm * 10) / 10} mm high and ends below the uppermost tier`,
      `make the layers higher than ${Math.round(below_mm * 10) / 10} mm, or leave a tier out`,
    ),
  ]
}

/** Levels of a half-round mould: one of the layers may take what the others leave up to the rim. */
function checkLevels({ plan, body, sized, whole }: DraftPlan): Fault[] {
  const fill = plan.piece?.fill ?? []
  const open = fill.flatMap((layer, index) =>
    layer !== undefined && layer.thickness_mm === undefined && whole(['piece', 'fill', index, 'thickness_mm'])
      ? [index]
      : [],
  )
  const faults = open
    .slice(1)
    .map((index) =>
      fault(
        ['piece', 'fill', index, 'thickness_mm'],
        'is missing as well',
        'give it in mm: only one layer can take what is left up to the rim',
      ),
    )
  if (body === undefined || !sized) return faults
  const wall_mm = (plan.piece?.lining ?? []).reduce((sum, layer) => sum + (layer?.thickness_mm ?? 0), 0)
  const room_mm = body.axes[0]!.length * 1000 - wall_mm
  const given_mm = fill.reduce((sum, layer) => sum + (layer?.thickness_mm ?? 0), 0)
  const shown = (mm: number): number => Math.round(mm * 10) / 10
  if (room_mm > 0 && (open.length > 0 ? given_mm >= room_mm : given_mm > room_mm * (1 + 1e-9)))
    faults.push(
      fault(
        ['piece', 'fill'],
        `is ${shown(given_mm)} mm high, and the mould takes ${shown(room_mm)} mm`,
        open.length > 0 ? 'make the layers with a thickness thinner' : 'make the layers thinner, or the mould larger',
      ),
    )
  const at = body.invertedAtStart === true ? fill.length - 1 : 0
  const lowest_mm = fill[at]?.thickness_mm ?? room_mm - given_mm
  if (faults.length === 0 && lowest_mm < SHALLOWEST * room_mm)
    faults.push(
      fault(
        ['piece', 'fill', at],
        `is ${shown(lowest_mm)} mm deep, too shallow where the mould is round`,
        `give it ${shown(SHALLOWEST * room_mm)} mm or more, or make it a lining`,
      ),
    )
  return faults
}

/** Sizes of the shape that don't go together. */
export function checkShape({ plan, sized }: DraftPlan): Fault[] {
  if (!sized || plan.piece?.shape?.kind === undefined) return []
  return shapeFaults(plan.piece.shape as PlanShape).map(({ key, problem, remedy }) =>
    fault(['piece', 'shape', key], problem, remedy),
  )
}

/** The lining must leave room for the fill along every axis whose length the shape gives. */
function checkRoom({ plan, body, sized }: DraftPlan): Fault[] {
  const lining = plan.piece?.lining ?? []
  if (body === undefined || !sized || lining.length === 0) return []
  const thickness = fromMm(lining.reduce((sum, layer) => sum + (layer?.thickness_mm ?? 0), 0))
  const narrow = body.axes.find(
    (axis, index) =>
      index !== body.stackAxis && thickness * (Number(axis.linedLow) + Number(axis.linedHigh)) >= axis.length,
  )
  if (narrow === undefined) return []
  const sides = Number(narrow.linedLow) + Number(narrow.linedHigh)
  const most_mm = (narrow.length * 1000) / sides
  return [
    fault(
      ['piece', 'lining'],
      `is ${Math.round(thickness * 1e4) / 10} mm thick and leaves no room for the fill`,
      `keep all linings together under ${Math.round(most_mm * 10) / 10} mm, or make the piece larger`,
    ),
  ]
}

/** Faults within the plan's own materials. */
export function checkMaterials({ plan, whole }: DraftPlan): Fault[] {
  return Object.entries(plan.materials ?? {}).flatMap(([id, material]) => {
    const path: Path = ['materials', id]
    // Whole in form, so the draft is the material itself.
    return whole(path) ? findMaterialFaults(material as PlanMaterial, sayPath(path)) : []
  })
}
