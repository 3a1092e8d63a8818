import { EventEmitter } from 'node:events'

/*
 * A recording fake of the parts of Electron that src/main uses. It notes every call and passes messages as Electron
 * documents it (copied, errors wrapped). It proves how we use Electron, not Electron.
 */

export interface Call {
  readonly name: string
  readonly args: readonly unknown[]
}

/** Everything that was asked of Electron, in order. */
export const calls: Call[] = []

/** What dialogs answer; set by a test. */
export const answers = {
  open: { canceled: true, filePaths: [] as string[] },
  save: { canceled: true, filePath: '' },
  message: { response: 2 },
  print: { success: true, reason: '' },
  lock: true,
}

const note = (name: string, ...args: unknown[]): void => {
  calls.push({ name, args })
}

/** The arguments of every call of a name. */
export function callsOf(name: string): (readonly unknown[])[] {
  return calls.filter((call) => call.name === name).map((call) => call.args)
}

/** An event that a listener may prevent. */
export class FakeEvent {
  defaultPrevented = false
  preventDefault(): void {
    this.defaultPrevented = true
  }
}

class FakeApp extends EventEmitter {
  isPackaged = false
  quits = 0
  enableSandbox(): void {
    note('app.enableSandbox', ready.done)
  }
  requestSingleInstanceLock(): boolean {
    note('app.requestSingleInstanceLock')
    return answers.lock
  }
  whenReady(): Promise<void> {
    return ready.promise
  }
  getPath(name: string): string {
    return `/fake/${name}`
  }
  getVersion(): string {
    return '9.8.7'
  }
  addRecentDocument(path: string): void {
    note('app.addRecentDocument', path)
  }
  /** As documented: `will-quit` may be prevented. */
  quit(): void {
    const event = new FakeEvent()
    this.emit('will-quit', event)
    if (!event.defaultPrevented) {
      this.quits++
      note('app.quit')
    }
  }
  exit(code: number): void {
    note('app.exit', code)
  }
}

function makeReady() {
  let settle: () => void = () => undefined
  const promise = new Promise<void>((settled) => {
    settle = settled
  })
  const state = {
    done: false,
    promise,
    become: (): void => {
      state.done = true
      settle()
    },
  }
  return state
}
/** `ready.become()` is Electron's start. */
export const ready = makeReady()

export const app = new FakeApp()

type PageHandler = (request: Request) => Promise<Response>
export const protocol = {
  handlers: new Map<string, PageHandler>(),
  registerSchemesAsPrivileged(schemes: unknown): void {
    note('protocol.registerSchemesAsPrivileged', schemes, ready.done)
  },
  handle(scheme: string, handler: PageHandler): void {
    note('protocol.handle', scheme)
    this.handlers.set(scheme, handler)
  },
}

type Answer<T> = (value: T) => void
class FakeSession {
  permission: ((contents: unknown, permission: string, answer: Answer<boolean>) => void) | undefined
  check: (() => boolean) | undefined
  device: (() => boolean) | undefined
  before: ((details: { url: string }, answer: Answer<{ cancel: boolean }>) => void) | undefined
  webRequest = {
    onBeforeRequest: (handler: NonNullable<FakeSession['before']>): void => {
      this.before = handler
    },
  }
  setPermissionRequestHandler(handler: NonNullable<FakeSession['permission']>): void {
    this.permission = handler
  }
  setPermissionCheckHandler(handler: () => boolean): void {
    this.check = handler
  }
  setDevicePermissionHandler(handler: () => boolean): void {
    this.device = handler
  }
}
export const session = { defaultSession: new FakeSession() }

