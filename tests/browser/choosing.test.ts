import { mkdir, readFile, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import type { Browser, BrowserContext, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { complaintsOfAxe } from '../support/axe.ts'
import { noBrowser, openBrowser, openPage, upToDate } from '../support/chromium.ts'
import { type Program, startProgram } from '../support/program.ts'

// What would help, how sure, how far: computed beside the page, in a real Chromium.

const COMPUTED_MS = 60_000
const cream = {
  format: 'thickset-plan',
  version: 1,
  title: 'Almond cream',
  startsAt: '2027-03-12T16:00',
  fidelity: 'quick',
  materials: { cream: { fixed: { k_W_mK: 0.48, rho_kg_m3: 1050, c_J_kgK: 3500 } } },
  piece: { shape: { kind: 'sheet', area_m2: 0.2 }, fill: [{ material: 'cream', thickness_mm: 90, start_C: 75 }] },
  stages: [{ name: 'Chill', in: { air_C: 3, h_W_m2K: 8 }, until: { after_h: 30 } }],
  targets: [{ kind: 'cooled', core_C: 10, by: '2027-03-13T08:00' }],
}

describe.skipIf(noBrowser)('deciding in the window', () => {
  let browser: Browser
  let program: Program
  let context: BrowserContext
  let page: Page
  let complaints: string[]

  beforeAll(async () => {
    browser = await openBrowser()
    program = await startProgram()
    await mkdir(program.plansFolder, { recursive: true })
    await writeFile(join(program.plansFolder, 'Cream.thickset'), JSON.stringify(cream))
    context = await browser.newContext({ viewport: { width: 1280, height: 900 } })
    ;({ page, complaints } = await openPage(context, program.origin))
    await page.goto(program.address)
    await page.locator('.shelf-piece').first().waitFor()
    await page.keyboard.press('Control+O')
    await page.getByRole('dialog').getByRole('button', { name: 'Cream' }).click()
    await upToDate(page)
  }, 120_000)
  afterAll(async () => {
    await browser?.close()
    await program?.stop()
  })

  const help = () => page.getByRole('region', { name: 'What would help' })
  const sure = () => page.getByRole('region', { name: 'How sure' })
  const far = () => page.getByRole('region', { name: 'How far it may go' })
  const fillThickness = () => page.getByLabel('Thickness of layer 1', { exact: true }).inputValue()

  it('a search is stopped by its Cancel, and leaves nothing behind', async () => {
    await help().getByRole('button', { name: 'Try the changes' }).click()
    await help().getByRole('button', { name: 'Cancel' }).click()
    await help().getByRole('button', { name: 'Try the changes' }).waitFor()
    expect(await help().locator('li').count()).toBe(0)
  })

  it('changes are ranked; one is made, and taken back', { timeout: 120_000 }, async () => {
    await help().getByRole('button', { name: 'Try the changes' }).click()
    await help().locator('li').first().waitFor({ timeout: COMPUTED_MS })
    const rows = await help().locator('li').allTextContents()
    expect(rows.length).toBeGreaterThan(3)
    expect(rows.join(' ')).toMatch(/fan.* bought.*Ready .* between .* and .*Costs: /)
    const before = await fillThickness()
    const thinner = help()
      .locator('li', { hasText: /^A fifth thinner/i })
      .first()
    await thinner.getByRole('button', { name: 'Change the plan so' }).click()
    await expect.poll(fillThickness).not.toBe(before)
    await help().getByText('From before the last change').waitFor()
    await page.keyboard.press('Control+Z')
    await expect.poll(fillThickness).toBe(before)
  })

  it('a sample says how sure it is, and what drives it', { timeout: 120_000 }, async () => {
    await sure().getByRole('button', { name: 'Sample 200 pieces' }).click()
    await sure().locator('li').first().waitFor({ timeout: COMPUTED_MS })
    const told = await sure().locator('li').first().textContent()
    expect(told).toMatch(/Half of them .*5 of 100 before .*5 of 100 after /)
    expect(told).toMatch(/In time in \d+ of 100 pieces/)
    expect(told).toContain('Driven by heat passed by the air')
    // the course and the answers take its bands, and say so
    await page.getByText('early to late, sampled from 200 pieces').waitFor()
    await page.getByText('Bands of answers and rules: sampled from 200 pieces.').waitFor()
  })

  it('the furthest value is found, and the sure one taken', { timeout: 120_000 }, async () => {
    await far().getByRole('button', { name: 'Find it' }).click()
    await far()
      .getByText(/Sure up to \d+ mm, possible up to \d+ mm/)
      .waitFor({ timeout: COMPUTED_MS })
    const before = await fillThickness()
    await far().getByRole('button', { name: 'Take the sure one' }).click()
    await expect.poll(fillThickness).not.toBe(before)
    await page.getByText(/^early to late, (estimated|as wide as before)/).waitFor()
    expect(complaints).toEqual([])
  })

  it('a logger file is read on the day; what is none is refused', { timeout: 120_000 }, async () => {
    await page.getByRole('button', { name: 'On the day', exact: true }).click()
    const file = (name: string, text: string) => ({ name, mimeType: 'text/plain', buffer: Buffer.from(text) })
    const log = page.getByLabel('Logger file of readings')
    await log.setInputFiles(file('none.csv', 'hello\nthere\nyou\n'))
    const asked = page.getByRole('dialog', { name: 'A logger’s file' })
    await asked.getByText(/no columns are found/).waitFor()
    await page.keyboard.press('Escape')
    await asked.waitFor({ state: 'detached' })
    // As by a film of about 10 W/(m² K) in place of 8.
    await log.setInputFiles(file('day.csv', 'hours;core °C\n2;63,5\n4;47,2\n6;35,2\n8;26,6\n'))
    await asked.getByText(/^4 readings of core/).waitFor()
    await asked.getByRole('button', { name: 'Take these readings' }).click()
    await page.getByText('What the readings tell of the piece').waitFor({ timeout: COMPUTED_MS })
    await page.getByRole('button', { name: 'Plan', exact: true }).click()
  })

  it('is clean by axe, and fits a narrow window', async () => {
    // High enough for all of it, so that the bar at its foot lies over nothing.
    await page.setViewportSize({ width: 390, height: 6000 })
    await page.getByRole('button', { name: 'Answers', exact: true }).first().click()
    await help().waitFor()
    await expect.poll(() => page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(390)
    expect(await complaintsOfAxe(page)).toEqual([])
  })

  it('a sample that is stopped tells what it has, and that it is not whole', { timeout: 120_000 }, async () => {
    const example = join(import.meta.dirname, '..', '..', 'shared', 'examples', 'vanilla-half-round.thickset')
    const plan = { ...JSON.parse(await readFile(example, 'utf8')), fidelity: 'quick' }
    await writeFile(join(program.plansFolder, 'Half.thickset'), JSON.stringify(plan))
    const other = await browser.newContext({ viewport: { width: 1440, height: 900 } })
    ;({ page, complaints } = await openPage(other, program.origin))
    await page.goto(program.host.newAddress())
    await page.locator('.shelf-piece').first().waitFor()
    await page.keyboard.press('Control+O')
    await page.getByRole('dialog').getByRole('button', { name: 'Half' }).click()
    await page.locator('.forecast-fresh').getByText('Up to date').waitFor({ timeout: COMPUTED_MS })
    await sure().getByRole('button', { name: 'Sample 200 pieces' }).click()
    await sure().getByRole('progressbar').waitFor()
    await sure().evaluate(
      (panel) =>
        new Promise<void>((done) => {
          const look = (): void => {
            const share = panel.querySelector('progress')?.value ?? 1
            if (share <= 0.15) return void requestAnimationFrame(look)
            panel.querySelector<HTMLElement>('.choosing-running button')?.click()
            done()
          }
          look()
        }),
    )
    const note = sure().getByText(/^Stopped: from the first \d+ of 200 pieces/)
    await note.waitFor()
    const done = Number((await note.textContent())?.match(/first (\d+) of/)?.[1])
    expect(done).toBeGreaterThanOrEqual(20)
    expect(done).toBeLessThan(200)
    expect(await sure().locator('.choosing-row').first().textContent()).toMatch(/Half of them .*5 of 100/)
    await page.getByText(`early to late, sampled from ${done} pieces`).waitFor()
    if (process.env.PICTURES) {
      await note.scrollIntoViewIfNeeded()
      await page.screenshot({ path: `${process.env.PICTURES}/stopped-sample.png` })
    }
    expect(complaints).toEqual([])
  })
})
