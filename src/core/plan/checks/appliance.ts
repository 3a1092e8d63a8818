import { findSurroundings } from '../../boundary/surroundings.ts'
import type { Fault } from '../../errors.ts'
import type { Draft, DraftPlan } from '../draft.ts'
import { type Path, sayPath } from '../path.ts'
import type { PlanSurroundings } from '../schema/plan.ts'

function checkAppliance(path: Path, { appliance, like, air_C }: Draft<PlanSurroundings>): Fault[] {
  if (appliance === undefined || appliance === false) return []
  const place = sayPath([...path, 'appliance'])
  const fault = (problem: string, remedy: string): Fault => ({ path: place, problem, remedy })
  const base = like === undefined ? undefined : findSurroundings(like)
  const kind = appliance.kind ?? base?.appliance?.kind
  if (kind === undefined) return [fault('kind missing', 'give "cold", "oven" or "bath"')]
  const faults: Fault[] = []
  if (air_C !== undefined && typeof air_C !== 'number')
    faults.push(fault('stands beside a course of the air', 'give set_C, or the course without an appliance'))
  const set_C = appliance.set_C ?? air_C ?? base?.appliance?.set_C ?? base?.air_C.typical
  if (set_C === undefined) faults.push(fault('set_C missing', 'give what its thermostat is set to'))
  const own = base?.appliance?.kind === kind
  if (kind === 'cold' && !own && appliance.capacity_W === undefined && appliance.off !== true)
    faults.push(fault('capacity_W missing', 'give the heat that it takes away, or off: true'))
  if (kind === 'oven' && !own && appliance.heater_W === undefined && appliance.off !== true)
    faults.push(fault('heater_W missing', 'give the power of its heater, or off: true'))
  if (kind === 'bath' && !own && appliance.water_kg === undefined)
    faults.push(fault('water_kg missing', 'give how much water is in the bath'))
  if (appliance.heater_W !== undefined && appliance.ice_kg !== undefined)
    faults.push(fault('has both heater_W and ice_kg', 'give the one that keeps the bath at its temperature'))
  if (appliance.heater_W !== undefined && appliance.capacity_W !== undefined)
    faults.push(fault('has both heater_W and capacity_W', 'give the one that is at work in this stage'))
  return faults
}

/** Appliances of which too little is known to compute them, or that contradict the rest. */
export function checkAppliances({ plan, whole }: DraftPlan): Fault[] {
  return (plan.stages ?? []).flatMap((stage, index) => {
    const path: Path = ['stages', index, 'in']
    return typeof stage?.in === 'object' && whole(path) ? checkAppliance(path, stage.in) : []
  })
}
