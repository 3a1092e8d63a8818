import { entry, isObject, type JsonObject, type Migration, renamed } from './migration.ts'

/*
 * Version 0 was never given out. It is made up, so that the way from an older format is walked by tests before a plan
 * depends on it. It differs from version 1 in three things: the start is called `begins`, the fill of a piece `layers`,
 * and a stage that ends by the hour says `hours`.
 */

const stage = (one: unknown): unknown =>
  isObject(one) && !Object.hasOwn(one, 'until')
    ? entry(one, 'hours', (after_h) => ['until', { after_h }] as const)
    : one

export const from0: Migration = {
  from: 0,
  change(plan: JsonObject): JsonObject {
    const begun = renamed(plan, 'begins', 'startsAt')
    const filled = entry(begun, 'piece', (piece) => [
      'piece',
      isObject(piece) ? renamed(piece, 'layers', 'fill') : piece,
    ])
    return entry(filled, 'stages', (stages) => ['stages', Array.isArray(stages) ? stages.map(stage) : stages])
  },
}
