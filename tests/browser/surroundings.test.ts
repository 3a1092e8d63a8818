import type { Browser, BrowserContext, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { noBrowser, openBrowser, openPage, upToDate } from '../support/chromium.ts'
import { type Program, startProgram } from '../support/program.ts'

// Surroundings picked, adjusted, measured, and what they mean, in a real Chromium.

const FORECAST_MS = 60_000

describe.skipIf(noBrowser)('surroundings in the window', () => {
  let browser: Browser
  let program: Program
  let context: BrowserContext
  let page: Page
  let complaints: string[]

  beforeAll(async () => {
    browser = await openBrowser()
    program = await startProgram()
    context = await browser.newContext({ viewport: { width: 1280, height: 900 } })
    ;({ page, complaints } = await openPage(context, program.origin))
    await page.goto(program.address)
    await page.locator('.shelf-piece', { hasText: 'straight into a chest freezer' }).click()
    await upToDate(page)
    await page.locator('.stage-button').first().click()
  }, 120_000)
  afterAll(async () => {
    await browser?.close()
    await program?.stop()
  })

  const meaning = () => page.getByRole('region', { name: 'What these surroundings mean' })
  const field = (label: string) => page.getByLabel(label, { exact: true })

  it('tells the film of every face, the course of the air, and how the heat goes', { timeout: 120_000 }, async () => {
    await meaning().waitFor()
    const rows = await meaning().locator('tbody tr').allTextContents()
    expect(rows.length).toBeGreaterThanOrEqual(3)
    expect(rows.join(' ')).toMatch(/top\d+\.\d to \d+\.\d−\d+/)
    const ways = await meaning().getByRole('list', { name: 'How the heat goes' }).locator('li').allTextContents()
    expect(ways.join(', ')).toMatch(/evaporation \d+ %/)
    expect(ways.join(', ')).toMatch(/radiation \d+ %/)
    expect(await meaning().textContent()).toMatch(/Air \d+\.\d °C to −18\.0 °C/)
  })

  it('says whether the freezer copes', async () => {
    const card = page.locator('.answer', { hasText: 'Does it cope in “Straight into the freezer”?' })
    expect(await card.textContent()).toMatch(/Overloaded.*warms the whole of it/)
  })

  it('a stronger machine is typed and forecast; empty again, it is the usual one', { timeout: 180_000 }, async () => {
    const before = await meaning().textContent()
    await field('Its cooling power').fill('2 kW')
    await field('Its cooling power').press('Enter')
    await page
      .locator('.answer', { hasText: 'Does it cope in “Straight' })
      .locator('.word-yes')
      .waitFor({ timeout: FORECAST_MS })
    await upToDate(page)
    expect(await meaning().textContent()).not.toBe(before)
    await field('Its cooling power').fill('')
    await field('Its cooling power').press('Enter')
    await page
      .locator('.answer', { hasText: 'Does it cope in “Straight' })
      .locator('.word-no')
      .waitFor({ timeout: FORECAST_MS })
  })

  it('more is told by number: what is usual stands there, a face by itself shuts it', {
    timeout: 120_000,
  }, async () => {
    await page.getByText('More about these surroundings').click()
    expect(await field('Rated to freeze in a day').getAttribute('placeholder')).toBe('10')
    expect(await field('Room that it stands in').getAttribute('placeholder')).toBe('22')
    await field('Face').selectOption('top')
    await field('A piece alike lies against it').check()
    await upToDate(page)
    await meaning().locator('tr', { hasText: 'top' }).getByText('none').waitFor({ timeout: FORECAST_MS })
    await page.getByRole('button', { name: 'Open it', exact: true }).click()
    await field('After').fill('1 h 30 min')
    await field('For').fill('4')
    await page.getByRole('button', { name: 'Open it once more' }).click()
    expect(await field('After').nth(1).inputValue()).toBe('2.5')
    expect(await field('For').nth(1).inputValue()).toBe('4')
    await page.getByRole('button', { name: 'Take opening 2 away' }).click()
    await upToDate(page)
    await field('A piece alike lies against it').uncheck()
    await upToDate(page)
    await meaning()
      .locator('tr', { hasText: /^top\d/ })
      .waitFor({ timeout: FORECAST_MS })
  })

  it('a logger’s file becomes the air of the stage; what is none is refused', { timeout: 120_000 }, async () => {
    const file = (name: string, text: string) => ({ name, mimeType: 'text/csv', buffer: Buffer.from(text) })
    const input = page.getByLabel('File of measured air')
    await input.setInputFiles(file('none.csv', 'hello\nthere\nyou\n'))
    await page.getByRole('alert').getByText('columns').waitFor()
    await input.setInputFiles(file('log.csv', 'Zeit;Luft °C\n18:00;-18,0\n20:00;-4,5\n02:00;-17,0\n'))
    await page.getByText('Air changes along 3 points.').waitFor()
    await expect
      .poll(() => meaning().textContent(), { timeout: FORECAST_MS })
      .toMatch(/Air −18\.0 °C to −17\.0 °C, −4\.5 °C at its warmest/)
    expect(complaints).toEqual([])
  })
})
