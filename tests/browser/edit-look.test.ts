import type { Browser, BrowserContext, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { noBrowser, openBrowser, openPage } from '../support/chromium.ts'
import { type Program, startProgram } from '../support/program.ts'

// The window at every width, light and dark: nothing scrolls sideways, everything has room for a finger. What axe finds is looked for in wcag.test.ts.

const widths = [320, 390, 759, 760, 800, 1199, 1200, 1280, 1440, 2560] as const

describe.skipIf(noBrowser)('the window', () => {
  let browser: Browser
  let program: Program
  let context: BrowserContext
  let page: Page

  beforeAll(async () => {
    browser = await openBrowser()
    program = await startProgram()
    context = await browser.newContext({ viewport: { width: 1440, height: 900 } })
    ;({ page } = await openPage(context, program.origin))
    await page.goto(program.address)
    await page.locator('.shelf-piece').first().waitFor()
  })
  afterAll(async () => {
    await browser?.close()
    await program?.stop()
  })

  const regions = async (width: number, look: () => Promise<void>): Promise<void> => {
    if (width >= 760 || (await page.locator('.region-bar').count()) === 0) return look()
    for (const name of ['Piece', 'Course', 'Answers']) {
      await page.getByRole('navigation', { name: 'Regions' }).getByRole('button', { name }).click()
      await look()
    }
  }

  const scrollsSideways = async (): Promise<number[]> => {
    const found: number[] = []
    for (const width of widths) {
      await page.setViewportSize({ width, height: 800 })
      await page.waitForTimeout(120)
      await regions(width, async () => {
        if ((await page.evaluate(() => document.documentElement.scrollWidth)) > width) found.push(width)
      })
    }
    await page.setViewportSize({ width: 1440, height: 900 })
    return found
  }

  it('empty, fits every width', async () => {
    expect(await scrollsSideways()).toEqual([])
  })

  it('with a plan, fits every width', async () => {
    await page.locator('.shelf-piece').nth(1).click()
    await page.locator('.forecast-fresh').waitFor({ timeout: 30_000 })
    await page.getByRole('button', { name: /^Layer 1,.*in the drawing$/ }).click()
    await page.locator('.stage-button').first().click()
    expect(await scrollsSideways()).toEqual([])
  })

  it('is light or dark as is chosen', async () => {
    await page.getByRole('button', { name: 'Dark', exact: true }).click()
    expect(await page.evaluate(() => getComputedStyle(document.body).backgroundColor)).toBe('rgb(28, 23, 20)')
    await page.getByRole('button', { name: 'Light', exact: true }).click()
  })

  it('has room for a finger on every control of the plan: 24 px at least, the usual ones 40', async () => {
    const sizes = await page.evaluate(() =>
      [...document.querySelectorAll('.title-block, .region-piece, .questions')].flatMap((place) =>
        [
          ...place.querySelectorAll<HTMLElement>(
            'button, select, [role=slider], input:not([type=checkbox]), label:has(input)',
          ),
        ]
          .filter((one) => one.offsetParent !== null)
          .map((one) => {
            const { width, height } = one.getBoundingClientRect()
            const inDrawing = one.closest('.section-drawing') !== null
            return {
              name: one.getAttribute('aria-label') ?? one.textContent,
              width,
              height,
              least: inDrawing ? 24 : 40,
            }
          }),
      ),
    )
    expect(sizes.length).toBeGreaterThan(40)
    expect(sizes.filter(({ width, height, least }) => width < 24 || height < least)).toEqual([])
  })

  it('the shipped font is the one that is drawn', async () => {
    const loaded = await page.evaluate(() => document.fonts.check('16px "Atkinson Hyperlegible Next Variable"'))
    expect(loaded).toBe(true)
  })
})
