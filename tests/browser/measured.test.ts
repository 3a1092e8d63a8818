import { mkdir, readFile, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import type { Browser, BrowserContext, Page } from 'playwright-core'
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import { type Kept, nothingKept } from '../../src/core/fitting/kept.ts'
import type { Plan } from '../../src/core/plan/schema/plan.ts'
import { noBrowser, openBrowser, openPage } from '../support/chromium.ts'
import { type Program, startProgram } from '../support/program.ts'

// What readings tell of a fridge and of a mass is kept, and taken over by another plan: in the loopback host in a real
// Chromium.

const LONG = { timeout: 90_000 }

/** A sheet measured on its day: warmer throughout than planned, and one reading that can't be right. */
const measured: Plan = {
  format: 'thickset-plan',
  version: 1,
  title: 'Trial of pudding',
  startsAt: '2027-03-12T16:00',
  fidelity: 'quick',
  piece: { shape: { kind: 'sheet' }, fill: [{ material: 'milk-pudding', thickness_mm: 60, start_C: 70 }] },
  stages: [{ name: 'Fridge', in: 'cabinet-fridge', until: { after_h: 24 } }],
  targets: [{ kind: 'cooled', core_C: 8, by: '2027-03-13T06:00' }],
  probes: [{ name: 'heart', x: 0.5, y: 0.5 }],
  readings: [
    [0.5, 64.5],
    [1, 57.5],
    [2, 47.5],
    [3, 39.5],
    [4, 40],
    [5, 27.2],
    [6, 23],
    [7, 19.3],
  ].map(([at_h = 0, C = 0]) => ({ probe: 'heart', at_h, C })),
}
const { readings: _, ...later }: Plan = {
  ...measured,
  title: 'Big pudding',
  piece: { shape: { kind: 'sheet' }, fill: [{ material: 'milk-pudding', thickness_mm: 80, start_C: 70 }] },
}

describe.skipIf(noBrowser)('what was measured', { timeout: 240_000 }, () => {
  let browser: Browser
  let program: Program
  let context: BrowserContext
  let page: Page
  let complaints: string[]

  beforeAll(async () => {
    browser = await openBrowser()
  })
  afterAll(() => browser?.close())
  beforeEach(async () => {
    program = await startProgram()
    await mkdir(program.plansFolder, { recursive: true })
    await writeFile(join(program.plansFolder, 'Trial.thickset'), JSON.stringify(measured))
    await writeFile(join(program.plansFolder, 'Big.thickset'), JSON.stringify(later))
    context = await browser.newContext({ viewport: { width: 1440, height: 900 } })
    ;({ page, complaints } = await openPage(context, program.origin))
    await page.goto(program.host.newAddress())
    await page.getByRole('heading', { name: 'Start from a piece like yours' }).waitFor()
  })
  afterEach(async () => {
    expect(complaints).toEqual([])
    await context.close()
    await program.stop()
  })

  const open = async (name: string): Promise<void> => {
    await page.keyboard.press('Control+O')
    await page.getByRole('dialog').getByRole('button', { name }).click()
    await page.locator('.forecast-fresh[aria-busy=false]').waitFor(LONG)
  }
  const view = (name: string) => page.getByRole('navigation', { name: 'Views' }).getByRole('button', { name }).click()
  const saved = async (name: string): Promise<Plan> =>
    JSON.parse(await readFile(join(program.plansFolder, `${name}.thickset`), 'utf8')) as Plan
  const kept = async (): Promise<Kept> =>
    JSON.parse(await readFile(join(program.stateFolder, 'measured.json'), 'utf8')) as Kept

  it('on the day it is shown against what was computed, and kept; a later plan takes it over, and it is forgotten', async () => {
    await open('Trial')
    await view('On the day')
    await page.locator('.day-statement b', { hasText: /Ahead|On course|Behind/ }).waitFor(LONG)
    await page.getByText('What the readings tell of the piece').click()
    const plot = page.getByRole('figure', { name: /^Measured less computed: 7 of 8 readings within/ })
    await plot.waitFor()
    expect(await plot.locator('.residual-mark').count()).toBe(8)
    expect(await plot.locator('.residual-cross').count()).toBe(1)
    await plot.getByText('As a table').click()
    await plot.getByRole('row', { name: /Fri 20:00 heart 40.0 .* strays/ }).waitFor()

    await page.getByLabel('Called').fill('My tall fridge')
    await page.getByRole('button', { name: 'Keep My tall fridge' }).click()
    await page.getByRole('status').filter({ hasText: 'Kept' }).first().waitFor()
    expect(await kept()).toMatchObject({
      surroundings: [{ name: 'My tall fridge', in: { like: 'cabinet-fridge', measured: { on: 'Trial of pudding' } } }],
    })

    await open('Big')
    await page.locator('.stage-button').first().click()
    await page.getByText(/Measured before as “My tall fridge”: heat passed ×/).waitFor(LONG)
    await page.getByRole('button', { name: 'Take over what was measured' }).click()
    await page.getByText(/^As measured, on “Trial of pudding”:/).waitFor()
    await page.keyboard.press('Control+S')
    await page.getByText(/^Saved as/).waitFor({ state: 'attached' })
    const stage = (await saved('Big')).stages[0]
    expect(stage?.in).toEqual((await kept()).surroundings[0]?.in)

    await page.getByRole('button', { name: 'Leave what was measured out' }).click()
    // the same by choosing it where surroundings are chosen
    await page.getByLabel('Surroundings', { exact: true }).selectOption({ label: 'My tall fridge' })
    await page.getByText(/^As measured, on “Trial of pudding”:/).waitFor()

    await page.getByRole('button', { name: 'Menu' }).click()
    await page.getByRole('menuitem', { name: 'What was measured' }).click()
    await page.getByRole('button', { name: 'Forget My tall fridge' }).click()
    await page.getByText('Nothing yet.').waitFor()
    expect(await kept()).toEqual(nothingKept)
  })

  it('a logger’s file is asked about before its readings are taken', async () => {
    await open('Big')
    await view('On the day')
    const lines = Array.from(
      { length: 12 },
      (_, i) => `12/03/2027 ${16 + Math.floor(i / 2)}:${i % 2 === 0 ? '00' : '30'}`,
    )
    const text = `time;one °F;two °C\n${lines.map((time, i) => `${time};${(150 - 4 * i).toFixed(1).replace('.', ',')};20`).join('\n')}\n`
    const chooser = page.waitForEvent('filechooser')
    await page.getByRole('button', { name: 'Import a logger file' }).click()
    await (await chooser).setFiles({ name: 'log.csv', mimeType: 'text/csv', buffer: Buffer.from(text) })
    const dialog = page.getByRole('dialog', { name: 'A logger’s file' })
    await dialog.getByText('Say which column is which probe.').waitFor()
    await dialog.getByLabel('Probe of one').selectOption('heart')
    await dialog.getByLabel('Dates with slashes').selectOption('day')
    await dialog.getByText('12 readings of heart, Fri 16:00 to Fri 21:30.').waitFor()
    await dialog.getByRole('button', { name: 'Take these readings' }).click()
    await page.getByRole('row', { name: /Fri 21:30 heart/ }).waitFor()
    await page.keyboard.press('Control+S')
    await page.getByText(/^Saved as/).waitFor({ state: 'attached' })
    const { readings = [] } = await saved('Big')
    // 150 °F = 65.56 °C, by the definition of the scales
    expect(readings[0]).toMatchObject({ probe: 'heart', at_h: 0 })
    expect(readings[0]?.C).toBeCloseTo(65.556, 3)
    expect(readings).toHaveLength(12)
  })
})
