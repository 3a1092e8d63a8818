import { readdir, readFile } from 'node:fs/promises'
import { join } from 'node:path'
import type { Browser, BrowserContext, Page } from 'playwright-core'
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import { settled } from '../support/axe.ts'
import { noBrowser, openBrowser, openPage, upToDate } from '../support/chromium.ts'
import { type Program, startProgram } from '../support/program.ts'

// The sheet of an example in the program's loopback host, in a real Chromium.

let browser: Browser
let program: Program
let context: BrowserContext
let page: Page

async function openSheet(options: Parameters<Browser['newContext']>[0]): Promise<void> {
  context = await browser.newContext(options)
  ;({ page } = await openPage(context, program.origin))
  await page.goto(program.host.newAddress())
  await page.locator('.shelf-piece', { hasText: 'Semolina' }).click()
  await upToDate(page)
  await page.getByRole('button', { name: 'Sheet', exact: true }).click()
  await page.getByRole('article', { name: 'Sheet' }).waitFor()
}

const look = (name: string) =>
  process.env.LOOK === undefined
    ? undefined
    : page.screenshot({ path: join(process.env.LOOK, `${name}.png`), fullPage: true })

const exported = async (ending: string): Promise<string | undefined> => {
  const folder = join(program.plansFolder, 'Exports')
  const names = await readdir(folder).catch(() => [])
  const found = names.find((name) => name.endsWith(ending))
  return found === undefined ? undefined : join(folder, found)
}

describe.skipIf(noBrowser)('the sheet', () => {
  beforeAll(async () => {
    browser = await openBrowser()
  })
  afterAll(() => browser?.close())
  beforeEach(async () => {
    program = await startProgram()
  })
  afterEach(async () => {
    await context.close()
    await program.stop()
  })

  it('shows stages by the clock, checks with blanks, quantities and cautions, and gives them out', async () => {
    await openSheet({ viewport: { width: 1280, height: 900 } })
    const sheet = page.getByRole('article', { name: 'Sheet' })
    for (const heading of ['Stages', 'Checks', 'Answers', 'Quantities', 'Cautions'])
      await sheet.getByRole('heading', { name: heading, exact: true }).waitFor()
    const checks = sheet.getByRole('table', { name: 'Checks' })
    expect(await checks.getByRole('columnheader').allTextContents()).toEqual([
      'When',
      'What for',
      'Expect',
      'Early to late',
      'Measured',
      'Time',
      'Initials',
    ])
    await sheet.getByText('Sat 19 Jun, 06:00').first().waitFor()
    await look('sheet-light-1280')
    await page.getByRole('button', { name: 'Save as PDF' }).click()
    await page
      .getByText(/^Saved .*\.pdf in /)
      .last()
      .waitFor()
    const pdf = await readFile((await exported('.pdf')) ?? '', 'latin1')
    expect(pdf.startsWith('%PDF-')).toBe(true)
    await page.getByRole('button', { name: 'Check times to calendar' }).click()
    await page
      .getByText(/^Saved .*\.ics in /)
      .last()
      .waitFor()
    expect(await readFile((await exported('.ics')) ?? '', 'utf8')).toContain('DTSTART:20270619T060000')
    await page.getByRole('button', { name: 'Curves as CSV' }).click()
    await page
      .getByText(/^Saved .*\.csv in /)
      .last()
      .waitFor()
    await page.getByRole('button', { name: 'Plan', exact: true }).click()
    await page.getByRole('region', { name: 'Course' }).waitFor()
  })

  it('prints the page alone', async () => {
    await openSheet({ viewport: { width: 1280, height: 900 } })
    await page.emulateMedia({ media: 'print' })
    expect(await page.locator('.title-block').isVisible()).toBe(false)
    expect(await page.locator('.sheet-options').isVisible()).toBe(false)
    await page.getByRole('article', { name: 'Sheet' }).waitFor()
    const printed = (await page.pdf({ format: 'A4' })).toString('latin1')
    expect(printed.match(/\/Type \/Page\b(?!s)/g)?.length).toBeLessThanOrEqual(2)
  })

  it('fits every width', async () => {
    await openSheet({ viewport: { width: 1280, height: 844 } })
    for (const [width, colorScheme] of [
      [1280, 'light'],
      [800, 'dark'],
      [390, 'light'],
      [320, 'dark'],
    ] as const) {
      await page.setViewportSize({ width, height: 844 })
      await page.emulateMedia({ colorScheme })
      await settled(page)
      await expect.poll(() => page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width)
      await look(`sheet-${colorScheme}-${width}`)
    }
  })
})
