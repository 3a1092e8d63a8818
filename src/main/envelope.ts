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

const AS_IT_WAS = 'What was there is as it was.'

function sayFailure(error: unknown): string {
  const code = codeOf(error)
  if (code === 'ENOSPC' || code === 'EDQUOT') return `The disk is full. ${AS_IT_WAS} Make room, then try again.`
  if (code === 'EACCES' || code === 'EPERM' || code === 'EROFS')
    return `This place can’t be written. ${AS_IT_WAS} Choose another place, or change its rights.`
  if (code === 'EIO') return `The disk could not be read or written. ${AS_IT_WAS} Try another place.`
  if (['ENOENT', 'ENOTDIR', 'EEXIST', 'EISDIR'].includes(code))
    return `The folder or file for it is not what it should be. ${AS_IT_WAS} Look at the folder, or choose another place.`
  return 'This failed.'
}
