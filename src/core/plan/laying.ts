import type { PlanAction, PlanLaying } from './schema/plan.ts'

type PlanCoat = Extract<PlanAction, { do: 'coat' }>

/** Whether an action lays one more layer on the top. */
export const laysOn = (action: PlanAction): action is PlanLaying => action.do === 'pour' || action.do === 'place'

/** Whether an action brings a layer of its own. */
export const bringsLayer = (action: PlanAction): action is PlanLaying | PlanCoat =>
  laysOn(action) || action.do === 'coat'
