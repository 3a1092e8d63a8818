import { execFileSync, spawn } from 'node:child_process'
import { existsSync, readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { dirname, join } from 'node:path'
import { pathToFileURL } from 'node:url'
import { codeOf } from './atomic-file.ts'

/*
 * Electron's runtime, seen from plain Node: where it is, how to get it within bounds, how to start it. The package
 * itself is never imported here, as that would start a download without any bounds.
 */

/** Folder of the electron package as seen from `root`, or undefined if it is not installed. */
function electronPackage(root: string): string | undefined {
  try {
    return dirname(createRequire(join(root, 'package.json')).resolve('electron/package.json'))
  } catch {
    return undefined
  }
}

/** Path of the runtime's program, or undefined if it is not there. */
export function findElectron(
  root: string,
  env: Readonly<Record<string, string | undefined>> = process.env,
): string | undefined {
  const folder = electronPackage(root)
  if (folder === undefined) return undefined
  const named = join(folder, 'path.txt')
  const program = existsSync(named) ? readFileSync(named, 'utf8').trim() : ''
  const place = env.ELECTRON_OVERRIDE_DIST_PATH || join(folder, 'dist')
  const path = join(place, program || 'electron')
  return (program !== '' || env.ELECTRON_OVERRIDE_DIST_PATH) && existsSync(path) ? path : undefined
}

/** How long a fetch may take before it is given up, ms. */
export interface FetchBounds {
  readonly first_ms: number
  readonly stall_ms: number
  readonly whole_ms: number
}
export const FETCH_BOUNDS: FetchBounds = { first_ms: 15_000, stall_ms: 30_000, whole_ms: 15 * 60_000 }

export type Fetched = { readonly ok: true } | { readonly ok: false; readonly reason: string }

/** Fetches and unpacks the runtime; gives up with a reason when nothing comes, it stalls or takes too long. */
export async function fetchElectron(
  root: string,
  report: (share: number) => void,
  bounds: FetchBounds = FETCH_BOUNDS,
): Promise<Fetched> {
  const folder = electronPackage(root)
  if (folder === undefined) return { ok: false, reason: 'its package is not installed' }
  const given = new AbortController()
  let reason: string | undefined
  const giveUp = (why: string) => (): void => {
    reason ??= why
    given.abort()
  }
  const whole = setTimeout(giveUp('fetching its runtime took too long'), bounds.whole_ms)
  let next = setTimeout(giveUp('the server of its runtime did not answer'), bounds.first_ms)
  try {
    await downloadArtifact(folder, given.signal, (share) => {
      clearTimeout(next)
      next = setTimeout(giveUp('fetching its runtime stalled'), bounds.stall_ms)
      report(share)
    })
    clearTimeout(next)
    await unpack(folder)
    return { ok: true }
  } catch (error) {
    return { ok: false, reason: reason ?? sayFetchError(error) }
  } finally {
    clearTimeout(whole)
    clearTimeout(next)
  }
}

interface Getter {
  downloadArtifact(details: object): Promise<string>
}

/** Into @electron/get's cache, checked against the checksums that the electron package ships. */
async function downloadArtifact(folder: string, signal: AbortSignal, progress: (share: number) => void): Promise<void> {
  const need = createRequire(join(folder, 'package.json'))
  const { version } = need('./package.json') as { version: string }
  const getter = (await import(pathToFileURL(need.resolve('@electron/get')).href)) as Getter
  const mirrored = process.env.electron_use_remote_checksums || process.env.npm_config_electron_use_remote_checksums
  await getter.downloadArtifact({
    version,
    artifactName: 'electron',
    platform: process.platform,
    arch: architecture(),
    cacheRoot: process.env.electron_config_cache,
    ...(mirrored ? {} : { checksums: need('./checksums.json') }),
    downloadOptions: {
      signal,
      quiet: true,
      getProgressCallback: ({ percent }: { percent: number }) => progress(percent),
    },
  })
}

/** A Node made for Intel on an Apple chip still needs the Apple runtime; the unpacking script asks the same. */
function architecture(): string {
  const told = process.env.ELECTRON_INSTALL_ARCH || process.env.npm_config_arch
  if (told) return told
  if (process.platform !== 'darwin' || process.arch !== 'x64') return process.arch
  try {
    const answer = execFileSync('sysctl', ['-in', 'sysctl.proc_translated'], { encoding: 'utf8' })
    return answer.trim() === '1' ? 'arm64' : 'x64'
  } catch {
    return 'x64'
  }
}

/** The package's own script finds the archive in the cache and unpacks it. */
function unpack(folder: string): Promise<void> {
  return new Promise((done, failed) => {
    const child = spawn(process.execPath, [join(folder, 'install.js')], { stdio: ['ignore', 'ignore', 'pipe'] })
    let said = ''
    child.stderr.setEncoding('utf8').on('data', (piece: string) => {
      said = (said + piece).slice(-2000)
    })
    child.on('error', failed)
    child.on('close', (code) => (code === 0 ? done() : failed(new Error(`unpacking failed: ${lastLine(said)}`))))
  })
}

function sayFetchError(error: unknown): string {
  for (let link: unknown = error; link instanceof Error; link = link.cause) {
    const code = codeOf(link)
    if (code === 'ENOTFOUND' || code === 'EAI_AGAIN') {
      return 'its runtime is not here, and the server that has it was not found'
    }
    if (code === 'ECONNREFUSED' || code === 'ECONNRESET' || code === 'ENETUNREACH' || code === 'EHOSTUNREACH') {
      return 'its runtime is not here, and the server that has it can’t be reached'
    }
    if (code === 'ENOSPC') return 'its runtime does not fit on the disk'
    if (link.name === 'HTTPError') return `its runtime could not be fetched (${link.message.split(' for ', 1)[0]})`
    if (/checksum/i.test(link.message)) return 'what was fetched is not its runtime (wrong checksum)'
  }
  return `its runtime could not be fetched (${error instanceof Error ? lastLine(error.message) : 'unknown error'})`
}

export type Run =
  /** Ended by the person. */
  | { readonly outcome: 'ended'; readonly code: number }
  /** The machine does not let it run. */
  | { readonly outcome: 'unusable'; readonly reason: string }

/** An end with an error this soon is the machine's doing, not the person's. */
const SOON_MS = 10_000
const LAST_WORDS_MS = 500

/** Starts the runtime with the program and waits for its end. */
export function runElectron(
  program: string,
  words: readonly string[],
  started: (stop: () => void) => void,
  soon_ms: number = SOON_MS,
): Promise<Run> {
  return new Promise((settle) => {
    const begun_ms = performance.now()
    const child = spawn(program, words, { stdio: ['ignore', 'inherit', 'pipe'] })
    let said = ''
    let stopped = false
    child.stderr.setEncoding('utf8').on('data', (piece: string) => {
      said = (said + piece).slice(-8000)
    })
    started(() => {
      stopped = true
      child.kill('SIGTERM')
    })
    child.on('error', (error) => settle({ outcome: 'unusable', reason: `it could not be started (${codeOf(error)})` }))
    const end = (code: number | null, signal: NodeJS.Signals | null): void => {
      const early = performance.now() - begun_ms < soon_ms
      if (stopped || code === 0) settle({ outcome: 'ended', code: 0 })
      else if (early) settle({ outcome: 'unusable', reason: sayEnd(said, code, signal) })
      else {
        process.stderr.write(said)
        settle({ outcome: 'ended', code: code ?? 1 })
      }
      said = ''
    }
    // Helpers of a runtime that has died may hold its output open; its last words are in by then.
    child.once('exit', (code, signal) => {
      const late = setTimeout(end, LAST_WORDS_MS, code, signal)
      child.once('close', () => {
        clearTimeout(late)
        end(code, signal)
      })
    })
  })
}

/** Why the runtime ended, out of its last words. */
export function sayEnd(said: string, code: number | null, signal: NodeJS.Signals | null): string {
  if (/running as root without --no-sandbox/i.test(said)) return 'it does not run as root'
  if (/sandbox/i.test(said)) return 'this system does not allow its sandbox'
  if (
    /cannot open display|missing x server|\$DISPLAY|ozone_platform|failed to connect to the bus.*display/i.test(said)
  ) {
    return 'there is no display'
  }
  const library = said.match(/error while loading shared libraries: ([^\s:]+)/)?.[1]
  if (library !== undefined) return `the system library ${library} is missing`
  if (signal !== null) return `it was ended by ${signal}`
  const last = lastLine(said)
  return last === '' ? `it ended with code ${code}` : `it ended with code ${code}: ${last}`
}

function lastLine(text: string): string {
  const lines = text.split('\n').map((line) => line.trim())
  return (lines.filter((line) => line !== '').pop() ?? '').slice(0, 160)
}
