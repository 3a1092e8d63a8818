import { surroundingsIds } from '../../boundary/surroundings.ts'
import type { Fault } from '../../errors.ts'
import { AIR_LAYER } from '../../materials/air-layer.ts'
import { materialIds } from '../../materials/index.ts'
import { wallIds } from '../../materials/wall.ts'
import { didYouMean } from '../../nearest.ts'
import { ruleIds } from '../../outcomes/rules.ts'
import type { Draft, DraftPlan } from '../draft.ts'
import { type Path, sayPath } from '../path.ts'
import type { PlanLayer } from '../schema/plan.ts'

function known(path: Path, name: string | undefined, names: readonly string[], what: string): Fault[] {
  if (name === undefined || names.includes(name)) return []
  return [{ path: sayPath(path), problem: `no ${what} is called "${name}"`, remedy: didYouMean(name, names) }]
}

/** Names of materials, walls, surroundings and rules that nothing answers to. */
export function checkNames({ plan }: DraftPlan): Fault[] {
  const own = Object.keys(plan.materials ?? {})
  const materials = [...own, ...materialIds, AIR_LAYER]
  const poured = (plan.stages ?? []).flatMap((stage) =>
    (stage?.start ?? []).flatMap((action) => (action !== undefined && 'material' in action ? [action.material] : [])),
  )
  const laid = [...(plan.piece?.lining ?? []), ...(plan.piece?.fill ?? []), ...(plan.piece?.inserts ?? [])].map(
    (layer) => layer?.material,
  )
  const used = [...laid, ...poured].filter((name) => name !== undefined)
  const layers = (path: Path, list: readonly (Draft<Pick<PlanLayer, 'material'>> | undefined)[] = []): Fault[] =>
    list.flatMap((layer, index) => known([...path, index, 'material'], layer?.material, materials, 'material'))
  const faults = [
    ...Object.entries(plan.materials ?? {}).flatMap(([id, material]) =>
      material !== undefined && 'like' in material
        ? known(['materials', id, 'like'], material.like, materialIds, 'built-in material')
        : [],
    ),
    ...layers(['piece', 'lining'], plan.piece?.lining),
    ...layers(['piece', 'fill'], plan.piece?.fill),
    ...layers(['piece', 'inserts'], plan.piece?.inserts),
    ...(plan.piece?.mould ?? []).flatMap((wall, index) =>
      known(['piece', 'mould', index, 'material'], wall?.material, wallIds, 'mould material'),
    ),
    ...(plan.targets ?? []).flatMap((target, index) =>
      target !== undefined && 'material' in target
        ? known(['targets', index, 'material'], target.material, used, 'material of this plan')
        : [],
    ),
    ...(plan.rules ?? []).flatMap((rule, index) => known(['rules', index], rule, ruleIds, 'rule')),
  ]
  for (const [index, stage] of (plan.stages ?? []).entries()) {
    const path: Path = ['stages', index]
    if (typeof stage?.in === 'string') faults.push(...known([...path, 'in'], stage.in, surroundingsIds, 'surroundings'))
    else faults.push(...known([...path, 'in', 'like'], stage?.in?.like, surroundingsIds, 'surroundings'))
    if (typeof stage?.in === 'object')
      for (const [name, face] of Object.entries(stage.in.faces ?? {}))
        faults.push(...known([...path, 'in', 'faces', name, 'board'], face?.board, wallIds, 'board'))
    for (const [at, action] of (stage?.start ?? []).entries()) {
      const place: Path = [...path, 'start', at]
      if (action !== undefined && 'material' in action)
        faults.push(...known([...place, 'material'], action.material, materials, 'material'))
      if (action?.do === 'stand') faults.push(...known([...place, 'board'], action.board, wallIds, 'board'))
      if (action?.do === 'cover' || action?.do === 'wrap')
        faults.push(...known([...place, 'with'], action.with, wallIds, 'cover'))
    }
  }
  return [...faults, ...repeated(plan.rules ?? [])]
}

function repeated(rules: readonly (string | undefined)[]): Fault[] {
  return rules.flatMap((rule, index) =>
    rule !== undefined && rules.indexOf(rule) < index
      ? [{ path: sayPath(['rules', index]), problem: `"${rule}" stands twice`, remedy: 'keep one of them' }]
      : [],
  )
}
