import type { Browser, BrowserContext, Page } from 'playwright-core'
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import { noBrowser, openBrowser, openPage, upToDate } from '../support/chromium.ts'
import { type Program, startProgram } from '../support/program.ts'

const wide = { width: 1440, height: 900 }

describe.skipIf(noBrowser)('course, film and answers', () => {
  let browser: Browser
  let context: BrowserContext
  let program: Program
  let page: Page
  let complaints: string[]

  beforeAll(async () => {
    browser = await openBrowser()
    program = await startProgram()
    context = await browser.newContext({ viewport: wide })
    const opened = await openPage(context, program.origin)
    page = opened.page
    complaints = opened.complaints
    await page.goto(program.host.newAddress())
    // It asks for two temperatures and is judged by two rules.
    await page.getByRole('button', { name: /Semolina bar/ }).click()
    await slider().waitFor()
    // The quick forecast is followed by the standard one, which replaces it.
    await upToDate(page)
  })
  afterAll(async () => {
    await browser?.close()
    await program?.stop()
  })
  beforeEach(async () => {
    await page.setViewportSize(wide)
    await page.emulateMedia({ reducedMotion: null, colorScheme: null, forcedColors: null })
    await page.mouse.move(0, 0)
    await slider().focus()
    await page.keyboard.press('Home')
  })
  afterEach(() => expect(complaints).toEqual([]))

  const slider = () => page.getByRole('slider', { name: 'Moment' })
  const reading = (curve: string) =>
    page
      .getByRole('row', { name: new RegExp(`^${curve}\\b`) })
      .getByRole('cell')
      .last()
      .textContent()

  async function asTable(wanted: boolean): Promise<void> {
    const button = page.getByRole('button', { name: 'As a table' })
    if ((await button.getAttribute('aria-pressed')) !== String(wanted)) await button.click()
  }

  it('draws within the rules of the page', async () => {
    expect(await page.locator('.curve .recharts-line-curve').count()).toBeGreaterThanOrEqual(6)
    const painted = await page.locator('.field-picture canvas').evaluate((canvas: HTMLCanvasElement) => {
      const pixels = canvas.getContext('2d')!.getImageData(0, 0, canvas.width, canvas.height).data
      return new Set(Array.from({ length: pixels.length / 4 }, (_, i) => pixels.slice(i * 4, i * 4 + 4).join())).size
    })
    expect(painted).toBeGreaterThan(3)
  })

  it('moves through time by keyboard, and says where it is', async () => {
    await slider().focus()
    await page.keyboard.press('End')
    expect(await slider().getAttribute('aria-valuetext')).toBe('Saturday 19 June 11:00, 20 hours')
    await page.keyboard.press('Home')
    expect(await slider().getAttribute('aria-valuetext')).toBe('Friday 18 June 15:00, 0 hours')
    await page.keyboard.press('PageUp')
    await page.keyboard.press('ArrowLeft')
    const at = Number(await slider().getAttribute('aria-valuenow'))
    expect(at).toBeCloseTo(1.95, 9)
    await expect.poll(() => page.getByRole('heading', { name: /Fri 18 Jun/ }).textContent()).toContain('16:55')
  })

  it('moves through time by press and by drag, and never redraws the curves for it', async () => {
    await page.evaluate(() => {
      const seen = { changes: 0 }
      Object.assign(window, { seen })
      new MutationObserver((records) => {
        seen.changes += records.length
      }).observe(document.querySelector('.recharts-wrapper')!, { subtree: true, childList: true, attributes: true })
    })
    const box = (await page.getByTestId('plot').boundingBox())!
    await page.mouse.click(box.x + box.width / 2, box.y + 60)
    expect(Number(await slider().getAttribute('aria-valuenow'))).toBeCloseTo(10, 0)
    await page.mouse.down()
    await page.mouse.move(box.x + box.width * 0.75, box.y + 90, { steps: 8 })
    await page.mouse.up()
    expect(Number(await slider().getAttribute('aria-valuenow'))).toBeCloseTo(15, 0)
    const strip = page.getByRole('button', { name: 'Section at Fri 15:00' })
    await strip.click()
    expect(await strip.getAttribute('aria-pressed')).toBe('true')
    expect(await page.evaluate(() => (window as unknown as { seen: { changes: number } }).seen.changes)).toBe(0)
  })

  it('shows the same numbers as a table', async () => {
    await asTable(true)
    const table = page.getByRole('region', { name: 'Course as a table' })
    const heads = await table.getByRole('columnheader').allTextContents()
    expect(heads.slice(0, 5)).toEqual(['When', 'Hours', 'Stage', 'core', 'mean'])
    const row = table.getByRole('row', { name: /^Fri 16:00/ })
    const cells = await row.getByRole('cell').allTextContents()
    await slider().focus()
    await page.keyboard.press('Home')
    for (let step = 0; step < 20; step++) await page.keyboard.press('ArrowRight')
    expect(await slider().getAttribute('aria-valuetext')).toContain('16:00')
    const lastTable = page.locator('.moment-reading')
    expect(await lastTable.getByRole('row', { name: /^core/ }).getByRole('cell').textContent()).toBe(`${cells[2]} °C`)
    expect(await lastTable.getByRole('row', { name: /^mean/ }).getByRole('cell').textContent()).toBe(`${cells[3]} °C`)
  })

  it('reads the curves under the pointer until Escape', async () => {
    await asTable(false)
    const box = (await page.getByTestId('plot').boundingBox())!
    await page.mouse.move(box.x + 200, box.y + 100)
    await page.locator('.hover-reading').waitFor()
    expect(await page.locator('.hover-reading').textContent()).toMatch(/core ?\d+\.\d °C/)
    await page.keyboard.press('Escape')
    expect(await page.locator('.hover-reading').count()).toBe(0)
  })

  it('plays from frame to frame where motion is not wanted', async () => {
    await page.emulateMedia({ reducedMotion: 'reduce' })
    const at = async () => Number(await slider().getAttribute('aria-valuenow'))
    await page.getByRole('button', { name: 'Play' }).click()
    await expect.poll(at).toBeGreaterThan(0)
    await page.getByRole('button', { name: 'Pause' }).click()
    const stopped = await at()
    await page.getByRole('button', { name: 'Step on' }).click()
    expect(await at()).toBeGreaterThan(stopped)
    await page.getByRole('button', { name: 'Step back' }).click()
    expect(await at()).toBeCloseTo(stopped, 9)
  })

  it('tells danger hours of every place, and the longest in words', async () => {
    await page.getByRole('button', { name: 'Danger hours' }).click()
    const picture = page.getByRole('img', { name: /^Hours between 5 and 60 °C up to / })
    await picture.waitFor()
    expect(await picture.getAttribute('aria-label')).toMatch(/Longest, [\d½]+ h( \d+ min)?( \(.* to .*\))?: /)
  })

  it('shows what has set, what is ice, danger hours and growth by hatches too, in light, dark and forced colours', async () => {
    await page.keyboard.press('End')
    for (const media of [{ colorScheme: 'light' }, { colorScheme: 'dark' }, { forcedColors: 'active' }] as const) {
      await page.emulateMedia(media)
      for (const [button, label] of [
        ['Set', /^Set at /],
        ['Ice', /^Water that is ice at /],
        ['Danger hours', /^Hours between /],
        ['Growth', /^(What may grow|Hardly anything grows)/],
      ] as const) {
        await page.getByRole('button', { name: button, exact: true }).click()
        await page.getByRole('img', { name: label }).waitFor()
        const { bands, bar, missing, adjusted } = await page.evaluate(() => {
          const all = (of: string) => [...document.querySelectorAll<SVGElement>(of)]
          const filled = [...all('.band-hatch'), ...all('.scale-hatch')]
          const isThere = (one: SVGElement) => document.querySelector(one.getAttribute('fill')!.slice(4, -1)) !== null
          return {
            bands: all('.band-hatch').map((one) => one.dataset.hatch!),
            bar: all('.scale-hatch').length,
            missing: filled.filter((one) => !isThere(one)).length,
            adjusted: getComputedStyle(all('.field-picture')[0]!).getPropertyValue('forced-color-adjust'),
          }
        })
        expect(bands.length, button).toBeGreaterThan(0)
        // No two bands look alike, and the scale beside names every step in its hatch.
        expect(new Set(bands).size).toBe(bands.length)
        expect(bar).toBeGreaterThanOrEqual(bands.length)
        expect(missing).toBe(0)
        // Where the system chooses colours, those of the map stay: its hatches are drawn for them.
        if ('forcedColors' in media) expect(adjusted).toBe('none')
        expect((await page.locator('.film-picture').textContent())!).toMatch(/\d/)
      }
    }
    // Danger hours differ from place to place: their lines carry their values.
    await page.getByRole('button', { name: 'Danger hours' }).click()
    expect(await page.locator('.field-picture .contour-label').count()).toBeGreaterThan(0)
    await page.getByRole('button', { name: 'Temperature', exact: true }).click()
    expect(await page.locator('.band-hatch').count()).toBe(0)
  })

  it('answers with a band, opens what presses, and lights the place', async () => {
    const answers = page.locator('.answers')
    const rule = answers.getByRole('article').filter({ hasText: 'FDA Food Code 2022' }).first()
    expect(await rule.textContent()).toContain('Does not meet')
    const cooled = answers.getByRole('article', { name: /^Cooled to 5 °C/ })
    expect(await cooled.textContent()).toMatch(/\d\d:\d\d.* to .*\d\d:\d\d/)
    const head = cooled.getByRole('button', { name: /Cooled to 5 °C/ })
    if ((await head.getAttribute('aria-expanded')) === 'false') await head.click()
    await cooled.getByRole('button', { name: 'Show place' }).click()
    expect(await page.locator('.field-picture .lit-place').count()).toBe(1)
    await answers.getByText('How this was computed').click()
    expect(await answers.textContent()).toMatch(/standard, in 2 dimensions/)
    expect(await answers.textContent()).not.toMatch(/\b(safe|guaranteed|perfect|optimal|smart)\b/i)
  })

  it.each([320, 390, 800])('fits a window %i px wide', async (width) => {
    await page.setViewportSize({ width, height: 800 })
    await expect.poll(() => page.locator('.course-measure').evaluate((one) => one.clientWidth)).toBeLessThan(width)
    // What measures itself follows the window a frame or two later.
    await expect.poll(() => page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width)
    const small = await page.locator('.region-course button:visible').evaluateAll((buttons) =>
      buttons
        .map((button) => button.getBoundingClientRect())
        .filter((box) => box.width < 24 || box.height < 24)
        .map((box) => `${box.width} × ${box.height}`),
    )
    expect(small).toEqual([])
  })

  it('shows degrees Fahrenheit where they are wanted', async () => {
    await slider().focus()
    await page.keyboard.press('Home')
    const celsius = Number.parseFloat((await reading('core')) ?? '')
    await page.getByRole('button', { name: /°C/ }).first().click()
    await page
      .getByRole('menuitemradio', { name: /°F/ })
      .or(page.getByRole('menuitem', { name: /°F/ }))
      .first()
      .click()
    await expect.poll(() => reading('core')).toBe(`${(celsius * 1.8 + 32).toFixed(1)} °F`)
    expect(await page.locator('.danger-title').textContent()).toBe('Danger zone, 41 to 140 °F')
  })
})
