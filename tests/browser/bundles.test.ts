import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { pathToFileURL } from 'node:url'
import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest'
import type { Envelope, OpenedPlan, Reply } from '../../src/main/contract.ts'
import type {} from '../../src/renderer/bridge.ts'
import type * as Fake from '../main/recording-fake.ts'
import { noBrowser, openBrowser, openPage, waitUntilDrawn } from '../support/chromium.ts'

// The three built bundles together: main under the recording fake, the preload and the page in a real Chromium. The
// fake stands between them where Electron would: it shows that the bundles fit each other, not how Electron behaves.

const out = join(import.meta.dirname, '..', '..', 'out')
const ORIGIN = 'https://thickset.test'

describe.skipIf(noBrowser)('the built main, preload and page together (recording fake)', () => {
  let browser: Browser
  let page: Page
  let complaints: string[]
  let folder: string
  let fake: typeof Fake
  const argv = process.argv

  beforeAll(async () => {
    folder = await mkdtemp(join(tmpdir(), 'thickset-test-'))
    vi.stubEnv('THICKSET_STATE', join(folder, 'state'))
    process.argv = ['electron', '.']
    fake = (await import('electron')) as unknown as typeof Fake
    await import(pathToFileURL(join(out, 'main', 'index.js')).href)
    fake.ready.become()
    await vi.waitFor(() => expect(fake.callsOf('window.loadURL')).toEqual([['app://thickset/']]))

    browser = await openBrowser()
    const context = await browser.newContext()
    const serve = fake.protocol.handlers.get('app')
    await context.route(`${ORIGIN}/**`, async (route) => {
      const asked = new Request(route.request().url().replace(ORIGIN, 'app://thickset'))
      const answer = await serve?.(asked)
      if (answer === undefined) return route.abort()
      const headers = Object.fromEntries(answer.headers)
      return route.fulfill({ status: answer.status, headers, body: Buffer.from(await answer.arrayBuffer()) })
    })
    await context.exposeFunction('passToMain', (channel: string, request: unknown) => fake.invoke(channel, request))
    await context.addInitScript(preloadRunner, await readFile(join(out, 'preload', 'preload.cjs'), 'utf8'))
    ;({ page, complaints } = await openPage(context, ORIGIN))
    await page.goto(`${ORIGIN}/`)
  })
  afterAll(async () => {
    process.argv = argv
    vi.unstubAllEnvs()
    await browser?.close()
    await rm(folder, { recursive: true, force: true })
  })

  it('draw a page that knows that it has its own window', async () => {
    await waitUntilDrawn(page)
    expect(complaints).toEqual([])
    expect(await page.title()).toContain('Thickset')
  })

  it('pass calls from the page to main and back', async () => {
    const ready = (await page.evaluate(() => window.thickset?.ask('ready', {}))) as Envelope<Reply<'ready'>>
    expect(ready).toMatchObject({ ok: true, value: { program: 'window', version: '9.8.7' } })
    const refused = await page.evaluate(() => window.thickset?.ask('openPlan', { id: '../x' }))
    expect(refused).toMatchObject({ ok: false, message: expect.stringContaining('"openPlan" was asked wrongly') })
  })

  it('open a dropped file by its path, which the page never sees', async () => {
    const path = join(folder, 'dropped.thickset')
    await writeFile(path, '{"title": "Dropped"}')
    const opened = (await page.evaluate(
      (name) => window.thickset?.openDropped(new File([], name)),
      path,
    )) as Envelope<OpenedPlan>
    expect(opened).toMatchObject({ ok: true, value: { name: 'dropped', text: '{"title": "Dropped"}' } })
    expect(JSON.stringify(opened)).not.toContain(folder)
  })

  it('leave the page nothing of Node or Electron', async () => {
    const there = await page.evaluate(() =>
      ['require', 'process', 'module', 'Buffer', 'ipcRenderer'].filter((name) => name in window),
    )
    expect(there).toEqual([])
  })
})

/** Runs the built preload before the page, with a `require` that knows `electron` alone, as the sandbox does. */
function preloadRunner(source: string): void {
  const passToMain = (window as unknown as { passToMain: (channel: string, request: unknown) => Promise<unknown> })
    .passToMain
  const electron = {
    contextBridge: {
      exposeInMainWorld: (name: string, value: unknown) => Object.defineProperty(window, name, { value }),
    },
    ipcRenderer: { invoke: passToMain, on: () => undefined, removeListener: () => undefined },
    webUtils: { getPathForFile: (file: File) => file.name },
  }
  const need = (name: string): unknown => {
    if (name === 'electron') return electron
    throw new Error(`the preload asked for ${name}`)
  }
  new Function('require', 'module', 'exports', source)(need, { exports: {} }, {})
}
