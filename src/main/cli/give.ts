import { writeFileSync } from 'node:fs'
import { PlanError } from '../../core/errors.ts'

/** Writes a file that the person named; says which one where it can't be written. */
export function giveFile(path: string, content: string | Uint8Array): void {
  try {
    writeFileSync(path, content)
  } catch (error) {
    const { code, message } = error as NodeJS.ErrnoException
    const problem = `could not be written (${code ?? message})`
    throw new PlanError([{ path, problem, remedy: 'name a file in a folder that may be written' }])
  }
}
