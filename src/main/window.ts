import {
  BrowserWindow,
  Menu,
  type MenuItemConstructorOptions,
  nativeTheme,
  protocol,
  type Session,
  session,
} from 'electron'
import { readPage } from './pages.ts'

/*
 * The window and everything that it may not do. The page comes from a scheme of our own, is sandboxed, gets no
 * permission, opens nothing else and reaches no network.
 */

const SCHEME = 'app'
const HOST = 'thickset'
export const PAGE_ADDRESS = `${SCHEME}://${HOST}/`

/** Must be told before the program is ready. */
export function registerScheme(): void {
  protocol.registerSchemesAsPrivileged([
    { scheme: SCHEME, privileges: { standard: true, secure: true, supportFetchAPI: true } },
  ])
}

/** True for addresses of our own page. Protocol and host are compared as such: a prefix could be forged. */
export function isOwnPage(address: string): boolean {
  try {
    const { protocol: scheme, host } = new URL(address)
    return scheme === `${SCHEME}:` && host === HOST
  } catch {
    return false
  }
}

/** Serves the built page under our scheme. */
export function servePage(folder: string): void {
  protocol.handle(SCHEME, async (request) => {
    if (!isOwnPage(request.url)) return new Response('not found', { status: 404 })
    const page = await readPage(folder, new URL(request.url).pathname)
    return new Response(page.body, { status: page.status, headers: { ...page.headers } })
  })
}

/** No permission of any kind, and no request that leaves the program. */
export function closeSession(own: Session = session.defaultSession): void {
  own.setPermissionRequestHandler((_contents, _permission, answer) => answer(false))
  own.setPermissionCheckHandler(() => false)
  own.setDevicePermissionHandler(() => false)
  own.webRequest.onBeforeRequest((details, answer) => answer({ cancel: !isLocal(details.url) }))
}

/** Our page, data that it made itself, and the developer tools (which a packed program does not open). */
function isLocal(address: string): boolean {
  return isOwnPage(address) || /^(blob|data|devtools):/.test(address)
}

/** The one window, closed in by its rules; not yet loaded. */
export function makeWindow(preload: string, packed: boolean): BrowserWindow {
  const window = new BrowserWindow({
    title: 'Thickset',
    width: 1320,
    height: 900,
    minWidth: 340,
    minHeight: 480,
    show: false,
    backgroundColor: nativeTheme.shouldUseDarkColors ? '#1C1714' : '#FBF8F2',
    webPreferences: {
      preload,
      sandbox: true,
      contextIsolation: true,
      nodeIntegration: false,
      webSecurity: true,
      webviewTag: false,
      // The spell checker would fetch dictionaries from the network.
      spellcheck: false,
      devTools: !packed,
    },
  })
  const { webContents } = window
  webContents.on('will-navigate', (event) => event.preventDefault())
  webContents.on('will-frame-navigate', (event) => event.preventDefault())
  webContents.on('will-redirect', (event) => event.preventDefault())
  webContents.on('will-attach-webview', (event) => event.preventDefault())
  // Whether the window may close is asked by the window itself; a page that objects would keep it open without a word.
  webContents.on('will-prevent-unload', (event) => event.preventDefault())
  webContents.setWindowOpenHandler(() => ({ action: 'deny' }))
  // The title tells of unsaved work; the page must not write over it.
  window.on('page-title-updated', (event) => event.preventDefault())
  window.once('ready-to-show', () => window.show())
  return window
}

/** macOS needs a menu for its own keys; elsewhere the page has every command. Undo is the page's on every system. */
export function setMenu(platform: NodeJS.Platform): void {
  if (platform !== 'darwin') {
    Menu.setApplicationMenu(null)
    return
  }
  const template: MenuItemConstructorOptions[] = [
    { role: 'appMenu' },
    { label: 'Edit', submenu: [{ role: 'cut' }, { role: 'copy' }, { role: 'paste' }, { role: 'selectAll' }] },
    { role: 'windowMenu' },
  ]
  Menu.setApplicationMenu(Menu.buildFromTemplate(template))
}
