import { chmod, mkdir, writeFile } from 'node:fs/promises'
import { createServer, type RequestListener, type Server } from 'node:http'
import type { AddressInfo } from 'node:net'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import { fetchElectron, findElectron, runElectron, sayEnd } from '../../src/main/electron-runtime.ts'
import { temporaryFolder } from '../support/temporary-folder.ts'

const folder = temporaryFolder()
const root = join(import.meta.dirname, '..', '..')
const onUnix = process.platform !== 'win32'

describe('finding the runtime', () => {
  /** A project with an electron package as npm leaves it, and with its runtime if asked. */
  async function project(unpacked: boolean): Promise<string> {
    const electron = join(folder.path, 'node_modules', 'electron')
    await mkdir(join(electron, 'dist'), { recursive: true })
    await writeFile(join(electron, 'package.json'), '{"name": "electron", "version": "1.0.0"}')
    await writeFile(join(electron, 'index.js'), 'throw new Error("imported")')
    if (unpacked) {
      await writeFile(join(electron, 'path.txt'), 'electron')
      await writeFile(join(electron, 'dist', 'electron'), '')
    }
    return folder.path
  }

  it('gives its program when it is unpacked', async () => {
    expect(findElectron(await project(true), {})).toBe(
      join(folder.path, 'node_modules', 'electron', 'dist', 'electron'),
    )
  })

  it('gives nothing without package, without runtime, or with half of one', async () => {
    expect(findElectron(folder.path, {})).toBeUndefined()
    expect(findElectron(await project(false), {})).toBeUndefined()
    await writeFile(join(folder.path, 'node_modules', 'electron', 'path.txt'), 'electron')
    expect(findElectron(folder.path, {})).toBeUndefined()
  })

  it('follows the folder that a person names', async () => {
    await project(false)
    const named = join(folder.path, 'elsewhere')
    await mkdir(named)
    expect(findElectron(folder.path, { ELECTRON_OVERRIDE_DIST_PATH: named })).toBeUndefined()
    await writeFile(join(named, 'electron'), '')
    expect(findElectron(folder.path, { ELECTRON_OVERRIDE_DIST_PATH: named })).toBe(join(named, 'electron'))
  })
})

describe('fetching the runtime', () => {
  const bounds = { first_ms: 400, stall_ms: 400, whole_ms: 3000 }
  const servers: Server[] = []

  beforeEach(() => {
    vi.stubEnv('electron_config_cache', join(folder.path, 'cache'))
  })
  afterEach(() => {
    vi.unstubAllEnvs()
    for (const server of servers.splice(0)) {
      server.closeAllConnections()
      server.close()
    }
  })

  async function mirror(answer: RequestListener): Promise<void> {
    const server = createServer(answer)
    servers.push(server)
    await new Promise<void>((listening) => server.listen(0, '127.0.0.1', listening))
    vi.stubEnv('ELECTRON_MIRROR', `http://127.0.0.1:${(server.address() as AddressInfo).port}/`)
  }
  const fetchIt = async (limits = bounds) => {
    const begun = performance.now()
    const shares: number[] = []
    const fetched = await fetchElectron(root, (share) => shares.push(share), limits)
    return { fetched, shares, took_ms: performance.now() - begun }
  }

  it('gives up on a silent server', async () => {
    await mirror(() => undefined)
    const { fetched, took_ms } = await fetchIt()
    expect(fetched).toEqual({ ok: false, reason: 'the server of its runtime did not answer' })
    expect(took_ms).toBeGreaterThan(390)
    expect(took_ms).toBeLessThan(2500)
  })

  it('gives up on one that stalls, having told how far it came', async () => {
    await mirror((_request, response) => {
      response.writeHead(200, { 'content-length': 1_000_000 })
      response.write(Buffer.alloc(250_000))
    })
    const { fetched, shares } = await fetchIt()
    expect(fetched).toEqual({ ok: false, reason: 'fetching its runtime stalled' })
    expect(shares.at(-1)).toBeCloseTo(0.25, 5)
  })

  it('gives up on one that drips for too long', async () => {
    await mirror((_request, response) => {
      response.writeHead(200, { 'content-length': 1_000_000 })
      const drip = setInterval(() => response.write('x'), 50)
      response.on('close', () => clearInterval(drip))
    })
    const { fetched } = await fetchIt({ ...bounds, whole_ms: 900 })
    expect(fetched).toEqual({ ok: false, reason: 'fetching its runtime took too long' })
  })

  it('refuses what has the wrong checksum', async () => {
    await mirror((_request, response) => response.end('not a runtime'))
    const { fetched } = await fetchIt()
    expect(fetched).toEqual({ ok: false, reason: 'what was fetched is not its runtime (wrong checksum)' })
  })

  it('says what a server answered', async () => {
    await mirror((_request, response) => response.writeHead(404).end())
    const { fetched } = await fetchIt()
    expect(fetched).toEqual({ ok: false, reason: 'its runtime could not be fetched (Response code 404 (Not Found))' })
  })

  it('says that a server can’t be reached or found', async () => {
    await mirror(() => undefined)
    for (const server of servers.splice(0)) await new Promise((closed) => server.close(closed))
    expect((await fetchIt()).fetched).toMatchObject({ reason: expect.stringContaining('can’t be reached') })
    vi.stubEnv('ELECTRON_MIRROR', 'http://no-such-name.invalid/')
    expect((await fetchIt({ ...bounds, first_ms: 20_000 })).fetched).toMatchObject({
      reason: expect.stringContaining('was not found'),
    })
  })

  it('says that the package is missing', async () => {
    expect(await fetchElectron(folder.path, () => undefined)).toEqual({
      ok: false,
      reason: 'its package is not installed',
    })
  })
})

