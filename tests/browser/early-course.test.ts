import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { complaintsOfAxe, settled } from '../support/axe.ts'
import { noBrowser, openBrowser, openPage } from '../support/chromium.ts'
import { type Program, startProgram } from '../support/program.ts'
import { unbandedTimes } from '../support/unbanded-times.ts'

// A plan just opened: its likely course stands before its bands are computed. Until they are there the window says so,
// and tells no computed time. The finished forecast is held back here, so that it can be looked at.

const LONG = { timeout: 60_000 }

/** What is held back of what the worker says. */
interface Held {
  hold: boolean
  release?: (() => void) | undefined
}

/** Wraps workers so that a finished forecast waits. Runs within the page. */
function holdForecasts(): void {
  const held: Held = { hold: true }
  class HoldingWorker extends Worker {
    override set onmessage(hear: ((event: MessageEvent) => void) | null) {
      super.onmessage = (event: MessageEvent) => {
        if (event.data.kind === 'done' && held.hold) held.release = () => hear?.(event)
        else hear?.(event)
      }
    }
  }
  Object.assign(window, { held, Worker: HoldingWorker })
}

describe.skipIf(noBrowser)('before the bands of a first forecast', { timeout: 120_000 }, () => {
  let browser: Browser
  let program: Program
  let page: Page
  let complaints: string[]

  beforeAll(async () => {
    browser = await openBrowser()
    program = await startProgram()
  })
  afterAll(async () => {
    await browser?.close()
    await program?.stop()
  })

  async function openExample(name: string, colorScheme: 'light' | 'dark' = 'light'): Promise<void> {
    const context = await browser.newContext({ viewport: { width: 1440, height: 900 }, colorScheme })
    ;({ page, complaints } = await openPage(context, program.origin))
    await page.addInitScript(holdForecasts)
    await page.goto(program.host.newAddress())
    await page.locator('.shelf-piece', { hasText: name }).click()
    await page.getByText('early to late: being computed').waitFor(LONG)
  }
  const release = () =>
    page.evaluate(() => {
      const { held } = window as unknown as { held: Held }
      held.hold = false
      held.release?.()
    })
  const inCourse = (text: string | RegExp) => page.locator('.region-course').getByText(text)

  it('the likely course stands, no computed time is told anywhere, and all says that it is coming', async () => {
    await openExample('Vanilla half')
    expect(await page.locator('.region-course .recharts-line-curve').count()).toBeGreaterThan(3)
    expect(await page.locator('.region-course .recharts-area, .lozenge').count()).toBe(0)
    await inCourse(/Moments and answers follow with their bands, which are being computed/).waitFor()
    await page.locator('.region-answers').getByText('Answers follow with their bands').waitFor()
    await page.locator('.forecast-cell').getByText('Computing').waitFor()
    expect(await page.locator('.verdict-strip, .answer').count()).toBe(0)
    const [course = ''] = await page.locator('.region-course').allInnerTexts()
    const axis = await page.locator('.clock-axis').evaluateAll((all) => all.map((one) => one.textContent ?? ''))
    expect(unbandedTimes(course, axis.join(' ').match(/\w{3} \d+ \w{3}/g) ?? [])).toEqual([])
    // nor in what is read aloud
    const named = await page
      .locator('.region-course [aria-label]')
      .evaluateAll((all) => all.map((one) => one.getAttribute('aria-label') ?? ''))
    expect(named.some((words) => words.startsWith('Stages: A '))).toBe(true)
    expect(named.flatMap((words) => unbandedTimes(words, []))).toEqual([])
    // stages tell what was planned, not when they end by what is computed
    for (const words of await page.locator('.stage-time').allInnerTexts()) expect(words).not.toMatch(/between/)
    await release()
    await inCourse('early to late, estimated').waitFor(LONG)
    expect(await page.locator('.answer').count()).toBeGreaterThan(3)
    expect(complaints).toEqual([])
  })

  it('stopped there, it says that bands are missing, and computes them when asked', async () => {
    await openExample('Semolina')
    await page.locator('.forecast-cell').getByRole('button', { name: 'Cancel' }).click(LONG)
    await inCourse('early to late: not computed').waitFor()
    await inCourse(/bands were not computed, so no moments and answers are told/).waitFor()
    expect(await page.locator('.answer').count()).toBe(0)
    await page.evaluate(() => {
      ;(window as unknown as { held: Held }).held.hold = false
    })
    await page.locator('.forecast-cell').getByRole('button', { name: 'Compute' }).click()
    await inCourse('early to late, estimated').waitFor(LONG)
    expect(complaints).toEqual([])
  })

  it.each(['light', 'dark'] as const)('it keeps to the page and can be read, %s', async (scheme) => {
    await openExample('Berry mousse', scheme)
    for (const width of [1440, 800, 390]) {
      await page.setViewportSize({ width, height: 860 })
      if (width < 760)
        await page.getByRole('navigation', { name: 'Regions' }).getByRole('button', { name: 'Course' }).click()
      await settled(page)
      if (process.env.PICTURES) await page.screenshot({ path: `${process.env.PICTURES}/early-${scheme}-${width}.png` })
      await expect.poll(() => page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width)
      expect(await complaintsOfAxe(page)).toEqual([])
    }
  })
})
