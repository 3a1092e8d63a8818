import { type ChildProcess, spawn } from 'node:child_process'
import { existsSync } from 'node:fs'
import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { delimiter, join } from 'node:path'
import { setTimeout as pause } from 'node:timers/promises'
import type { Machine } from './folders.ts'

const NAMES = ['chromium', 'chromium-browser', 'google-chrome-stable', 'google-chrome', 'microsoft-edge']

/**
 * Path of a browser of the Chromium family, or undefined. `CHROMIUM_PATH` comes first.
 * @param preferred  names of programs that are looked for on the PATH before the usual ones
 */
export function findChromium({ platform, env, home }: Machine, preferred: readonly string[] = []): string | undefined {
  const told = env.CHROMIUM_PATH
  if (told) return existsSync(told) ? told : undefined
  const ending = platform === 'win32' ? '.exe' : ''
  const onPath = [...preferred, ...NAMES].flatMap((name) =>
    (env.PATH ?? '').split(delimiter).map((folder) => join(folder, name + ending)),
  )
  return [...onPath, ...usualPlaces({ platform, env, home })].find((path) => existsSync(path))
}

function usualPlaces({ platform, env, home }: Machine): string[] {
  if (platform === 'darwin') {
    const apps = [
      'Chromium.app/Contents/MacOS/Chromium',
      'Google Chrome.app/Contents/MacOS/Google Chrome',
      'Microsoft Edge.app/Contents/MacOS/Microsoft Edge',
    ]
    return apps.flatMap((app) => [join('/Applications', app), join(home, 'Applications', app)])
  }
  if (platform === 'win32') {
    const folders = [env.ProgramFiles, env['ProgramFiles(x86)'], env.LOCALAPPDATA]
    const programs = [
      'Chromium/Application/chrome.exe',
      'Google/Chrome/Application/chrome.exe',
      'Microsoft/Edge/Application/msedge.exe',
    ]
    return folders.flatMap((folder) => (folder ? programs.map((program) => join(folder, program)) : []))
  }
  return []
}

/** Why no window can be opened here, or undefined. Chromium refuses root, and its sandbox is not ours to turn off. */
export function noWindow({ platform, env }: Machine, user: number | undefined): string | undefined {
  if (platform !== 'linux') return undefined
  if (user === 0) return 'root'
  return env.DISPLAY || env.WAYLAND_DISPLAY ? undefined : 'no display'
}

export interface BrowserWindow {
  /** Settled when the window was closed; never, where the system's own browser was asked. */
  readonly closed: Promise<void>
  close(): Promise<void>
}

/** Opens the address in a window without address bar, with a profile that is gone afterwards. */
export async function openChromium(program: string, address: string): Promise<BrowserWindow> {
  const profile = await mkdtemp(join(tmpdir(), 'thickset-'))
  const words = [
    `--app=${address}`,
    `--user-data-dir=${profile}`,
    '--no-first-run',
    '--no-default-browser-check',
    '--disable-background-networking',
    '--disable-component-update',
    '--disable-sync',
  ]
  const child = spawn(program, words, { stdio: 'ignore' })
  const ended = new Promise<void>((done) => {
    child.once('close', () => done())
    child.once('error', () => done())
  })
  return {
    closed: ended,
    close: async () => {
      await endChild(child, ended)
      // The browser's helpers may write for a moment after it has gone.
      await rm(profile, { recursive: true, force: true, maxRetries: 10, retryDelay: 200 }).catch(() => undefined)
    },
  }
}

async function endChild(child: ChildProcess, ended: Promise<void>): Promise<void> {
  child.kill('SIGTERM')
  const inTime = await Promise.race([ended.then(() => true), pause(3000, false)])
  if (!inTime) {
    child.kill('SIGKILL')
    await ended
  }
}

/** Hands the address to the system's own browser; false if there is none to ask. */
export function openWithSystem(address: string, platform: NodeJS.Platform): Promise<boolean> {
  const [program, words]: [string, string[]] =
    platform === 'darwin'
      ? ['open', [address]]
      : platform === 'win32'
        ? ['rundll32', ['url.dll,FileProtocolHandler', address]]
        : ['xdg-open', [address]]
  return new Promise((settle) => {
    const child = spawn(program, words, { stdio: 'ignore', detached: true })
    child.once('error', () => settle(false))
    child.once('spawn', () => {
      child.unref()
      settle(true)
    })
  })
}
