import { type ChildProcess, spawn } from 'node:child_process'
import { chmod, mkdir, readdir, readFile, writeFile } from 'node:fs/promises'
import { type AddressInfo, createServer } from 'node:net'
import { tmpdir } from 'node:os'
import { delimiter, join } from 'node:path'
import { afterEach, describe, expect, it } from 'vitest'
import { findChromium, noWindow, openChromium } from '../../src/main/browser-window.ts'
import { plansFolder, stateFolder } from '../../src/main/folders.ts'
import { temporaryFolder } from '../support/temporary-folder.ts'

const folder = temporaryFolder()
const onUnix = process.platform !== 'win32'
const children: ChildProcess[] = []

afterEach(() => {
  for (const child of children.splice(0)) child.kill('SIGKILL')
})

async function script(name: string, lines: string): Promise<string> {
  const path = join(folder.path, name)
  await writeFile(path, `#!/bin/sh\n${lines}\n`)
  await chmod(path, 0o755)
  return path
}

/** An address of this machine where nobody listens. */
async function deadAddress(): Promise<string> {
  const server = createServer()
  await new Promise<void>((listening) => server.listen(0, '127.0.0.1', listening))
  const { port } = server.address() as AddressInfo
  await new Promise((closed) => server.close(closed))
  return `http://127.0.0.1:${port}/`
}
const nowhere = await deadAddress()

/** `npm start` on folders of the test, without a way to fetch anything and without a display. */
function start(words: readonly string[], env: Record<string, string> = {}) {
  const child = spawn(process.execPath, [join(import.meta.dirname, '..', '..', 'src', 'main', 'start.mjs'), ...words], {
    env: {
      ...process.env,
      DISPLAY: '',
      WAYLAND_DISPLAY: '',
      THICKSET_STATE: join(folder.path, 'state'),
      THICKSET_PLANS: join(folder.path, 'plans'),
      ELECTRON_MIRROR: nowhere,
      electron_config_cache: join(folder.path, 'cache'),
      ...env,
    },
    stdio: ['ignore', 'pipe', 'pipe'],
  })
  children.push(child)
  let out = ''
  let errors = ''
  child.stdout.setEncoding('utf8').on('data', (piece: string) => {
    out += piece
  })
  child.stderr.setEncoding('utf8').on('data', (piece: string) => {
    errors += piece
  })
  const ended = new Promise<number | null>((done) => child.once('close', (code) => done(code)))
  const until = async (pattern: RegExp): Promise<RegExpMatchArray> => {
    const end = Date.now() + 20_000
    for (;;) {
      const found = out.match(pattern)
      if (found !== null) return found
      if (Date.now() > end || child.exitCode !== null) throw new Error(`no ${pattern} in: ${out}${errors}`)
      await new Promise((done) => setTimeout(done, 20))
    }
  }
  return { child, ended, until, said: () => ({ out, errors }) }
}

const ONE_LINE =
  /^Electron not used: (.+)\. The same program is at (http:\/\/127\.0\.0\.1:\d+\/)#(\S+) \(this machine only; Ctrl\+C ends it\)\.\n/

