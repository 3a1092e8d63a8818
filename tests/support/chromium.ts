import { homedir } from 'node:os'
import { type Browser, type BrowserContext, chromium, type Page } from 'playwright-core'
import { findChromium } from '../../src/main/browser-window.ts'

/**
 * Debian's build without windows comes first. In the whole browser the frames of a page may stop for good when the
 * machine stalls while it opens; then nothing can be pressed any more.
 */
const WITHOUT_WINDOWS = ['chromium-headless-shell']

const found = findChromium({ platform: process.platform, env: process.env, home: homedir() }, WITHOUT_WINDOWS)

if (found === undefined && process.env.REQUIRE_BROWSER === '1') {
  throw new Error('REQUIRE_BROWSER=1, but no Chromium was found (CHROMIUM_PATH, PATH, usual places)')
}

/** For `describe.skipIf(noBrowser)`: true where no Chromium is; the suites then show as skipped. */
export const noBrowser = found === undefined

if (noBrowser) process.stderr.write('browser tests NOT RUN: no Chromium found (set CHROMIUM_PATH, or install one)\n')

/** The same drawing on every machine, no traffic of the browser's own. */
const FLAGS = [
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
  '--font-render-hinting=none',
  '--force-color-profile=srgb',
]

function options() {
  if (found === undefined) throw new Error('no Chromium')
  // the sandbox is off for root only, whom Chromium refuses otherwise
  return { executablePath: found, chromiumSandbox: process.getuid?.() !== 0, args: FLAGS }
}

/** A real Chromium without a window. */
export const openBrowser = async (): Promise<Browser> => chromium.launch(options())

/** The same in a process that can be killed. */
export async function openMortalBrowser(): Promise<{ readonly browser: Browser; readonly kill: () => Promise<void> }> {
  const server = await chromium.launchServer(options())
  return { browser: await chromium.connect(server.wsEndpoint()), kill: () => server.kill() }
}

/** A page that notes what it complains of: errors, console errors and requests that leave its origin. */
export async function openPage(
  context: BrowserContext,
  origin: string,
): Promise<{ readonly page: Page; readonly complaints: string[] }> {
  const page = await context.newPage()
  const complaints: string[] = []
  page.on('pageerror', (error) => complaints.push(`error: ${error.message}`))
  page.on('console', (message) => {
    if (message.type() === 'error') complaints.push(`console: ${message.text()}`)
  })
  page.on('request', (request) => {
    const local = request.url().startsWith(`${origin}/`) || /^(blob|data):/.test(request.url())
    if (!local) complaints.push(`request: ${request.url()}`)
  })
  return { page, complaints }
}

/** Waits until the program has drawn something that can be seen. */
export async function waitUntilDrawn(page: Page): Promise<void> {
  await page.locator('#root > *').filter({ visible: true }).first().waitFor()
}

/** The forecast of the plan as it stands, at its own fidelity, is drawn and nothing more of it is on its way. */
export const upToDate = (page: Page): Promise<void> =>
  page.locator('.forecast-fresh[aria-busy=false]').getByText('Up to date').waitFor({ timeout: 60_000 })
