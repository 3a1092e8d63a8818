import { closeSync, openSync, readSync, statSync } from 'node:fs'
import { type Fault, PlanError } from '../../core/errors.ts'

const MB = 1e6

const refusal = (path: string, problem: string, remedy: string): PlanError => new PlanError([{ path, problem, remedy }])

function tooLarge(path: string, bytes: number, most: number): PlanError {
  return refusal(path, `${Math.ceil(bytes / MB)} MB, more than the ${most / MB} MB that are read`, 'give another file')
}

/** Reads standard input, no further than `most` bytes. */
async function readStandardInput(most: number): Promise<string> {
  const pieces: Buffer[] = []
  let bytes = 0
  for await (const piece of process.stdin) {
    pieces.push(piece as Buffer)
    bytes += (piece as Buffer).length
    if (bytes > most) throw tooLarge('standard input', bytes, most)
  }
  return Buffer.concat(pieces).toString('utf8')
}

/** Text of a file, read no further than `most` bytes: what is no plain file (a pipe, a device) has no size to go by. */
function readBounded(path: string, most: number): string {
  const file = openSync(path, 'r')
  try {
    const pieces: Buffer[] = []
    let bytes = 0
    for (;;) {
      const piece = Buffer.alloc(65_536)
      const length = readSync(file, piece)
      if (length === 0) return Buffer.concat(pieces).toString('utf8')
      bytes += length
      if (bytes > most) throw tooLarge(path, bytes, most)
      pieces.push(piece.subarray(0, length))
    }
  } finally {
    closeSync(file)
  }
}

/** Why a file can't be read, in plain words. */
function readFault(path: string, error: NodeJS.ErrnoException): Fault {
  if (error.code === 'ENOENT')
    return { path, problem: 'there is no such file', remedy: 'check the name and the folder' }
  if (error.code === 'EACCES' || error.code === 'EPERM')
    return { path, problem: 'the file may not be read', remedy: 'change its rights or copy it elsewhere' }
  if (error.code === 'EISDIR') return { path, problem: 'this is a folder', remedy: 'name a file in it' }
  return { path, problem: `could not be read (${error.code ?? error.message})`, remedy: 'check the disk and the name' }
}

/**
 * The text of a file, or of standard input for `-`; its size is looked at before it is read.
 * Throws `PlanError`.
 */
export async function readText(path: string, most: number): Promise<string> {
  if (path === '-') return readStandardInput(most)
  try {
    const found = statSync(path)
    if (found.isDirectory()) throw Object.assign(new Error('folder'), { code: 'EISDIR' })
    if (found.size > most) throw tooLarge(path, found.size, most)
    return readBounded(path, most)
  } catch (error) {
    if (error instanceof PlanError) throw error
    throw new PlanError([readFault(path, error as NodeJS.ErrnoException)])
  }
}
