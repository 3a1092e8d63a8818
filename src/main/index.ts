import { join, resolve } from 'node:path'
import { app, type BrowserWindow, type IpcMainInvokeEvent, ipcMain } from 'electron'
import { z } from 'zod'
import { contract, type HostEvent } from './contract.ts'
import { asEnvelope } from './envelope.ts'
import { stateFolder, thisMachine } from './folders.ts'
import { type Desk, makeAsk, openAt } from './handlers.ts'
import { PlanFiles } from './plan-files.ts'
import { Refusal } from './refusal.ts'
import { Store } from './store.ts'
import { closeSession, isOwnPage, makeWindow, PAGE_ADDRESS, registerScheme, servePage, setMenu } from './window.ts'
import { makeWindowShell } from './window-shell.ts'

/** Electron's entry: one program, one window, one desk behind it. */

/** The built program: this file is its main/index.js. */
const BUILT = join(import.meta.dirname, '..')
const PLAN_FILE = /\.(thickset|json)$/i
/** A page that dies this often within a minute is not started again. */
const MOST_DEATHS = 3

/** The plan that a command line names, if any. */
function planIn(words: readonly string[], folder: string): string | undefined {
  const word = words.find((candidate) => PLAN_FILE.test(candidate) && !candidate.startsWith('-'))
  return word === undefined ? undefined : resolve(folder, word)
}

let waiting = planIn(process.argv.slice(app.isPackaged ? 1 : 2), process.cwd())
/** Shows the window, and a plan in it; before there is a window, the plan waits. */
let show = (path: string | undefined): void => {
  waiting = path ?? waiting
}

interface PageState {
  /** The page has asked `ready` and listens; what comes before waits for that. */
  hears: boolean
}

function start(): void {
  const store = new Store(stateFolder(thisMachine()))
  servePage(join(BUILT, 'renderer'))
  closeSession()
  setMenu(process.platform)
  const window = makeWindow(join(BUILT, 'preload', 'preload.cjs'), app.isPackaged)
  const page: PageState = { hears: false }
  const desk: Desk = {
    store,
    files: new PlanFiles(),
    shell: makeWindowShell(window, process.platform),
    version: app.getVersion(),
    platform: process.platform,
    now: Date.now,
    takeOpened: () => {
      page.hears = true
      const path = waiting
      waiting = undefined
      return path
    },
  }
  openDoor(window, desk)
  receivePlans(window, desk, page)
  reviveDeadPage(window, page)
  closeStoreAtEnd(store)
  window.loadURL(PAGE_ADDRESS).catch((error: unknown) => {
    process.stderr.write(`the page could not be loaded: ${error}\n`)
    app.exit(1)
  })
}

/** Every call of the page comes in here; only our page's top frame is heard. */
function openDoor(window: BrowserWindow, desk: Desk): void {
  const ask = makeAsk(desk)
  const isOurs = (event: IpcMainInvokeEvent): boolean =>
    event.sender === window.webContents &&
    event.senderFrame !== null &&
    event.senderFrame.parent === null &&
    isOwnPage(event.senderFrame.url)
  const handle = (channel: string, work: (request: unknown) => Promise<unknown>): void => {
    ipcMain.handle(channel, (event, request: unknown) =>
      asEnvelope(async () => {
        if (!isOurs(event)) throw new Refusal('Not allowed.')
        return work(request)
      }),
    )
  }
  for (const channel of Object.keys(contract)) handle(channel, (request) => ask(channel, request))
  handle('dropped-file', async (path) => {
    const { data } = z.string().min(1).safeParse(path)
    if (data === undefined || !PLAN_FILE.test(data)) throw new Refusal('This is not a plan file (*.thickset).')
    return openAt(desk, data)
  })
}

/** Plans that are opened from outside while the window is there. */
function receivePlans(window: BrowserWindow, desk: Desk, page: PageState): void {
  const tell = (event: HostEvent): void => window.webContents.send('host-event', event)
  show = (path) => {
    if (window.isMinimized()) window.restore()
    window.focus()
    if (path === undefined) return
    if (!page.hears) {
      waiting = path
      return
    }
    asEnvelope(() => openAt(desk, path))
      .then((opened) => {
        tell(opened.ok ? { kind: 'plan-opened', plan: opened.value } : { kind: 'failed', message: opened.message })
      })
      .catch(() => undefined)
  }
}

/** A page that died is loaded again; its unsaved work is offered then. */
function reviveDeadPage(window: BrowserWindow, page: PageState): void {
  const deaths_ms: number[] = []
  window.webContents.on('render-process-gone', (_event, { reason }) => {
    if (reason === 'clean-exit') return
    page.hears = false
    process.stderr.write(`the page ended unexpectedly: ${reason}\n`)
    deaths_ms.push(Date.now())
    const lately = deaths_ms.filter((at_ms) => at_ms > Date.now() - 60_000).length
    if (lately < MOST_DEATHS) window.webContents.reload()
    else app.exit(1)
  })
}

function closeStoreAtEnd(store: Store): void {
  let closed = false
  app.on('will-quit', (event) => {
    if (closed) return
    event.preventDefault()
    const quit = (): void => {
      closed = true
      app.quit()
    }
    store.close().then(quit, quit)
  })
}

app.enableSandbox()
registerScheme()
// macOS tells of a double-clicked plan by this event, maybe before the program is ready.
app.on('open-file', (event, path) => {
  event.preventDefault()
  show(path)
})
app.on('window-all-closed', () => app.quit())
if (app.requestSingleInstanceLock()) {
  app.on('second-instance', (_event, words, folder) => {
    show(planIn(words.slice(1), folder))
  })
  app.whenReady().then(start, (error: unknown) => {
    process.stderr.write(`${error}\n`)
    app.exit(1)
  })
} else {
  app.quit()
}