export class FakeContents extends EventEmitter {
  openHandler: ((details: { url: string }) => { action: string }) | undefined
  readonly mainFrame = { url: '', parent: null }
  setWindowOpenHandler(handler: NonNullable<FakeContents['openHandler']>): void {
    this.openHandler = handler
  }
  send(channel: string, ...args: unknown[]): void {
    note('webContents.send', channel, ...structuredClone(args))
  }
  reload(): void {
    note('webContents.reload')
  }
  print(options: unknown, done: (success: boolean, reason: string) => void): void {
    note('webContents.print', options)
    done(answers.print.success, answers.print.reason)
  }
}

export class BrowserWindow extends EventEmitter {
  static readonly all: BrowserWindow[] = []
  readonly webContents = new FakeContents()
  readonly options: unknown
  title = ''
  edited = false
  isClosed = false
  constructor(options: unknown) {
    super()
    this.options = options
    note('new BrowserWindow', options)
    BrowserWindow.all.push(this)
  }
  async loadURL(address: string): Promise<void> {
    note('window.loadURL', address)
    this.webContents.mainFrame.url = address
  }
  show(): void {
    note('window.show')
  }
  focus(): void {
    note('window.focus')
  }
  isMinimized(): boolean {
    return true
  }
  restore(): void {
    note('window.restore')
  }
  setTitle(title: string): void {
    this.title = title
  }
  setDocumentEdited(edited: boolean): void {
    this.edited = edited
  }
  close(): void {
    const event = new FakeEvent()
    this.emit('close', event)
    if (event.defaultPrevented) return
    this.isClosed = true
    app.emit('window-all-closed')
  }
}

export const Menu = {
  setApplicationMenu(menu: unknown): void {
    note('Menu.setApplicationMenu', menu)
  },
  buildFromTemplate(template: unknown): unknown {
    return { template }
  },
}

export const nativeTheme = { shouldUseDarkColors: false }

export const dialog = {
  async showOpenDialog(_window: unknown, options: unknown): Promise<typeof answers.open> {
    note('dialog.showOpenDialog', options)
    return answers.open
  },
  async showSaveDialog(_window: unknown, options: unknown): Promise<typeof answers.save> {
    note('dialog.showSaveDialog', options)
    return answers.save
  },
  async showMessageBox(_window: unknown, options: unknown): Promise<typeof answers.message> {
    note('dialog.showMessageBox', options)
    return answers.message
  },
}

export interface Sender {
  readonly sender: unknown
  readonly senderFrame: { readonly url: string; readonly parent: unknown } | null
}
type Handler = (event: Sender, ...args: unknown[]) => unknown
export const ipcMain = {
  handlers: new Map<string, Handler>(),
  handle(channel: string, handler: Handler): void {
    if (this.handlers.has(channel)) throw new Error(`Attempted to register a second handler for '${channel}'`)
    this.handlers.set(channel, handler)
  },
}

/** A message from a page to main: copied both ways, a thrown error arrives wrapped, as Electron documents. */
export async function invoke(channel: string, request: unknown, from?: Partial<Sender>): Promise<unknown> {
  const contents = BrowserWindow.all.at(-1)?.webContents
  const handler = ipcMain.handlers.get(channel)
  if (handler === undefined) throw new Error(`No handler registered for '${channel}'`)
  const event = { sender: contents, senderFrame: contents?.mainFrame ?? null, ...from }
  try {
    return structuredClone(await handler(event, structuredClone(request)))
  } catch (error) {
    throw new Error(`Error invoking remote method '${channel}': ${error}`)
  }
}

// What the preload uses.
class FakeIpcRenderer extends EventEmitter {
  async invoke(channel: string, request: unknown): Promise<unknown> {
    note('ipcRenderer.invoke', channel, request)
    return invoke(channel, request)
  }
}
export const ipcRenderer = new FakeIpcRenderer()
export const webUtils = {
  getPathForFile(file: { readonly fakePath: string }): string {
    return file.fakePath
  },
}
export const contextBridge = {
  exposeInMainWorld(name: string, value: unknown): void {
    note('contextBridge.exposeInMainWorld', name, value)
  },
}
