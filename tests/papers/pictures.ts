import { cpSync, mkdirSync, mkdtempSync, rmSync } from 'node:fs'
import { homedir, tmpdir } from 'node:os'
import { join } from 'node:path'
import { pathToFileURL } from 'node:url'
import { chromium, type Page } from 'playwright-core'
import { findChromium } from '../../src/main/browser-window.ts'
import type { startHost as StartHost } from '../../src/main/host.ts'

/*
 * The pictures of the papers: the built program, in a real browser, with a plan of the stories and one of the examples.
 * Taken anew by `npm run papers -- --pictures`.
 */

const SIZE = { width: 1280, height: 800 }
const LONG = { timeout: 120_000 }

const view = (page: Page, name: string) =>
  page.getByRole('navigation', { name: 'Views' }).getByRole('button', { name }).click()

async function settled(page: Page): Promise<void> {
  await page.locator('.forecast-fresh[aria-busy=false]').waitFor(LONG)
  await page.waitForFunction(() => document.getAnimations().every(({ playState }) => playState !== 'running'))
}

/** What is shown on each picture, from the empty page on. */
const steps: readonly { readonly name: string; readonly show: (page: Page) => Promise<void> }[] = [
  { name: 'shelf', show: (page) => page.locator('.shelf-piece').last().waitFor() },
  {
    name: 'plan',
    show: async (page) => {
      await page.locator('.shelf-piece', { hasText: 'Semolina' }).click()
      await settled(page)
    },
  },
  {
    name: 'day',
    show: async (page) => {
      await page.keyboard.press('Control+O')
      await page.getByRole('dialog').getByRole('button', { name: 'measured' }).click()
      await settled(page)
      await view(page, 'On the day')
      await page
        .getByText(/Behind|On course|Ahead/)
        .first()
        .waitFor(LONG)
      await settled(page)
    },
  },
  {
    name: 'sheet',
    show: async (page) => {
      await view(page, 'Sheet')
      await page.getByRole('article', { name: 'Sheet' }).waitFor(LONG)
    },
  },
]

/** @param plan  a plan with readings, which the day is shown of */
export async function takePictures(root: string, plan: string, into: string): Promise<void> {
  const executablePath = findChromium({ platform: process.platform, env: process.env, home: homedir() })
  if (executablePath === undefined) throw new Error('no Chromium: set CHROMIUM_PATH')
  const { startHost } = (await import(pathToFileURL(join(root, 'out', 'main', 'host.js')).href)) as {
    startHost: typeof StartHost
  }
  const folder = mkdtempSync(join(tmpdir(), 'thickset-pictures-'))
  const plansFolder = join(folder, 'plans')
  mkdirSync(plansFolder)
  cpSync(plan, join(plansFolder, 'measured.thickset'))
  const host = await startHost({
    pages: join(root, 'out', 'renderer'),
    version: '0.0.0-pictures',
    plansFolderName: 'Documents/Thickset',
    stateFolder: join(folder, 'state'),
    plansFolder,
  })
  const browser = await chromium.launch({ executablePath, chromiumSandbox: process.getuid?.() !== 0 })
  const page = await browser.newPage({ viewport: SIZE, colorScheme: 'light', reducedMotion: 'reduce' })
  await page.goto(host.newAddress())
  mkdirSync(into, { recursive: true })
  for (const { name, show } of steps) {
    await show(page)
    await page.screenshot({ path: join(into, `${name}.png`) })
  }
  await browser.close()
  await host.close()
  rmSync(folder, { recursive: true, force: true })
}
