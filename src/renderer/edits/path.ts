import type { Plan } from '../../core/plan/schema/plan.ts'

/*
 * A field of the plan by its path, written as the core writes it in a fault (`piece.fill[0].thickness_mm`): one key
 * for a field's value, its change and what is wrong with it.
 */

type Key = string | number

/** "piece.fill[0].thickness_mm" → piece, fill, 0, thickness_mm */
export function pathKeys(path: string): Key[] {
  return [...path.matchAll(/([^.[\]]+)|\[(\d+)\]/g)].map(([, name, index]) =>
    name !== undefined ? name : Number(index),
  )
}

/** Keys of a path in a plan: names of the plan's own materials may hold dots. */
function keysIn(plan: Plan, path: string): Key[] {
  const [list, ...rest] = path.split('.')
  if (list !== 'materials') return pathKeys(path)
  const below = rest.join('.')
  const name = Object.keys(plan.materials ?? {}).find(
    (own) => own.includes('.') && (below === own || below.startsWith(`${own}.`) || below.startsWith(`${own}[`)),
  )
  return name === undefined ? pathKeys(path) : [list, name, ...pathKeys(below.slice(name.length))]
}

/** The value at a path; undefined where the plan has none. */
export const readAt = (plan: Plan, path: string): unknown => follow(plan, keysIn(plan, path))

/** The value at a path within a part of a plan. */
export const readWithin = (part: unknown, path: string): unknown => follow(part, pathKeys(path))

function follow(from: unknown, keys: readonly Key[]): unknown {
  let value = from
  for (const key of keys) {
    if (typeof value !== 'object' || value === null) return undefined
    value = (value as Record<Key, unknown>)[key]
  }
  return value
}

/** A plan with another value at a path; undefined takes the key away. Everything else stays the same object. */
export function writeAt(plan: Plan, path: string, value: unknown): Plan {
  return written(plan, keysIn(plan, path), value) as Plan
}

function written(node: unknown, keys: readonly Key[], value: unknown): unknown {
  const [key, ...rest] = keys
  if (key === undefined) return value
  const inner = (node as Record<Key, unknown> | undefined)?.[key]
  const next = written(inner, rest, value)
  if (Object.is(next, inner)) return node
  if (typeof key === 'number') {
    const list = Array.isArray(node) ? [...node] : []
    list[key] = next
    return list
  }
  const copy = { ...(node as Record<string, unknown>) }
  if (next === undefined) delete copy[key]
  else copy[key] = next
  return copy
}
