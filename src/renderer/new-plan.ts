import { PLAN_VERSION, type Plan } from '../core/plan/schema/plan.ts'

const two = (value: number): string => String(value).padStart(2, '0')

/** The workshop's own time as a plan writes it. */
export function localTime(date: Date): string {
  const day = `${date.getFullYear()}-${two(date.getMonth() + 1)}-${two(date.getDate())}`
  return `${day}T${two(date.getHours())}:${two(date.getMinutes())}`
}

/** A plan to begin with: a block poured warm that goes into the fridge overnight. */
export function newPlan(now: Date): Plan {
  const next = new Date(now)
  next.setHours(now.getHours() + 1, 0, 0, 0)
  return {
    format: 'thickset-plan',
    version: PLAN_VERSION,
    title: 'New plan',
    startsAt: localTime(next),
    piece: {
      shape: { kind: 'block', width_mm: 300, length_mm: 400 },
      fill: [{ material: 'milk-pudding', thickness_mm: 100, start_C: 60 }],
    },
    stages: [{ name: 'Fridge', in: 'cabinet-fridge', until: { after_h: 24 } }],
    targets: [{ kind: 'cooled', core_C: 5 }],
  }
}