describe.runIf(onUnix)('npm start', () => {
  it('runs Electron where its runtime is, with the plan that was named, and ends with it', async () => {
    await script('electron', `echo "$@" > ${folder.path}/words; exit 0`)
    const run = start(['x.thickset'], { ELECTRON_OVERRIDE_DIST_PATH: folder.path })
    expect(await run.ended).toBe(0)
    expect(run.said()).toEqual({ out: '', errors: '' })
    const root = join(import.meta.dirname, '..', '..')
    expect(await readFile(join(folder.path, 'words'), 'utf8')).toBe(`${root} ${join(process.cwd(), 'x.thickset')}\n`)
  })

  it('without a runtime says why and where in one line, and serves the same program', async () => {
    await writeFile(join(folder.path, 'given.thickset'), '{}')
    const run = start([join(folder.path, 'given.thickset')])
    const [, reason, origin, key] = await run.until(ONE_LINE)
    expect(reason).toContain('can’t be reached')
    const page = await fetch(origin ?? '')
    expect(await page.text()).toContain('<div id="root">')
    const post = async (path: string, body: unknown, authorization = ''): Promise<unknown> => {
      const headers = { 'content-type': 'application/json', authorization }
      return (await fetch(`${origin}${path}`, { method: 'POST', headers, body: JSON.stringify(body) })).json()
    }
    const { value } = (await post('key', { key })) as { value: { token: string } }
    const ready = await post('ask/ready', {}, `Bearer ${value.token}`)
    expect(ready).toMatchObject({ ok: true, value: { program: 'browser', opened: { name: 'given', text: '{}' } } })
    run.child.kill('SIGINT')
    expect(await run.ended).toBe(0)
    expect(run.said().out.split('\n')).toHaveLength(2)
    expect(run.said().errors).toBe('')
  })

  it.each([
    ['sandbox', 'echo "No usable sandbox!" >&2; exit 1', 'this system does not allow its sandbox'],
    ['display', 'echo "Missing X server or \\$DISPLAY" >&2; exit 1', 'there is no display'],
    ['signal', 'kill -TRAP $$', 'it was ended by SIGTRAP'],
  ])('with a runtime that fails by its %s serves a browser instead', async (_what, lines, expected) => {
    await script('electron', lines)
    const run = start([], { ELECTRON_OVERRIDE_DIST_PATH: folder.path })
    const [, reason] = await run.until(ONE_LINE)
    expect(reason).toBe(expected)
    run.child.kill('SIGTERM')
    expect(await run.ended).toBe(0)
  })

  it('ends Electron when it is ended itself', async () => {
    await script(
      'electron',
      // Up only once the sleep runs and can be ended: left behind, it would hold the pipes of all for its minute.
      `sleep 60 & trap "kill $!; echo ended > ${folder.path}/trace; exit 0" TERM; echo up > ${folder.path}/up; wait`,
    )
    const run = start([], { ELECTRON_OVERRIDE_DIST_PATH: folder.path })
    for (let waited = 0; waited < 300; waited++) {
      if ((await readdir(folder.path)).includes('up')) break
      await new Promise((done) => setTimeout(done, 50))
    }
    run.child.kill('SIGTERM')
    expect(await run.ended).toBe(0)
    expect(await readFile(join(folder.path, 'trace'), 'utf8')).toBe('ended\n')
  })

  it('goes to a browser at once when asked, and tells of work that was not saved', async () => {
    const run = start(['--browser'])
    const [, reason, origin, key] = await run.until(ONE_LINE)
    expect(reason).toBe('a browser was asked for')
    const headers = { 'content-type': 'application/json' }
    const post = { method: 'POST', headers }
    const swapped = await fetch(`${origin}key`, { ...post, body: JSON.stringify({ key }) })
    const { value } = (await swapped.json()) as { value: { token: string } }
    const body = JSON.stringify({ unsaved: true, name: 'x' })
    await fetch(`${origin}ask/markUnsaved`, {
      ...post,
      headers: { ...headers, authorization: `Bearer ${value.token}` },
      body,
    })
    run.child.kill('SIGTERM')
    expect(await run.ended).toBe(0)
    expect(run.said().out).toContain('it was kept and will be offered')
  })
})

