import { mkdir, readdir, readFile, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import type { Browser, BrowserContext, Page } from 'playwright-core'
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import type { Plan } from '../../src/core/plan/schema/plan.ts'
import { noBrowser, openBrowser, openPage } from '../support/chromium.ts'
import { type Program, startProgram } from '../support/program.ts'

// Readings on the day, and the course as seen closer and as given out, in the loopback host in a real Chromium.

const LONG = { timeout: 90_000 }

/** A plan that takes little to compute: a sheet, one way for the heat to go. */
const plan: Plan = {
  format: 'thickset-plan',
  version: 1,
  title: 'Sheet of pudding',
  startsAt: '2027-03-12T16:00',
  fidelity: 'quick',
  piece: { shape: { kind: 'sheet' }, fill: [{ material: 'milk-pudding', thickness_mm: 60, start_C: 70 }] },
  stages: [{ name: 'Fridge', in: { air_C: 4, h_W_m2K: 12 }, until: { after_h: 24 } }],
  targets: [{ kind: 'cooled', core_C: 8, by: '2027-03-13T06:00' }],
  probes: [{ name: 'heart', x: 0.5, y: 0.5 }],
}

describe.skipIf(noBrowser)('on the day', { timeout: 240_000 }, () => {
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
    await writeFile(join(program.plansFolder, 'Pudding.thickset'), JSON.stringify(plan))
    context = await browser.newContext({ viewport: { width: 1440, height: 900 } })
    ;({ page, complaints } = await openPage(context, program.origin))
    await page.goto(program.host.newAddress())
    await page.getByRole('heading', { name: 'Start from a piece like yours' }).waitFor()
    await page.keyboard.press('Control+O')
    await page.getByRole('dialog').getByRole('button', { name: 'Pudding' }).click()
    await page.locator('.forecast-fresh[aria-busy=false]').waitFor(LONG)
  })
  afterEach(async () => {
    expect(complaints).toEqual([])
    await context.close()
    await program.stop()
  })

  const saved = async (name = 'Pudding'): Promise<Plan> =>
    JSON.parse(await readFile(join(program.plansFolder, `${name}.thickset`), 'utf8')) as Plan

  it('a reading is typed on the pad, shown on the course, kept with what was promised, and tells how it stands', async () => {
    await page.getByRole('navigation', { name: 'Views' }).getByRole('button', { name: 'On the day' }).click()
    await page.getByText('Nothing is measured yet').waitFor()
    await page.getByLabel('Read at').fill('2027-03-12T19:00')
    const pad = page.getByRole('group', { name: 'Number pad' })
    for (const key of ['4', '8', 'point', '5']) await pad.getByRole('button', { name: key, exact: true }).click()
    expect(await page.getByLabel('Temperature', { exact: true }).inputValue()).toBe('48.5')
    await pad.getByRole('button', { name: 'Enter reading' }).click()
    const row = page.getByRole('row', { name: /Fri 19:00 heart/ })
    await row.waitFor()
    expect(await row.textContent()).toMatch(/\d to \d/)
    expect(await page.locator('.reading-ring').count()).toBe(1)
    // what it means: one of the words, with a new time and its band beside what was promised
    await page.locator('.day-statement b', { hasText: /Ahead|On course|Behind|No course/ }).waitFor(LONG)
    expect(await page.locator('.day-answer').first().textContent()).toMatch(/Promised: .*between/)
    await page.getByText('Next check').waitFor()
    // the core as it was planned lies under it, dashed
    expect(await page.locator('.as-planned .planned-line').getAttribute('d')).toMatch(/^M[\d.]+ [\d.]+L/)
    await page.getByText('core as planned, hatched with dashed edges').waitFor()

    await page.getByLabel('Read at').fill('2027-03-12T15:00')
    await page.getByLabel('Temperature', { exact: true }).fill('50')
    await page.keyboard.press('Enter')
    await page.getByText('The plan has not begun then').waitFor()
    await page.keyboard.press('Control+S')
    await page.getByText(/^Saved as/).waitFor({ state: 'attached' })
    expect(await saved()).toMatchObject({
      readings: [{ probe: 'heart', at_h: 3, C: 48.5 }],
      promised: [{ target: 0 }],
    })
    await page.getByRole('button', { name: 'Take the reading of Fri 19:00 away' }).click()
    await page.getByText('Nothing read yet').waitFor()
  })

  it('a time zone is chosen, and a night in which the clock is moved is told by it; times are typed by either clock', async () => {
    const { targets: _, ...night } = { ...plan, startsAt: '2027-03-27T16:00' }
    await writeFile(join(program.plansFolder, 'Night.thickset'), JSON.stringify(night))
    await page.keyboard.press('Control+O')
    await page.getByRole('dialog').getByRole('button', { name: 'Night' }).click()
    const start = page.getByLabel('Start of the plan')
    await expect.poll(() => start.inputValue()).toBe('Sat 27 Mar 2027, 16:00')
    await page.locator('.forecast-fresh[aria-busy=false]').waitFor(LONG)
    await page.getByLabel('Time zone of the workshop').selectOption('Europe/Vienna')
    await page.getByText('The clock goes forward by 1 h: it then shows Sun 28 Mar, 03:00.').waitFor(LONG)
    const end = async () => (await page.locator('.course-figure figcaption').textContent()) ?? ''
    // 24 h after 16:00 the clock shows 17:00
    await page.getByRole('slider', { name: 'Moment', exact: true }).focus()
    await page.keyboard.press('End')
    await page.getByText(/^Sun 17:00 · 24 h in/).waitFor(LONG)
    expect(await end()).toMatch(/In 24 h/)

    await page.getByRole('button', { name: /mm · kg/ }).click()
    await page.getByRole('menuitemradio', { name: /12/ }).click()
    expect(await start.inputValue()).toBe('Sat 27 Mar 2027, 4:00 pm')
    await start.fill('28 Mar 2027, 7:30 pm')
    await start.press('Tab')
    await page.keyboard.press('Control+S')
    await page.getByText(/^Saved as/).waitFor({ state: 'attached' })
    expect(await saved('Night')).toMatchObject({ startsAt: '2027-03-28T19:30', zone: 'Europe/Vienna' })
    await start.fill('28 Mar 2027, 7:3')
    await start.press('Tab')
    await page.getByText('Start of the plan can’t be read; give a day and a time').waitFor()
  })

  it('the course is seen closer in its own box, and goes out as SVG, PNG and CSV', async () => {
    const plotWidth = () => page.getByTestId('plot').evaluate((one) => one.clientWidth)
    const before = await plotWidth()
    await page.getByRole('button', { name: 'Zoom in' }).click()
    await expect.poll(plotWidth, LONG).toBeGreaterThan(1.9 * before)
    await expect.poll(() => page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(1440)
    await page.getByRole('button', { name: 'Zoom out' }).click()
    await expect.poll(plotWidth, LONG).toBe(before)

    for (const item of ['Picture as SVG', 'Picture as PNG', 'Numbers as CSV']) {
      await page.getByRole('button', { name: 'Give out' }).click()
      await page.getByRole('menuitem', { name: item }).click()
      const ending = item.slice(-3).toLowerCase()
      await page.getByText(new RegExp(`^Saved .*\\.${ending}`)).waitFor({ state: 'attached' })
    }
    const folder = join(program.plansFolder, 'Exports')
    const file = async (ending: string) =>
      readFile(join(folder, (await readdir(folder)).find((name) => name.endsWith(ending)) ?? ''))
    const svg = (await file('.svg')).toString('utf8')
    for (const part of ['<title>Sheet of pudding</title>', '<desc>', 'core', '@font-face', 'data:font/woff2'])
      expect(svg).toContain(part)
    expect(svg).not.toMatch(/var\(--|class=/)
    const png = await file('.png')
    // ISO/IEC 15948: signature, then width and height of the header
    expect(png.subarray(1, 4).toString('latin1')).toBe('PNG')
    expect(png.readUInt32BE(16)).toBeGreaterThan(1000)
    // drawn as it would be from outside the program: more than a few colours
    const colours = await page.evaluate(async (data) => {
      const image = new Image()
      image.src = `data:image/png;base64,${data}`
      await image.decode()
      const canvas = Object.assign(document.createElement('canvas'), { width: image.width, height: image.height })
      const pen = canvas.getContext('2d')
      pen?.drawImage(image, 0, 0)
      return new Set(
        new Uint32Array(pen?.getImageData(0, 0, image.width, image.height).data.buffer ?? new ArrayBuffer(0)),
      ).size
    }, png.toString('base64'))
    expect(colours).toBeGreaterThan(20)
  })
})
