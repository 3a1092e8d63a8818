import { readdir, readFile } from 'node:fs/promises'
import { join } from 'node:path'
import type { Browser, BrowserContext, Locator, Page } from 'playwright-core'
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import type { Plan } from '../../src/core/plan/schema/plan.ts'
import { noBrowser, openBrowser, openPage, upToDate } from '../support/chromium.ts'
import { type Program, startProgram } from '../support/program.ts'

// A whole plan in the program's loopback host: made from nothing, edited in drawing and ribbon, forecast, saved, opened
// again and given to paper; with the keyboard only, with the mouse, and by touch on a telephone's screen.

const SOON = { timeout: 40_000 }

let browser: Browser
let program: Program
let context: BrowserContext
let page: Page
let complaints: string[]

async function begin(options: Parameters<Browser['newContext']>[0] = {}): Promise<void> {
  context = await browser.newContext({ viewport: { width: 1440, height: 900 }, ...options })
  ;({ page, complaints } = await openPage(context, program.origin))
  // a dialog of the system can't be seen here; that it was asked for can
  await page.addInitScript(() => {
    window.print = () => {
      document.documentElement.dataset.printed = 'yes'
    }
  })
  await again()
}

async function again(): Promise<void> {
  await page.goto('about:blank')
  await page.goto(program.host.newAddress())
  await page.getByRole('heading', { name: 'Start from a piece like yours' }).waitFor()
}

/** The forecast of the present plan is there and drawn. */

const field = (label: string): Locator => page.getByLabel(label, { exact: true })

async function savedPlan(): Promise<Plan> {
  const names = (await readdir(program.plansFolder)).filter((name) => name.endsWith('.thickset'))
  expect(names).toHaveLength(1)
  return JSON.parse(await readFile(join(program.plansFolder, names[0] ?? ''), 'utf8')) as Plan
}

const saved = (what: RegExp): Promise<void> => page.getByText(what).last().waitFor({ state: 'attached' })

const printed = async (): Promise<boolean> =>
  (await page.evaluate(() => document.documentElement.dataset.printed)) === 'yes'

async function pdfLies(): Promise<boolean> {
  const names = await readdir(join(program.plansFolder, 'Exports')).catch(() => [])
  return names.some((name) => name.endsWith('.pdf'))
}

const nameOfFocus = (): Promise<string> =>
  page.evaluate(() => {
    const node = document.activeElement
    if (!(node instanceof HTMLElement)) return ''
    const labels = node instanceof HTMLInputElement || node instanceof HTMLSelectElement ? node.labels : null
    return (node.getAttribute('aria-label') ?? labels?.[0]?.textContent ?? node.textContent ?? '').trim()
  })

/** Presses Tab, or Shift and Tab, until what has the focus is called this. */
async function tabTo(name: string | RegExp, key = 'Tab'): Promise<void> {
  const seen: string[] = []
  for (let i = 0; i < 160; i += 1) {
    await page.keyboard.press(key)
    const called = await nameOfFocus()
    if (typeof name === 'string' ? called === name : name.test(called)) return
    seen.push(called)
  }
  throw new Error(`nothing called ${String(name)} can be reached by ${key}: ${seen.join(' | ')}`)
}

const press = async (...keys: string[]): Promise<void> => {
  for (const key of keys) await page.keyboard.press(key)
}

async function middle(of: Locator): Promise<{ x: number; y: number; width: number; height: number }> {
  const box = await of.boundingBox()
  if (box === null) throw new Error('it is not drawn')
  return { x: box.x + box.width / 2, y: box.y + box.height / 2, width: box.width, height: box.height }
}

