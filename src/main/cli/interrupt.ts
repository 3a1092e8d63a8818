const SIGNALS = ['SIGINT', 'SIGTERM'] as const

/**
 * Does something that Ctrl+C and the like stop by its signal, so that it can still tell what it has; a second time they
 * end the program as they usually do.
 */
export async function untilInterrupted<Result>(work: (signal: AbortSignal) => Promise<Result>): Promise<Result> {
  const cancel = new AbortController()
  const leave = (): void => {
    for (const name of SIGNALS) process.off(name, stop)
  }
  const stop = (): void => {
    leave()
    cancel.abort()
  }
  for (const name of SIGNALS) process.on(name, stop)
  try {
    return await work(cancel.signal)
  } finally {
    leave()
  }
}
