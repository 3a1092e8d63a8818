/** Steps from the plan down to one of its fields. */
export type Path = readonly (string | number)[]

/** A path in the words of a fault: `stages[1].until`, `materials.my-cream`. */
export function sayPath(path: Path): string {
  return path.reduce<string>(
    (said, step) => (typeof step === 'number' ? `${said}[${step}]` : said === '' ? step : `${said}.${step}`),
    '',
  )
}

/** What lies at a path of any value; undefined where there is nothing. */
export function valueAt(value: unknown, path: Path): unknown {
  return path.reduce<unknown>(
    (inner, step) =>
      typeof inner === 'object' && inner !== null && Object.hasOwn(inner, step)
        ? (inner as Record<string | number, unknown>)[step]
        : undefined,
    value,
  )
}
