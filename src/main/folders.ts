import { existsSync, readFileSync } from 'node:fs'
import { homedir } from 'node:os'
import { join } from 'node:path'

/** What a person's folders are worked out from; handed in by tests. */
export interface Machine {
  readonly platform: NodeJS.Platform
  readonly env: Readonly<Record<string, string | undefined>>
  readonly home: string
}

export const thisMachine = (): Machine => ({ platform: process.platform, env: process.env, home: homedir() })

/** Where settings, recent plans and unsaved work lie; the same with and without a window of our own. */
export function stateFolder({ platform, env, home }: Machine): string {
  if (env.THICKSET_STATE) return env.THICKSET_STATE
  if (platform === 'darwin') return join(home, 'Library', 'Application Support', 'thickset', 'state')
  if (platform === 'win32') return join(env.APPDATA || join(home, 'AppData', 'Roaming'), 'thickset', 'state')
  return join(env.XDG_CONFIG_HOME || join(home, '.config'), 'thickset', 'state')
}

/** Where the loopback host keeps plans, and how that place is called on screen. */
export function plansFolder(machine: Machine): { readonly path: string; readonly name: string } {
  const { env } = machine
  if (env.THICKSET_PLANS) return { path: env.THICKSET_PLANS, name: env.THICKSET_PLANS }
  const documents = documentsFolder(machine)
  const name = documents === undefined ? 'Thickset' : `${documents.split(/[\\/]/).pop()}/Thickset`
  return { path: join(documents ?? machine.home, 'Thickset'), name }
}

/** The person's documents; on Linux the desktop says where, as the folder's name depends on the language. */
function documentsFolder({ platform, env, home }: Machine): string | undefined {
  const usual = join(home, 'Documents')
  if (platform !== 'linux') return existsSync(usual) ? usual : undefined
  const told = toldFolder(join(env.XDG_CONFIG_HOME || join(home, '.config'), 'user-dirs.dirs'), home)
  return [told, usual].find((folder) => folder !== undefined && folder !== home && existsSync(folder))
}

function toldFolder(file: string, home: string): string | undefined {
  try {
    const line = readFileSync(file, 'utf8').match(/^XDG_DOCUMENTS_DIR="(.*)"/m)?.[1]
    return line?.replace('$HOME', home).replace(/\/$/, '')
  } catch {
    return undefined
  }
}
