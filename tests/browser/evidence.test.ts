import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import evidence from '../../shared/evidence/evidence.json'
import { type Evidence, totals } from '../../src/core/verification/evidence.ts'
import { noBrowser, openBrowser, openPage } from '../support/chromium.ts'
import { type Program, startProgram } from '../support/program.ts'

describe.skipIf(noBrowser)('how far to trust this, in the window', () => {
  let browser: Browser
  let program: Program
  let page: Page
  let complaints: string[]

  beforeAll(async () => {
    browser = await openBrowser()
    program = await startProgram()
    const context = await browser.newContext({ viewport: { width: 1280, height: 900 } })
    ;({ page, complaints } = await openPage(context, program.origin))
    await page.goto(program.address)
    await page.locator('.shelf-piece').first().waitFor()
  })
  afterAll(async () => {
    await browser?.close()
    await program?.stop()
  })

  const dialog = () => page.getByRole('dialog', { name: 'How far to trust this' })

  it('opens from the menu, with no plan open, and shows real figures', async () => {
    await page.getByRole('button', { name: 'Menu', exact: true }).click()
    await page.getByRole('menuitem', { name: 'How far to trust this' }).click()
    const { figures, outside } = totals(evidence as unknown as Evidence)
    await dialog()
      .getByText(`${figures.toLocaleString('en-GB')} figures from outside the program`)
      .waitFor()
    expect(
      await dialog().getByRole('table', { name: 'Figures outside their tolerance' }).locator('tbody tr').count(),
    ).toBe(outside)
    expect(
      await dialog()
        .getByRole('img', { name: /error against the exact solution/ })
        .count(),
    ).toBe(evidence.convergence.length)
    const text = (await dialog().textContent()) ?? ''
    for (const file of evidence.files) for (const one of file.cases) expect(text).toContain(one.case)
  })

  it.each([390, 800, 1440])('nothing is cut off sideways at %s px', async (width) => {
    await page.setViewportSize({ width, height: 900 })
    const body = page.getByRole('region', { name: 'The evidence, to be scrolled' })
    expect(await body.evaluate((element) => element.scrollWidth - element.clientWidth)).toBe(0)
    const folder = process.env.PICTURES
    if (folder !== undefined) await page.screenshot({ path: `${folder}/evidence-${width}.png` })
  })

  it('is left by Escape, and opens from the help too; nothing was fetched from elsewhere', async () => {
    await page.keyboard.press('Escape')
    await dialog().waitFor({ state: 'detached' })
    await page.keyboard.press('F1')
    await page.getByRole('dialog', { name: 'Help' }).getByRole('button', { name: 'How far to trust this' }).click()
    await dialog().getByText('Outside their tolerance').waitFor()
    expect(await page.getByRole('dialog').count()).toBe(1)
    expect(complaints).toEqual([])
  })
})
