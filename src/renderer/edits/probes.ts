import type { Plan } from '../../core/plan/schema/plan.ts'
import { writeAt } from './path.ts'

/** A spot of the section: shares of the piece, 0 left to 1 right and 0 bottom to 1 top. */
export interface Spot {
  readonly x: number
  readonly y: number
}

/** Most probes that are followed. */
export const MOST_PROBES = 12

const usual = ['heart', 'edge', 'top', 'bottom']

/** One more probe, in the middle unless a spot is given. */
export function addProbe(plan: Plan, spot: Spot = { x: 0.5, y: 0.5 }): Plan {
  const probes = plan.probes ?? []
  if (probes.length >= MOST_PROBES) return plan
  const names = new Set(probes.map(({ name }) => name))
  let name = usual.find((one) => !names.has(one))
  for (let i = probes.length + 1; name === undefined; i += 1) if (!names.has(`probe ${i}`)) name = `probe ${i}`
  return { ...plan, probes: [...probes, { name, ...within(spot) }] }
}

/** A probe at another spot; how far along it sits stays. */
export function moveProbe(plan: Plan, index: number, spot: Spot): Plan {
  const { x, y } = within(spot)
  return writeAt(writeAt(plan, `probes[${index}].x`, x), `probes[${index}].y`, y)
}

export function removeProbe(plan: Plan, index: number): Plan {
  const left = (plan.probes ?? []).toSpliced(index, 1)
  return writeAt(plan, 'probes', left.length > 0 ? left : undefined)
}

/** Within the piece, to a thousandth of its size. */
function within({ x, y }: Spot): Spot {
  const share = (value: number): number => Math.round(Math.min(1, Math.max(0, value)) * 1000) / 1000
  return { x: share(x), y: share(y) }
}
