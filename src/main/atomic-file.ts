import { randomBytes } from 'node:crypto'
import { type FileHandle, mkdir, open, readdir, realpath, rename, rm, stat } from 'node:fs/promises'
import { basename, dirname, join } from 'node:path'
import { setTimeout as pause } from 'node:timers/promises'
import { Refusal } from './refusal.ts'

/** Error code of a file call (`ENOENT`, …), or an empty text. */
export function codeOf(error: unknown): string {
  return error instanceof Error && 'code' in error ? String(error.code) : ''
}

/** Windows refuses to replace a file that a virus scanner or an indexer has open for a moment. */
const PASSING = new Set(['EPERM', 'EACCES', 'EBUSY'])
const RENAME_TRIES = 10

async function renamePatiently(from: string, to: string): Promise<void> {
  for (let attempt = 1; ; attempt++) {
    try {
      await rename(from, to)
      return
    } catch (error) {
      if (attempt === RENAME_TRIES || !PASSING.has(codeOf(error))) throw error
      await pause(20 * attempt)
    }
  }
}

/** Makes the new name itself last through a power cut; not every system can, and the file is whole either way. */
async function syncFolder(folder: string): Promise<void> {
  let handle: FileHandle | undefined
  try {
    handle = await open(folder, 'r')
    await handle.sync()
  } catch {
    // Windows has no such call, some network folders neither.
  } finally {
    await handle?.close()
  }
}

/** Of a file, the start of the names of what is written beside it before it takes its place. */
const besideStart = (target: string): string => `.${basename(target).slice(0, 60)}.`
const BESIDE_END = /^[0-9a-f]{12}\.tmp$/
/** Longer than any writing takes: whoever began it was ended in the middle. */
const LEFT_BEHIND_MS = 3_600_000

/** Removes what was left beside a file by writers that were ended before its turn came; it is never in the way. */
async function removeLeftBehind(target: string): Promise<void> {
  const [folder, start] = [dirname(target), besideStart(target)]
  const names = await readdir(folder).catch(() => [])
  for (const name of names) {
    if (!name.startsWith(start) || !BESIDE_END.test(name.slice(start.length))) continue
    const path = join(folder, name)
    const found = await stat(path).catch(() => undefined)
    if (found !== undefined && Date.now() - found.mtimeMs > LEFT_BEHIND_MS)
      await rm(path, { force: true }).catch(() => {})
  }
}

/**
 * Replaces a file as a whole: a reader sees the old contents or the new, never a part, and a failure leaves the old.
 * Keeps the file's mode and follows a symbolic link; makes the folder if it is not there.
 */
export async function replaceFile(path: string, contents: string | Uint8Array): Promise<void> {
  await mkdir(dirname(path), { recursive: true })
  const target = await realpath(path).catch(() => path)
  const mode = await stat(target).then(
    (found) => found.mode & 0o7777,
    () => undefined,
  )
  const beside = join(dirname(target), `${besideStart(target)}${randomBytes(6).toString('hex')}.tmp`)
  try {
    const handle = await open(beside, 'wx')
    try {
      await handle.writeFile(contents)
      if (mode !== undefined) await handle.chmod(mode)
      await handle.sync()
    } finally {
      await handle.close()
    }
    await renamePatiently(beside, target)
  } catch (error) {
    await rm(beside, { force: true })
    throw error
  }
  await syncFolder(dirname(target))
  await removeLeftBehind(target)
}

/** Text of a file in UTF-8 and the moment of its last change; refuses what is too large or no text, by its name. */
export async function readTextFile(
  path: string,
  most_bytes: number,
): Promise<{ readonly text: string; readonly changedAt_ms: number }> {
  const name = basename(path)
  const handle = await open(path, 'r').catch((error: unknown) => {
    if (codeOf(error) === 'ENOENT') throw new Refusal(`"${name}" is not there any more.`)
    if (codeOf(error) === 'EISDIR') throw new Refusal(`"${name}" is not a file.`)
    if (codeOf(error) === 'EACCES' || codeOf(error) === 'EPERM') throw new Refusal(`"${name}" may not be read.`)
    throw error
  })
  try {
    const found = await handle.stat()
    if (!found.isFile()) throw new Refusal(`"${name}" is not a file.`)
    if (found.size > most_bytes) {
      throw new Refusal(`"${name}" is larger than ${Math.round(most_bytes / 1e6)} MB: it can't be opened as a plan.`)
    }
    const bytes = await handle.readFile()
    return { text: decode(bytes, name), changedAt_ms: Math.round(found.mtimeMs) }
  } finally {
    await handle.close()
  }
}

function decode(bytes: Uint8Array, name: string): string {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes)
  } catch {
    throw new Refusal(`"${name}" is not text in UTF-8: it can't be opened as a plan.`)
  }
}
