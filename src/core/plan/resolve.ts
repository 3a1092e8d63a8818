import { levelsOf } from '../geometry/form.ts'
import type { Insert, Layer } from '../geometry/layer.ts'
import { wholeBody } from '../geometry/shapes/index.ts'
import { SHEET_AREA } from '../geometry/shapes/sheet.ts'
import type { Fidelity, Job, Probe } from '../journey/job.ts'
import { AIR_LAYER, airLayer } from '../materials/air-layer.ts'
import { getMaterial, materialIds } from '../materials/index.ts'
import type { Material } from '../materials/material.ts'
import { materialFromPlan } from '../materials/material-from-plan.ts'
import { type Message, message } from '../messages.ts'
import { findRule, type Rule } from '../outcomes/rules.ts'
import type { Target } from '../outcomes/target.ts'
import { fromHours, fromMm } from '../units.ts'
import { clockMoves, sinceStart } from './clock.ts'
import { bringsLayer } from './laying.ts'
import { marginsOf } from './margins.ts'
import { modelAxes } from './model-axes.ts'
import { type Notes, noteAir, startNotes } from './notes.ts'
import { withPouring } from './pouring.ts'
import { resolveStages } from './resolve-stages.ts'
import type { Plan, PlanLayer, PlanTarget } from './schema/plan.ts'

/** Share of the largest difference beyond which the error of a shallow level is said. */
const LEVEL_ERROR = 0.001

/** A temperature measured on the day. */
export interface Measured {
  readonly probe: string
  /** Seconds since the start. */
  readonly t: number
  readonly T_C: number
}

/** A plan made ready to compute and to judge. */
export interface ResolvedPlan {
  readonly title: string
  /** Local date and time of the start, without zone. */
  readonly startsAt: string
  readonly fidelity: Fidelity
  readonly job: Job
  readonly targets: readonly Target[]
  readonly rules: readonly Rule[]
  readonly readings: readonly Measured[]
  /** When the clock is moved, s since the start, and by how many minutes it goes forward. */
  readonly clockMoves: readonly { readonly at: number; readonly by_min: number }[]
  /** Every material of the job, each once. */
  readonly materials: readonly Material[]
  /** Every default and every simplification that the plan led to. */
  readonly notes: readonly Message[]
}

/**
 * A plan in SI with its names looked up and its defaults filled in and noted. The plan must have been read by
 * `readPlan` or found without faults by `findPlanFaults`; what those refuse throws a plain error here.
 */
export function resolvePlan(plan: Plan): ResolvedPlan {
  const notes = startNotes()
  const body = wholeBody(plan.piece.shape)
  const { shape } = plan.piece
  if (shape.kind === 'sheet' && shape.area_m2 === undefined) notes.add(message('area-default', { area_m2: SHEET_AREA }))
  const materials = lookUpMaterials(plan, notes)
  const layerOf = (name: string, layer: PlanLayer): Layer => ({
    name,
    material: materials.get(layer.material)!,
    thickness: layer.thickness_mm === undefined ? null : fromMm(layer.thickness_mm),
    start_C: layer.start_C,
  })
  const lining = (plan.piece.lining ?? []).map((layer, index) => layerOf(`lining[${index}]`, layer))
  const fill = plan.piece.fill.map((layer, index) => layerOf(`fill[${index}]`, layer))
  const inserts = (plan.piece.inserts ?? []).map(
    ({ material, start_C, within = 0, margin_mm }, index): Insert => ({
      layer: layerOf(`inserts[${index}]`, { material, start_C }),
      within,
      margins: Object.fromEntries(Object.entries(marginsOf(body, margin_mm)).map(([face, mm]) => [face, fromMm(mm)])),
    }),
  )
  const targets = (plan.targets ?? []).map((target, index) => targetOf(plan, target, index))
  const stages = resolveStages(plan, body, [...lining, ...fill], layerOf, targets, notes)
  const added = stages.flatMap(({ start }) =>
    start.flatMap((action) => (action.do === 'pour' || action.do === 'coat' ? [action.layer] : [])),
  )
  noteAir([...lining, ...fill, ...added], { body, fill }, notes)
  const { fit } = levelsOf(body, lining, body.invertedAtStart === true ? fill.toReversed() : fill, inserts)
  if (fit !== undefined && fit.error > LEVEL_ERROR)
    notes.add(message('level-shallow', { error_pct: Number((100 * fit.error).toPrecision(1)) }))
  const cores = inserts.length === 0 ? {} : { inserts }
  const whole: Job = { body, lining, fill, ...cores, stages, probes: (plan.probes ?? []).map(probeOf) }
  const fidelity = plan.fidelity ?? 'standard'
  const job = modelAxes(plan, whole, fidelity, notes)
  return {
    title: plan.title,
    startsAt: plan.startsAt,
    fidelity,
    job,
    targets,
    rules: (plan.rules ?? []).map((id) => findRule(id)!),
    readings: (plan.readings ?? []).map(({ probe, at_h, C }) => ({ probe, t: fromHours(at_h), T_C: C })),
    clockMoves: clockMoves(plan.startsAt, plan.clock_changes ?? []),
    materials: [
      ...new Set([...lining, ...fill, ...inserts.map(({ layer }) => layer), ...added].map((layer) => layer.material)),
    ].filter(({ empty }) => empty !== true),
    notes: notes.all,
  }
}

/** Each material that the plan uses, made once: layers of one name share one material. */
function lookUpMaterials(plan: Plan, notes: Notes): ReadonlyMap<string, Material> {
  const pours = plan.stages.flatMap((stage) =>
    (stage.start ?? []).flatMap((action) => (bringsLayer(action) ? [action.material] : [])),
  )
  const layers = [...(plan.piece.lining ?? []), ...plan.piece.fill, ...(plan.piece.inserts ?? [])].map(
    (layer) => layer.material,
  )
  const ids = [...new Set([...layers, ...pours])]
  return new Map(
    ids.map((id) => {
      const own = plan.materials?.[id]
      if (own === undefined) return [id, id === AIR_LAYER ? airLayer : withPouring(getMaterial(id))]
      if (materialIds.includes(id)) notes.add(message('own-material-first', { id }))
      return [id, withPouring(materialFromPlan(id, own, `materials.${id}`))]
    }),
  )
}

function probeOf({ name, x = 0.5, y = 0.5, z = 0.5 }: NonNullable<Plan['probes']>[number]): Probe {
  return { name, place: { x, y, z } }
}

function targetOf({ startsAt, clock_changes }: Plan, { by: asked, ...target }: PlanTarget, index: number): Target {
  const when = { index, ...(asked === undefined ? {} : { by: sinceStart(startsAt, asked, clock_changes)! }) }
  if (target.kind !== 'edge') return { ...target, ...when }
  const { kind, most_mm } = target
  return { kind, ...when, ...(most_mm === undefined ? {} : { most: fromMm(most_mm) }) }
}
