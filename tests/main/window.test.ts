import { mkdir, readFile, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import type { Envelope, Preloaded, Reply } from '../../src/main/contract.ts'
import { CONTENT_SECURITY_POLICY } from '../../src/main/pages.ts'
import { temporaryFolder } from '../support/temporary-folder.ts'
import type * as Fake from './recording-fake.ts'

// Against the recording fake: how this program uses Electron, not how Electron behaves.

const folder = temporaryFolder()
const PLAN = '{"format": "thickset-plan"}'
let fake: typeof Fake
const argv = process.argv

beforeEach(() => {
  vi.resetModules()
  vi.stubEnv('THICKSET_STATE', join(folder.path, 'state'))
})
afterEach(() => {
  process.argv = argv
  vi.unstubAllEnvs()
})

/** Loads src/main/index.ts under a fresh fake, up to its window. */
async function start(words: readonly string[] = [], prepare: (fresh: typeof Fake) => void = () => undefined) {
  process.argv = ['electron', '.', ...words]
  fake = (await import('electron')) as unknown as typeof Fake
  prepare(fake)
  await import('../../src/main/index.ts')
  fake.ready.become()
  await vi.waitFor(() => expect(fake.callsOf('window.loadURL')).toHaveLength(1))
  const window = fake.BrowserWindow.all[0]
  if (window === undefined) throw new Error('no window')
  return window
}

/** What the page would get through the bridge. */
async function ask<T>(channel: string, request: unknown, from?: Partial<Fake.Sender>): Promise<Envelope<T>> {
  return (await fake.invoke(channel, request, from)) as Envelope<T>
}

const eventsTold = (): unknown[] => fake.callsOf('webContents.send').map(([, event]) => event)

describe('recording fake: the window', () => {
  it('is sandboxed, isolated and without Node, before anything is ready', async () => {
    const window = await start()
    expect(fake.callsOf('app.enableSandbox')).toEqual([[false]])
    expect(window.options).toMatchObject({
      webPreferences: {
        sandbox: true,
        contextIsolation: true,
        nodeIntegration: false,
        webSecurity: true,
        webviewTag: false,
        spellcheck: false,
        devTools: true,
      },
    })
    const preferences = (window.options as { webPreferences: object }).webPreferences
    const risky = /experimental|allowRunningInsecure|enableBlinkFeatures|nodeIntegrationIn|disableBlink/
    expect(Object.keys(preferences).filter((name) => risky.test(name))).toEqual([])
    expect((preferences as { preload: string }).preload).toMatch(/preload[\\/]preload\.cjs$/)
  })

  it('has no developer tools when packed', async () => {
    const window = await start([], (fresh) => {
      fresh.app.isPackaged = true
    })
    expect(window.options).toMatchObject({ webPreferences: { devTools: false } })
  })

  it('loads the page from a scheme of its own, registered before anything is ready', async () => {
    await start()
    expect(fake.callsOf('window.loadURL')).toEqual([['app://thickset/']])
    const privileges = { standard: true, secure: true, supportFetchAPI: true }
    expect(fake.callsOf('protocol.registerSchemesAsPrivileged')).toEqual([[[{ scheme: 'app', privileges }], false]])
  })

  it('serves only the page, with its rules', async () => {
    await start()
    const serve = fake.protocol.handlers.get('app')
    const get = async (address: string): Promise<Response> => (await serve?.(new Request(address))) as Response
    const refused = await get('app://thickset/main/index.ts')
    expect(refused.status).toBe(404)
    expect(refused.headers.get('content-security-policy')).toBe(CONTENT_SECURITY_POLICY)
    expect((await get('app://elsewhere/index.html')).status).toBe(404)
    expect((await get('app://thickset/%2e%2e/package.json')).status).toBe(404)
    // From the sources, the folder of the page holds its unbuilt index.html.
    const page = await get('app://thickset/')
    expect(page.status).toBe(200)
    expect(await page.text()).toContain('<div id="root">')
  })

  it('goes nowhere else and opens nothing', async () => {
    const window = await start()
    for (const name of ['will-navigate', 'will-frame-navigate', 'will-redirect', 'will-attach-webview']) {
      const event = new fake.FakeEvent()
      window.webContents.emit(name, event)
      expect(event.defaultPrevented, name).toBe(true)
    }
    expect(window.webContents.openHandler?.({ url: 'https://example.org' })).toEqual({ action: 'deny' })
  })

  it('gets no permission and reaches no network', async () => {
    await start()
    const own = fake.session.defaultSession
    for (const permission of [
      'media',
      'geolocation',
      'notifications',
      'clipboard-read',
      'fullscreen',
      'openExternal',
    ]) {
      const answer = vi.fn()
      own.permission?.(null, permission, answer)
      expect(answer).toHaveBeenCalledExactlyOnceWith(false)
    }
    expect(own.check?.()).toBe(false)
    expect(own.device?.()).toBe(false)
    const isCancelled = (url: string): boolean => {
      let cancelled = false
      own.before?.({ url }, ({ cancel }) => {
        cancelled = cancel
      })
      return cancelled
    }
    expect(['app://thickset/assets/a.js', 'blob:app://thickset/1', 'data:,x'].map(isCancelled)).toEqual([
      false,
      false,
      false,
    ])
    const outside = ['https://example.org/', 'http://127.0.0.1/', 'ws://x/', 'file:///etc/passwd', 'app://other/']
    expect(outside.map(isCancelled)).toEqual([true, true, true, true, true])
  })

  it('is the only one: a second start shows it and hands over its plan', async () => {
    const path = join(folder.path, 'second.thickset')
    await writeFile(path, PLAN)
    await start()
    await ask('ready', {})
    fake.app.emit('second-instance', {}, ['electron', '.', 'second.thickset'], folder.path)
    await vi.waitFor(() => expect(eventsTold()).toHaveLength(1))
    expect(eventsTold()[0]).toMatchObject({ kind: 'plan-opened', plan: { name: 'second', text: PLAN } })
    expect(fake.callsOf('window.focus')).toHaveLength(1)
    fake.app.emit('second-instance', {}, ['electron', '.'], folder.path)
    expect(fake.callsOf('window.focus')).toHaveLength(2)
  })

  it('is not made by a second start', async () => {
    process.argv = ['electron', '.']
    fake = (await import('electron')) as unknown as typeof Fake
    fake.answers.lock = false
    await import('../../src/main/index.ts')
    fake.ready.become()
    await fake.ready.promise
    expect(fake.callsOf('app.quit')).toHaveLength(1)
    expect(fake.BrowserWindow.all).toEqual([])
  })

  it('ends the program when it is closed', async () => {
    const window = await start()
    window.close()
    await vi.waitFor(() => expect(fake.app.quits).toBe(1))
  })

  it('comes back when the page dies, but not for ever', async () => {
    const window = await start()
    const said = vi.spyOn(process.stderr, 'write').mockReturnValue(true)
    const die = (reason: string) => window.webContents.emit('render-process-gone', {}, { reason })
    die('clean-exit')
    expect(fake.callsOf('webContents.reload')).toHaveLength(0)
    die('crashed')
    die('oom')
    expect(fake.callsOf('webContents.reload')).toHaveLength(2)
    die('crashed')
    expect(fake.callsOf('app.exit')).toEqual([[1]])
    expect(said).toHaveBeenCalledTimes(3)
    said.mockRestore()
  })
})

describe('recording fake: calls of the page', () => {
  it('are answered for our page', async () => {
    await start()
    const reply = await ask<Reply<'ready'>>('ready', {})
    expect(reply).toMatchObject({ ok: true, value: { program: 'window', version: '9.8.7', plansFolder: '' } })
  })

  it('are refused for every other sender', async () => {
    const window = await start()
    const frame = (url: string, parent: unknown = null) => ({ senderFrame: { url, parent } })
    const strangers: Partial<Fake.Sender>[] = [
      frame('https://example.org/'),
      frame('app://thickset.example.org/'),
      frame('file:///index.html'),
      frame('not an address'),
      frame('app://thickset/', window.webContents.mainFrame),
      { senderFrame: null },
      { sender: new fake.FakeContents() },
    ]
    for (const stranger of strangers) {
      expect(await ask('ready', {}, stranger)).toEqual({ ok: false, message: 'Not allowed.' })
      expect(await ask('dropped-file', '/x.thickset', stranger)).toEqual({ ok: false, message: 'Not allowed.' })
    }
  })

  it('have one handler each: those of the contract, and dropped files', async () => {
    await start()
    const { contract } = await import('../../src/main/contract.ts')
    expect([...fake.ipcMain.handlers.keys()].sort()).toEqual([...Object.keys(contract), 'dropped-file'].sort())
  })

  it('tell of failures without paths', async () => {
    await start()
    await writeFile(join(folder.path, 'state'), 'a file where the folder should be')
    const settings = { temperature: 'C', length: 'mm', mass: 'kg', theme: 'dark', paper: 'A4' }
    expect(await ask('writeSettings', { settings })).toEqual({
      ok: false,
      message: expect.stringMatching(/^The folder or file for it is not what it should be\. [^/\\]*$/),
    })
  })

  it('open and save by dialogs', async () => {
    await start()
    const path = join(folder.path, 'chosen.thickset')
    fake.answers.save = { canceled: false, filePath: path }
    expect(await ask('savePlanAs', { name: 'Lemon: half/round', text: PLAN })).toMatchObject({
      ok: true,
      value: { outcome: 'saved', plan: { name: 'chosen' } },
    })
    expect(fake.callsOf('dialog.showSaveDialog')[0]?.[0]).toMatchObject({
      defaultPath: join('/fake/documents', 'Lemon- half-round.thickset'),
      filters: [{ extensions: ['thickset'] }],
    })
    fake.answers.open = { canceled: false, filePaths: [path] }
    expect(await ask('openPlan', {})).toMatchObject({ ok: true, value: { outcome: 'opened', plan: { text: PLAN } } })
    expect(fake.callsOf('dialog.showOpenDialog')[0]?.[0]).toMatchObject({
      defaultPath: folder.path,
      properties: ['openFile'],
    })
    expect(fake.callsOf('app.addRecentDocument')).toEqual([[path], [path]])
  })

  it('add the ending that a dialog left out, and then replace nothing', async () => {
    await start()
    await writeFile(join(folder.path, 'bare.thickset'), 'old')
    fake.answers.save = { canceled: false, filePath: join(folder.path, 'bare') }
    expect(await ask('savePlanAs', { name: 'x', text: PLAN })).toMatchObject({ value: { plan: { name: 'bare 2' } } })
    expect(await readFile(join(folder.path, 'bare.thickset'), 'utf8')).toBe('old')
  })

  it('print, and write the sheet', async () => {
    await start()
    expect(await ask('print', {})).toEqual({ ok: true, value: {} })
    expect(fake.callsOf('webContents.print')).toEqual([[{ printBackground: true }]])
    fake.answers.print = { success: false, reason: 'Print job canceled' }
    expect(await ask('print', {})).toMatchObject({ ok: true })
    fake.answers.print = { success: false, reason: 'no printer' }
    expect(await ask('print', {})).toEqual({ ok: false, message: 'Printing failed: no printer' })

    const path = join(folder.path, 'sheet.pdf')
    fake.answers.save = { canceled: false, filePath: path }
    const page = { title: 'Bar', facts: [], blocks: [] }
    const saved = await ask('saveSheet', { name: 'Sheet', page, paper: 'Letter' })
    expect(saved).toMatchObject({ value: { name: 'sheet.pdf' } })
    expect((await readFile(path, 'latin1')).startsWith('%PDF-')).toBe(true)
  })
})

describe('recording fake: plans from outside', () => {
  it('named on the command line are there at the start', async () => {
    const path = join(folder.path, 'given.thickset')
    await writeFile(path, PLAN)
    await start(['--some-flag.json', path])
    expect(await ask('ready', {})).toMatchObject({ value: { opened: { name: 'given', text: PLAN } } })
    expect(await ask('ready', {})).toMatchObject({ value: { opened: null } })
  })

  it('double-clicked on macOS before the start are there too', async () => {
    const path = join(folder.path, 'early.thickset')
    await writeFile(path, PLAN)
    process.argv = ['electron', '.']
    fake = (await import('electron')) as unknown as typeof Fake
    await import('../../src/main/index.ts')
    const event = new fake.FakeEvent()
    fake.app.emit('open-file', event, path)
    expect(event.defaultPrevented).toBe(true)
    fake.ready.become()
    await vi.waitFor(() => expect(fake.callsOf('window.loadURL')).toHaveLength(1))
    expect(await ask('ready', {})).toMatchObject({ value: { opened: { name: 'early' } } })
  })

  it('opened before the page listens wait for it', async () => {
    const path = join(folder.path, 'early.thickset')
    await writeFile(path, PLAN)
    await start()
    fake.app.emit('second-instance', {}, ['electron', '.', path], folder.path)
    expect(await ask('ready', {})).toMatchObject({ value: { opened: { name: 'early' } } })
    expect(eventsTold()).toEqual([])
  })

  it('opened later are told to the page, or why not', async () => {
    await start()
    await ask('ready', {})
    fake.app.emit('open-file', new fake.FakeEvent(), join(folder.path, 'gone.thickset'))
    await vi.waitFor(() => expect(eventsTold()).toHaveLength(1))
    expect(eventsTold()).toEqual([{ kind: 'failed', message: '"gone.thickset" is not there any more.' }])
  })

  it('dropped on the window are opened by their path, if they are plans', async () => {
    await start()
    const path = join(folder.path, 'dropped.thickset')
    await writeFile(path, PLAN)
    expect(await ask('dropped-file', path)).toMatchObject({ ok: true, value: { name: 'dropped', text: PLAN } })
    for (const other of ['', 7, null, '/etc/passwd', join(folder.path, 'x.txt')]) {
      expect(await ask('dropped-file', other)).toEqual({
        ok: false,
        message: 'This is not a plan file (*.thickset).',
      })
    }
    await mkdir(join(folder.path, 'folder.thickset'))
    expect(await ask('dropped-file', join(folder.path, 'folder.thickset'))).toMatchObject({ ok: false })
  })
})

describe('recording fake: closing', () => {
  const mark = (unsaved: boolean) => ask('markUnsaved', { unsaved, name: 'Lemon' })

  it('asks nothing when all is saved', async () => {
    const window = await start()
    await mark(false)
    window.close()
    expect(window.isClosed).toBe(true)
    expect(fake.callsOf('dialog.showMessageBox')).toEqual([])
  })

  it('asks when there is unsaved work, and stays on "Keep editing"', async () => {
    const window = await start()
    await mark(true)
    expect([window.title, window.edited]).toEqual([expect.stringContaining('Lemon'), true])
    window.close()
    window.close()
    await vi.waitFor(() => expect(fake.callsOf('dialog.showMessageBox')).toHaveLength(1))
    expect(fake.callsOf('dialog.showMessageBox')[0]?.[0]).toMatchObject({
      buttons: ['Save', 'Close without saving', 'Keep editing'],
      defaultId: 0,
      cancelId: 2,
    })
    await new Promise((done) => setTimeout(done))
    expect(window.isClosed).toBe(false)
    window.close()
    await vi.waitFor(() => expect(fake.callsOf('dialog.showMessageBox')).toHaveLength(2))
  })

  it('is not held up by a page that objects', async () => {
    const window = await start()
    const event = new fake.FakeEvent()
    window.webContents.emit('will-prevent-unload', event)
    expect(event.defaultPrevented).toBe(true)
  })

  it('closes without saving when told so', async () => {
    const window = await start()
    await mark(true)
    fake.answers.message = { response: 1 }
    window.close()
    await vi.waitFor(() => expect(window.isClosed).toBe(true))
  })

  it('lets the page save first, and leaves only when that is done', async () => {
    const window = await start()
    await mark(true)
    fake.answers.message = { response: 0 }
    window.close()
    await vi.waitFor(() => expect(eventsTold()).toEqual([{ kind: 'save-asked' }]))
    await ask('leave', {})
    expect(window.isClosed).toBe(false)
    await mark(false)
    await ask('leave', {})
    expect(window.isClosed).toBe(true)
  })
})

describe('recording fake: the preload', () => {
  async function preload(): Promise<Preloaded> {
    await start()
    await import('../../src/main/preload.ts')
    const [[name, value] = []] = fake.callsOf('contextBridge.exposeInMainWorld')
    expect(name).toBe('thickset')
    return value as Preloaded
  }

  it('gives the page three functions, and nothing of Electron', async () => {
    const preloaded = await preload()
    expect(Object.keys(preloaded).sort()).toEqual(['ask', 'listen', 'openDropped'])
  })

  it('passes exactly the calls of the contract', async () => {
    const { ask: askThrough } = await preload()
    const { contract } = await import('../../src/main/contract.ts')
    const reached = (): unknown[] => fake.callsOf('ipcRenderer.invoke').map(([channel]) => channel)
    for (const channel of Object.keys(contract)) await askThrough(channel as 'beat', {})
    expect(reached()).toEqual(Object.keys(contract))
    expect(await askThrough('dropped-file' as 'beat', '/x.thickset')).toMatchObject({ ok: false })
    expect(await askThrough('toString' as 'beat', {})).toMatchObject({ ok: false })
    expect(reached()).toEqual(Object.keys(contract))
  })

  it('sends the path of a dropped file to main, never to the page', async () => {
    const { openDropped } = await preload()
    const path = join(folder.path, 'dropped.thickset')
    await writeFile(path, PLAN)
    const opened = await openDropped({ fakePath: path } as unknown as File)
    expect(opened).toMatchObject({ ok: true, value: { name: 'dropped' } })
    expect(JSON.stringify(opened)).not.toContain(folder.path)
  })

  it('lets the page hear events without the event object, and stop', async () => {
    const { listen } = await preload()
    const hear = vi.fn()
    const stop = listen(hear)
    fake.ipcRenderer.emit('host-event', { sender: 'secret' }, { kind: 'save-asked' })
    expect(hear).toHaveBeenCalledExactlyOnceWith({ kind: 'save-asked' })
    stop()
    fake.ipcRenderer.emit('host-event', {}, { kind: 'save-asked' })
    expect(hear).toHaveBeenCalledOnce()
  })
})
