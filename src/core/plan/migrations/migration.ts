/** The JSON of a file of any version, before its form is known. */
export type JsonObject = Readonly<Record<string, unknown>>

/**
 * The step from one version of the plan file to the next. Pure; keeps the order of keys; what it does not understand it
 * leaves as it stands, so that reading names it as a fault and nothing is lost in silence.
 */
export interface Migration {
  /** The version that it takes. */
  readonly from: number
  /** The plan as the next version writes it, but for its number. */
  readonly change: (plan: JsonObject) => JsonObject
}

export const isObject = (value: unknown): value is JsonObject =>
  typeof value === 'object' && value !== null && !Array.isArray(value)

/** The object with one key called otherwise, in its place; as it stands where the new name is taken. */
export function renamed(holder: JsonObject, from: string, to: string): JsonObject {
  return Object.hasOwn(holder, to) ? holder : entry(holder, from, (value) => [to, value])
}

/** The object with one of its entries made anew, in its place. */
export function entry(
  holder: JsonObject,
  key: string,
  made: (value: unknown) => readonly [string, unknown],
): JsonObject {
  return Object.fromEntries(Object.entries(holder).map(([name, value]) => (name === key ? made(value) : [name, value])))
}