describe.runIf(onUnix)('running the runtime (a stand-in)', () => {
  async function standIn(script: string): Promise<string> {
    const path = join(folder.path, 'electron')
    await writeFile(path, `#!/bin/sh\n${script}\n`)
    await chmod(path, 0o755)
    return path
  }
  const run = (path: string, soon_ms?: number) => runElectron(path, ['.'], () => undefined, soon_ms)

  it.each([
    ['ends well', 'exit 0', { outcome: 'ended', code: 0 }],
    [
      'has no sandbox',
      'echo "The SUID sandbox helper binary was found, but is not configured correctly." >&2; exit 1',
      { outcome: 'unusable', reason: 'this system does not allow its sandbox' },
    ],
    [
      'has no display',
      'echo "ozone_platform_x11.cc: Missing X server or \\$DISPLAY" >&2; exit 1',
      { outcome: 'unusable', reason: 'there is no display' },
    ],
    [
      'lacks a library',
      'echo "electron: error while loading shared libraries: libnss3.so: cannot open" >&2; exit 127',
      { outcome: 'unusable', reason: 'the system library libnss3.so is missing' },
    ],
    [
      'is started by root',
      'echo "Running as root without --no-sandbox is not supported." >&2; exit 1',
      { outcome: 'unusable', reason: 'it does not run as root' },
    ],
    ['dies by a signal', 'kill -SEGV $$', { outcome: 'unusable', reason: 'it was ended by SIGSEGV' }],
    ['says something else', 'echo odd >&2; exit 3', { outcome: 'unusable', reason: 'it ended with code 3: odd' }],
    ['says nothing', 'exit 3', { outcome: 'unusable', reason: 'it ended with code 3' }],
  ])('that %s', async (_what, script, expected) => {
    expect(await run(await standIn(script))).toEqual(expected)
  })

  it('that can’t be started at all', async () => {
    expect(await run(join(folder.path, 'none'))).toEqual({
      outcome: 'unusable',
      reason: 'it could not be started (ENOENT)',
    })
  })

  it('takes an error after the start for the program’s own end', async () => {
    const said = vi.spyOn(process.stderr, 'write').mockReturnValue(true)
    expect(await run(await standIn('echo late >&2; exit 5'), 0)).toEqual({ outcome: 'ended', code: 5 })
    expect(said).toHaveBeenCalledWith('late\n')
    said.mockRestore()
  })

  it('is stopped with the launcher', async () => {
    const path = await standIn('exec sleep 60')
    expect(await runElectron(path, [], (stop) => setTimeout(stop, 100))).toEqual({ outcome: 'ended', code: 0 })
  })

  it('never adds --no-sandbox by itself', async () => {
    const path = await standIn('echo "$@" >&2; exit 1')
    expect(await run(path)).toEqual({ outcome: 'unusable', reason: 'it ended with code 1: .' })
  })
})

it('the reason is short, whatever was said', () => {
  expect(sayEnd('x'.repeat(5000), 1, null).length).toBeLessThan(200)
})
