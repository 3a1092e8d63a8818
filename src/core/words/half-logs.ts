/** Above this many powers of ten a growth is no longer told apart. */
const MOST = 6

/** Growth to the nearest half power of ten, as studies of one laboratory differ by more; "more than 6" above 6. */
export function halfLogs(log10: number): string {
  if (log10 > MOST) return `more than ${MOST}`
  const halves = Math.round(2 * log10)
  return halves === 0 ? 'less than half a' : String(halves / 2)
}

/** Above this many powers of ten a killing is no longer told apart. */
const MOST_KILLED = 12

/** A killing in whole powers of ten, rounded down; "more than 12" above 12. */
export function killedLogs(log10: number): string {
  if (log10 > MOST_KILLED) return `more than ${MOST_KILLED}`
  return log10 < 1 ? 'less than 1' : String(Math.floor(log10))
}
