import { codeOf } from './atomic-file.ts'
import type { Envelope } from './contract.ts'
import { Refusal } from './refusal.ts'

/** Runs a call; what it refuses is told in its own words, every other error as "failed" without details. */
export async function asEnvelope<T>(work: () => Promise<T>): Promise<Envelope<T>> {
  try {
    return { ok: true, value: await work() }
  } catch (error) {
    return { ok: false, message: error instanceof Refusal ? error.message : sayFailure(error) }
  }
}

function sayFailure(error: unknown): string {
  const code = codeOf(error)
  if (code === 'ENOSPC') return 'The disk is full.'
  if (code === 'EACCES' || code === 'EPERM' || code === 'EROFS') return 'This place can’t be written.'
  return 'This failed.'
}
