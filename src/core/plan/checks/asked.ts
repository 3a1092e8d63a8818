import type { Fault } from '../../errors.ts'
import { didYouMean } from '../../nearest.ts'
import { isWaitedFor } from '../../outcomes/targets/index.ts'
import type { DraftPlan } from '../draft.ts'
import { type Path, sayPath } from '../path.ts'

const fault = (path: Path, problem: string, remedy: string): Fault => ({ path: sayPath(path), problem, remedy })

/** Places that are found by the computation: they can be read on the day, but not named as a probe. */
export const foundPlaces: readonly string[] = ['core', 'surface']

/** Probes and targets by which a stage ends. */
function checkEnds(
  { plan, whole }: Pick<DraftPlan, 'plan' | 'whole'>,
  probes: readonly (string | undefined)[],
): Fault[] {
  const kinds = (plan.targets ?? []).flatMap((target) =>
    target?.kind !== undefined && (isWaitedFor(target.kind) || ('core_C' in target && target.core_C !== undefined))
      ? [String(target.kind)]
      : [],
  )
  return (plan.stages ?? []).flatMap((stage, index): Fault[] => {
    const { probe, target, core_C } = stage?.until ?? {}
    const path: Path = ['stages', index, 'until']
    const known = probes.filter((name) => name !== undefined)
    if (probe?.name !== undefined && whole(['probes']) && !known.includes(probe.name))
      return [fault([...path, 'probe', 'name'], `no probe is called "${probe.name}"`, didYouMean(probe.name, known))]
    if (target === undefined || !whole(['targets'])) return []
    if (core_C !== undefined) return [fault([...path, 'target'], 'stands beside core_C', 'give one of them')]
    if (kinds.includes(target)) return []
    const remedy = kinds.length === 0 ? 'ask for one in the targets of the plan' : didYouMean(target, kinds)
    return [fault([...path, 'target'], `no target that a stage can wait for is called "${target}"`, remedy)]
  })
}

/** Windows of targets, names of probes, and readings of probes that aren't there. */
export function checkAsked({ plan, whole }: DraftPlan): Fault[] {
  const faults: Fault[] = []
  for (const [index, target] of (plan.targets ?? []).entries())
    if (target?.kind === 'baked' && target.most_C !== undefined && target.core_C !== undefined)
      if (target.most_C <= target.core_C)
        faults.push(fault(['targets', index, 'most_C'], 'is not above core_C', 'give the upper end of the core window'))

  const names = (plan.probes ?? []).map((probe) => probe?.name)
  for (const [index, name] of names.entries()) {
    const path: Path = ['probes', index, 'name']
    if (name === undefined) continue
    if (names.indexOf(name) < index) faults.push(fault(path, `"${name}" stands twice`, 'give each probe its own name'))
    if (foundPlaces.includes(name)) faults.push(fault(path, `"${name}" is found, not placed`, 'choose another name'))
  }
  faults.push(...checkEnds({ plan, whole }, names))
  if (!whole(['probes'])) return faults
  const readable = [...names.filter((name) => name !== undefined), ...foundPlaces]
  for (const [index, reading] of (plan.readings ?? []).entries()) {
    if (reading?.probe === undefined || readable.includes(reading.probe)) continue
    const path: Path = ['readings', index, 'probe']
    faults.push(fault(path, `no probe is called "${reading.probe}"`, didYouMean(reading.probe, readable)))
  }
  return faults
}
