import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { pathToFileURL } from 'node:url'
import type { Host, HostOptions } from '../../src/main/host.ts'

const out = join(import.meta.dirname, '..', '..', 'out')

export interface Program {
  readonly host: Host
  /** Address of the page; its key works once, so ask `host.newAddress()` for every further page. */
  readonly address: string
  readonly origin: string
  readonly stateFolder: string
  readonly plansFolder: string
  /** Ends the host and removes its folders. */
  stop(): Promise<void>
}

/** Starts the built program in its loopback host, on folders of its own. The project must have `build-once` set. */
export async function startProgram(options: Partial<HostOptions> = {}): Promise<Program> {
  const { startHost } = (await import(pathToFileURL(join(out, 'main', 'host.js')).href)) as {
    startHost: (options: HostOptions) => Promise<Host>
  }
  const folder = await mkdtemp(join(tmpdir(), 'thickset-test-'))
  const stateFolder = options.stateFolder ?? join(folder, 'state')
  const plansFolder = options.plansFolder ?? join(folder, 'plans')
  const host = await startHost({
    pages: join(out, 'renderer'),
    version: '0.0.0-test',
    plansFolderName: 'Documents/Thickset',
    ...options,
    stateFolder,
    plansFolder,
  })
  return {
    host,
    address: host.address,
    origin: new URL(host.address).origin,
    stateFolder,
    plansFolder,
    stop: async () => {
      await host.close()
      await rm(folder, { recursive: true, force: true, maxRetries: 5, retryDelay: 100 })
    },
  }
}