// each walk presses hundreds of keys or points, which takes long where other suites run beside it
describe.skipIf(noBrowser)('a whole plan', { timeout: 180_000 }, () => {
  beforeAll(async () => {
    browser = await openBrowser()
  })
  afterAll(() => browser?.close())
  beforeEach(async () => {
    program = await startProgram()
  })
  afterEach(async () => {
    expect(complaints).toEqual([])
    await context.close()
    await program.stop()
  })

  it('with the keyboard only', async () => {
    await begin()
    await tabTo('New plan')
    await press('Enter')
    await tabTo('Name of the plan')
    await press('Control+A')
    await page.keyboard.type('Fig block')
    // the edge of a layer and a probe in the drawing
    await tabTo(/^Layer 1,.*in the drawing$/)
    await press('Enter')
    await tabTo('Thickness of the chosen layer')
    await press('ArrowUp', 'ArrowUp', 'Shift+ArrowUp')
    await tabTo('Width')
    await page.keyboard.type('24 cm')
    await tabTo('Stage')
    await press('Enter')
    await tabTo('Name')
    await press('Control+A')
    await page.keyboard.type('Freeze')
    await tabTo('Surroundings')
    await page.keyboard.type('Chest')
    await tabTo('Probe')
    await press('Enter')
    await tabTo(/^Probe heart in the drawing/, 'Shift+Tab')
    await press('ArrowUp', 'ArrowUp', 'Shift+ArrowRight')
    await upToDate(page)
    // the ribbon: the last stage goes forward, comes once more, its length changes
    await tabTo(/^Stages on the ribbon/)
    await press('End', 'Alt+ArrowLeft')
    await expect.poll(() => page.locator('.stage-name').first().textContent(), SOON).toContain('Freeze')
    await press('Alt+ArrowRight', 'Insert')
    await expect.poll(() => page.locator('.stage-item').count(), SOON).toBe(3)
    await press('Delete')
    await expect.poll(() => page.locator('.stage-item').count(), SOON).toBe(2)
    await tabTo('Length of stage B')
    await press('Shift+ArrowRight', 'ArrowRight')
    await tabTo('Question')
    await press('Enter')
    await page.getByRole('menuitem', { name: 'Frozen to the core?' }).waitFor()
    while (!/^Frozen/.test(await nameOfFocus())) await press('ArrowDown')
    await press('Enter')
    await upToDate(page)
    await page.getByRole('heading', { name: /^Frozen to the core/ }).waitFor()

    await press('Control+S')
    await page.getByRole('dialog').waitFor()
    await press('Enter')
    await saved(/^Saved as Fig block/)
    expect(await savedPlan()).toMatchObject({
      title: 'Fig block',
      piece: { shape: { width_mm: 240 }, fill: [{ thickness_mm: 112 }] },
      stages: [{ in: 'cabinet-fridge' }, { name: 'Freeze', in: 'chest-freezer', until: { after_h: 13.25 } }],
      targets: [{ kind: 'cooled' }, { kind: 'frozen' }],
      // 10 mm of 240 and 2 mm of 112 from the middle
      probes: [{ name: 'heart', x: 0.542, y: 0.518 }],
    })

    await again()
    await tabTo('Fig block')
    await press('Enter')
    await upToDate(page)
    await press('Control+P')
    await expect.poll(printed, SOON).toBe(true)
    await tabTo('Save as PDF')
    await press('Enter')
    await expect.poll(pdfLies, SOON).toBe(true)
  })

  it('with the mouse', async () => {
    await begin()
    await page.getByRole('button', { name: 'New plan' }).click()
    await field('Name of the plan').click({ clickCount: 3 })
    await page.keyboard.type('Plum block')
    await field('Width').click()
    await page.keyboard.type('300')
    await page.getByRole('button', { name: /^Layer 1,.*in the drawing$/ }).click()
    const grip = await middle(page.getByRole('slider', { name: 'Thickness of the chosen layer' }))
    await page.mouse.move(grip.x, grip.y)
    await page.mouse.down()
    await page.mouse.move(grip.x, grip.y - 30, { steps: 10 })
    await page.mouse.up()
    const thickness = Number.parseFloat(await field('Thickness of layer 1').inputValue())
    expect(thickness).toBeGreaterThan(110)

    // a probe: pressed into the section, then dragged
    const section = page.locator('.section-drawing')
    const box = await section.boundingBox()
    const at = await middle(page.locator('.section-drawing .cut').first())
    await page.mouse.click(at.x - at.width / 4, at.y + 10)
    await page.getByRole('button', { name: 'Probe here' }).click()
    const probe = await middle(page.getByRole('button', { name: /^Probe heart in the drawing/ }))
    await page.mouse.move(probe.x, probe.y)
    await page.mouse.down()
    await page.mouse.move(probe.x + at.width / 8, probe.y, { steps: 6 })
    await page.mouse.up()
    expect(box).not.toBe(null)

    await page.getByRole('button', { name: 'Stage', exact: true }).click()
    await field('Name').fill('Freeze')
    await field('Surroundings').selectOption('chest-freezer')
    await upToDate(page)
    const ribbon = page.getByTestId('ribbon')
    const stage = (name: RegExp) => ribbon.getByRole('option', { name })
    await stage(/^B Freeze/).waitFor()
    // dragged to the front, by a press made once more, taken away, and lengthened at its end
    const freeze = await middle(stage(/^B Freeze/))
    const first = await middle(stage(/^A/))
    await page.mouse.move(freeze.x, freeze.y + 6)
    await page.mouse.down()
    await page.mouse.move(first.x - first.width / 4, first.y + 6, { steps: 12 })
    await page.mouse.up()
    await stage(/^A Freeze/).waitFor()
    await page.getByRole('button', { name: 'Once more', exact: true }).click()
    await stage(/^B Freeze, again/).waitFor()
    await page.getByRole('button', { name: 'Take away', exact: true }).click()
    await expect.poll(() => ribbon.getByRole('option').count(), SOON).toBe(2)
    await upToDate(page)
    const end = await middle(page.getByRole('slider', { name: 'Length of stage A' }))
    await page.mouse.move(end.x, end.y)
    await page.mouse.down()
    await page.mouse.move(end.x + 60, end.y, { steps: 6 })
    await page.mouse.up()
    await upToDate(page)

    await page.getByRole('button', { name: 'Menu', exact: true }).click()
    await page
      .getByRole('menuitem', { name: /^Save / })
      .first()
      .click()
    await page.getByRole('dialog').getByRole('button', { name: 'Save', exact: true }).click()
    await saved(/^Saved as Plum block/)
    const plan = await savedPlan()
    expect(plan).toMatchObject({ piece: { shape: { width_mm: 300 }, fill: [{ thickness_mm: thickness }] } })
    expect(plan.stages[0]).toMatchObject({ name: 'Freeze', in: 'chest-freezer' })
    expect(plan.stages[0]?.until.after_h).toBeGreaterThan(12.5)
    expect(plan.probes?.[0]?.x).toBeCloseTo(0.375, 1)

    await again()
    await page.getByRole('button', { name: 'Plum block' }).click()
    await upToDate(page)
    await page.getByRole('button', { name: 'Sheet', exact: true }).click()
    await page.getByRole('button', { name: 'Print', exact: true }).click()
    expect(await printed()).toBe(true)
    await page.getByRole('button', { name: 'Save as PDF' }).click()
    await expect.poll(pdfLies, SOON).toBe(true)
  })

  it('by touch, 390 × 844', async () => {
    await begin({ viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true, deviceScaleFactor: 2 })
    const session = await context.newCDPSession(page)
    const drag = async (from: { x: number; y: number }, by: { x: number; y: number }): Promise<void> => {
      const point = (share: number) => [{ x: from.x + by.x * share, y: from.y + by.y * share }]
      await session.send('Input.dispatchTouchEvent', { type: 'touchStart', touchPoints: point(0) })
      for (let i = 1; i <= 8; i += 1)
        await session.send('Input.dispatchTouchEvent', { type: 'touchMove', touchPoints: point(i / 8) })
      // A finger rests before it lifts; lifted in full speed it would throw, and the next tap would only stop that.
      await page.waitForTimeout(150)
      await session.send('Input.dispatchTouchEvent', { type: 'touchEnd', touchPoints: [] })
    }
    const region = (name: string) => page.getByRole('navigation', { name: 'Regions' }).getByRole('button', { name })
    const type = async (label: string, text: string): Promise<void> => {
      await field(label).tap()
      await press('Control+A')
      await page.keyboard.type(text)
    }

    await page.getByRole('button', { name: 'New plan' }).tap()
    await type('Name of the plan', 'Pear block')
    await region('Piece').tap()
    await type('Width', '300')
    await page.getByRole('button', { name: /^Layer 1,.*in the drawing$/ }).tap()
    await drag(await middle(page.getByRole('slider', { name: 'Thickness of the chosen layer' })), { x: 0, y: -24 })
    const thickness = Number.parseFloat(await field('Thickness of layer 1').inputValue())
    expect(thickness).toBeGreaterThan(105)
    const at = await middle(page.locator('.section-drawing .cut').first())
    await page.touchscreen.tap(at.x - at.width / 4, at.y + 8)
    await page.getByRole('button', { name: 'Probe here' }).tap()
    await drag(await middle(page.getByRole('button', { name: /^Probe heart in the drawing/ })), { x: 30, y: 10 })
    await page.getByRole('button', { name: 'Stage', exact: true }).tap()
    await type('Name', 'Freeze')
    await field('Surroundings').selectOption('chest-freezer')

    await region('Course').tap()
    await upToDate(page)
    const ribbon = page.getByTestId('ribbon')
    const stage = (name: RegExp) => ribbon.getByRole('option', { name })
    await stage(/^B Freeze/).waitFor()
    await ribbon.scrollIntoViewIfNeeded()
    const [freeze, first] = [await middle(stage(/^B Freeze/)), await middle(stage(/^A/))]
    await drag({ x: freeze.x, y: freeze.y + 6 }, { x: first.x - first.width / 4 - freeze.x, y: 0 })
    await stage(/^A Freeze, from/).waitFor()
    await upToDate(page)
    await drag(await middle(page.getByRole('slider', { name: 'Length of stage A' })), { x: 40, y: 0 })
    await page.getByRole('button', { name: 'Done', exact: true }).tap()
    await region('Answers').tap()
    await page.getByRole('heading', { name: /^Cooled to 5/ }).waitFor()
    await upToDate(page)

    await page.getByRole('button', { name: 'Menu', exact: true }).tap()
    await page
      .getByRole('menuitem', { name: /^Save / })
      .first()
      .tap()
    await page.getByRole('dialog').getByRole('button', { name: 'Save', exact: true }).tap()
    await saved(/^Saved as Pear block/)
    const plan = await savedPlan()
    expect(plan).toMatchObject({ piece: { shape: { width_mm: 300 }, fill: [{ thickness_mm: thickness }] } })
    expect(plan.stages[0]).toMatchObject({ name: 'Freeze', in: 'chest-freezer' })
    expect(plan.stages[0]?.until.after_h).toBeGreaterThan(12.5)
    expect(plan.probes?.[0]?.x).toBeGreaterThan(0.25)

    await again()
    await page.getByRole('button', { name: 'Pear block' }).tap()
    await upToDate(page)
    await page.getByRole('button', { name: 'Sheet', exact: true }).tap()
    await page.getByRole('button', { name: 'Print', exact: true }).tap()
    expect(await printed()).toBe(true)
    await page.getByRole('button', { name: 'Save as PDF' }).tap()
    await expect.poll(pdfLies, SOON).toBe(true)
  })
})