describe('the browser’s window', () => {
  const machine = (platform: NodeJS.Platform, env: Record<string, string>) => ({ platform, env, home: folder.path })

  it('is Chromium by its path, or the first name on PATH', async () => {
    const [a, b] = [join(folder.path, 'a'), join(folder.path, 'b')]
    await mkdir(a)
    await mkdir(b)
    await writeFile(join(a, 'google-chrome'), '')
    await writeFile(join(b, 'chromium'), '')
    const PATH = [a, b].join(delimiter)
    expect(findChromium(machine('linux', { PATH }))).toBe(join(b, 'chromium'))
    expect(findChromium(machine('linux', { PATH }), ['none', 'google-chrome'])).toBe(join(a, 'google-chrome'))
    expect(findChromium(machine('linux', { PATH, CHROMIUM_PATH: join(a, 'google-chrome') }))).toBe(
      join(a, 'google-chrome'),
    )
    expect(findChromium(machine('linux', { PATH, CHROMIUM_PATH: join(a, 'none') }))).toBeUndefined()
    expect(findChromium(machine('linux', { PATH: '' }))).toBeUndefined()
  })

  it('is looked for at the usual places of macOS and Windows', async () => {
    const onMac = join(folder.path, 'Applications', 'Chromium.app', 'Contents', 'MacOS')
    await mkdir(onMac, { recursive: true })
    await writeFile(join(onMac, 'Chromium'), '')
    expect(findChromium(machine('darwin', {}))).toBe(join(onMac, 'Chromium'))
    const onWindows = join(folder.path, 'Microsoft', 'Edge', 'Application')
    await mkdir(onWindows, { recursive: true })
    await writeFile(join(onWindows, 'msedge.exe'), '')
    expect(findChromium(machine('win32', { ProgramFiles: folder.path }))).toBe(join(onWindows, 'msedge.exe'))
  })

  it('is not tried as root or without a display', () => {
    expect(noWindow(machine('linux', { DISPLAY: ':0' }), 1000)).toBeUndefined()
    expect(noWindow(machine('linux', { WAYLAND_DISPLAY: 'wayland-0' }), 1000)).toBeUndefined()
    expect(noWindow(machine('linux', { DISPLAY: ':0' }), 0)).toBe('root')
    expect(noWindow(machine('linux', {}), 1000)).toBe('no display')
    expect(noWindow(machine('darwin', {}), 0)).toBeUndefined()
    expect(noWindow(machine('win32', {}), undefined)).toBeUndefined()
  })

  it.runIf(onUnix)('opens the address without a bar, in a profile that goes with it (a stand-in)', async () => {
    const words = join(folder.path, 'words')
    const program = await script('chromium', `echo "$@" > ${words}.new; mv ${words}.new ${words}; exec sleep 60`)
    const window = await openChromium(program, 'http://127.0.0.1:1/#key')
    let said = ''
    for (let waited = 0; said === '' && waited < 200; waited++) {
      said = await readFile(words, 'utf8').catch(() => '')
      if (said === '') await new Promise((done) => setTimeout(done, 20))
    }
    expect(said).toContain('--app=http://127.0.0.1:1/#key ')
    expect(said).not.toContain('--no-sandbox')
    const profile = said.match(/--user-data-dir=(\S+)/)?.[1] ?? ''
    expect(profile.startsWith(tmpdir())).toBe(true)
    expect(await readdir(profile)).toEqual([])
    await window.close()
    await window.closed
    await expect(readdir(profile)).rejects.toThrow('ENOENT')
  })
})

describe('folders', () => {
  it('of the state are the system’s own, unless named', () => {
    const at = (platform: NodeJS.Platform, env: Record<string, string>) =>
      stateFolder({ platform, env, home: '/home/x' })
    expect(at('linux', {})).toBe(join('/home/x', '.config', 'thickset', 'state'))
    expect(at('linux', { XDG_CONFIG_HOME: '/c' })).toBe(join('/c', 'thickset', 'state'))
    expect(at('darwin', {})).toBe(join('/home/x', 'Library', 'Application Support', 'thickset', 'state'))
    expect(at('win32', { APPDATA: '/a' })).toBe(join('/a', 'thickset', 'state'))
    expect(at('linux', { THICKSET_STATE: '/s' })).toBe('/s')
  })

  it('of plans lie in the person’s documents, in the desktop’s language', async () => {
    const at = (platform: NodeJS.Platform) => plansFolder({ platform, env: {}, home: folder.path })
    expect(at('linux')).toEqual({ path: join(folder.path, 'Thickset'), name: 'Thickset' })
    await mkdir(join(folder.path, 'Documents'))
    expect(at('linux')).toEqual({ path: join(folder.path, 'Documents', 'Thickset'), name: 'Documents/Thickset' })
    await mkdir(join(folder.path, '.config'))
    await mkdir(join(folder.path, 'Dokumente'))
    await writeFile(join(folder.path, '.config', 'user-dirs.dirs'), '# x\nXDG_DOCUMENTS_DIR="$HOME/Dokumente"\n')
    expect(at('linux')).toEqual({ path: join(folder.path, 'Dokumente', 'Thickset'), name: 'Dokumente/Thickset' })
    expect(at('darwin').path).toBe(join(folder.path, 'Documents', 'Thickset'))
  })
})
