import { mkdir, readdir, readFile, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import type { Browser, BrowserContext, Page } from 'playwright-core'
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import type { Plan } from '../../src/core/plan/schema/plan.ts'
import { noBrowser, openBrowser, openPage, upToDate } from '../support/chromium.ts'
import { type Program, startProgram } from '../support/program.ts'

// A plan made, forecast, saved and opened again in the program's loopback host, in a real Chromium.

/** A first forecast on a machine that is busy with the other suites. */
const FORECAST_MS = 30_000

let browser: Browser
let program: Program
let context: BrowserContext
let page: Page
let complaints: string[]

async function begin(options: Parameters<Browser['newContext']>[0] = {}): Promise<void> {
  context = await browser.newContext({ viewport: { width: 1440, height: 900 }, ...options })
  ;({ page, complaints } = await openPage(context, program.origin))
  await page.goto(program.host.newAddress())
  await page.getByRole('heading', { name: 'Start from a piece like yours' }).waitFor()
}

const field = (label: string) => page.getByLabel(label, { exact: true })

async function choose(menu: string, item: string): Promise<void> {
  await page.getByRole('button', { name: menu, exact: true }).click()
  await page.getByRole('menuitem', { name: item }).click()
}

async function savedPlan(): Promise<Plan> {
  const names = (await readdir(program.plansFolder)).filter((name) => name.endsWith('.thickset'))
  expect(names).toHaveLength(1)
  return JSON.parse(await readFile(join(program.plansFolder, names[0] ?? ''), 'utf8')) as Plan
}

/** Presses Tab until what has the focus is called this. */
async function tabTo(name: string | RegExp): Promise<void> {
  for (let i = 0; i < 150; i += 1) {
    await page.keyboard.press('Tab')
    const called = await page.evaluate(() => {
      const node = document.activeElement
      if (!(node instanceof HTMLElement)) return ''
      const labels = node instanceof HTMLInputElement || node instanceof HTMLSelectElement ? node.labels : null
      return node.getAttribute('aria-label') ?? labels?.[0]?.textContent ?? node.textContent ?? ''
    })
    if (typeof name === 'string' ? called.trim() === name : name.test(called)) return
  }
  throw new Error(`nothing called ${String(name)} can be reached by Tab`)
}

/** A block that takes long to compute. */
const laborious: Plan = {
  format: 'thickset-plan',
  version: 1,
  title: 'Block',
  startsAt: '2027-03-12T16:00',
  fidelity: 'fine',
  piece: {
    shape: { kind: 'block', width_mm: 400, length_mm: 600 },
    fill: [{ material: 'milk-pudding', thickness_mm: 200, start_C: 70 }],
  },
  stages: [{ name: 'Freezer', in: 'chest-freezer', until: { after_h: 96 } }],
  targets: [{ kind: 'frozen', core_C: -12 }],
}

async function drop(name: string, text: string): Promise<void> {
  const files = await page.evaluateHandle(
    ([called = '', content = '']) => {
      const transfer = new DataTransfer()
      transfer.items.add(new File([content], called))
      return transfer
    },
    [name, text],
  )
  await page.dispatchEvent('body', 'drop', { dataTransfer: files })
}

describe.skipIf(noBrowser)('editing a plan', () => {
  beforeAll(async () => {
    browser = await openBrowser()
  })
  afterAll(() => browser?.close())
  beforeEach(async () => {
    program = await startProgram()
    await begin()
  })
  afterEach(async () => {
    expect(complaints).toEqual([])
    await context.close()
    await program.stop()
  })

  it('from nothing to a saved plan and back, with the keyboard only', async () => {
    await tabTo('New plan')
    await page.keyboard.press('Enter')
    await upToDate(page)

    await tabTo('Name of the plan')
    await page.keyboard.press('Control+A')
    await page.keyboard.type('Quince round')
    await tabTo('Shape')
    await page.keyboard.press('R')
    await tabTo('Diameter')
    await page.keyboard.type('10 in')
    await tabTo('Thickness of layer 1')
    await page.keyboard.type('4 1/2 in')
    await tabTo('End of stage A: after')
    await page.keyboard.type('2 d')
    await page.keyboard.press('Enter')
    await upToDate(page)
    await page.getByRole('heading', { name: 'Cooled to 5 °C?' }).waitFor()

    await page.keyboard.press('Control+S')
    await page.getByRole('dialog').waitFor()
    await page.keyboard.press('Enter')
    await page.getByText('Saved as Quince round').waitFor({ state: 'attached' })
    expect(await savedPlan()).toMatchObject({
      title: 'Quince round',
      // 10 in and 4 1/2 in by the exact inch of 25.4 mm; two days
      piece: { shape: { kind: 'round', diameter_mm: 254 }, fill: [{ thickness_mm: 114.3 }] },
      stages: [{ until: { after_h: 48 } }],
    })

    // another page: the same address with another key behind # would stay on this one
    await page.goto('about:blank')
    await page.goto(program.host.newAddress())
    await page.getByRole('heading', { name: 'Opened lately' }).waitFor()
    await tabTo('Quince round')
    await page.keyboard.press('Enter')
    await upToDate(page)
    expect(await field('Name of the plan').inputValue()).toBe('Quince round')
    expect(await field('Diameter').inputValue()).toBe('254')
  })

  it('what cannot be read stays with a word on what would be right; the last forecast stays and says so', async () => {
    await page.getByRole('button', { name: 'New plan' }).click()
    await upToDate(page)
    const thickness = field('Thickness of layer 1')
    await thickness.fill('90 cmm')
    await thickness.press('Tab')
    expect(await thickness.inputValue()).toBe('90 cmm')
    expect(await thickness.getAttribute('aria-invalid')).toBe('true')
    await page.getByText('“cmm” is no unit here; mm, cm, in, m or ft can be typed').waitFor()
    await page.getByRole('status').getByText('From before your last change').waitFor()

    // a value that can be read but doesn't fit: the plan's own fault, told at once
    await choose('Layer', 'Lining inside the others')
    await thickness.fill('90')
    await field('Thickness of layer 2').fill('20 cm')
    await field('Thickness of layer 2').press('Enter')
    await page.getByText(/The lining is 200 mm thick and leaves no room/).waitFor()
    await page.getByRole('status').getByText('From before your last change').waitFor()
    await field('Thickness of layer 2').fill('1 cm')
    await upToDate(page)
  })

  it('undo and redo by name, one step a gesture', async () => {
    await page.getByRole('button', { name: 'New plan' }).click()
    const thickness = field('Thickness of layer 1')
    await thickness.click()
    await page.keyboard.type('123', { delay: 30 })
    await page.keyboard.press('Tab')
    await page.getByRole('button', { name: 'Undo thickness' }).click()
    expect(await thickness.inputValue()).toBe('100 mm')
    await page.keyboard.press('Control+Y')
    expect(await thickness.inputValue()).toBe('123 mm')

    await page.getByRole('button', { name: /^Layer 1,.*in the drawing$/ }).click()
    const grip = page.getByRole('slider', { name: 'Thickness of the chosen layer' })
    await grip.focus()
    await page.keyboard.press('ArrowUp')
    await page.keyboard.press('Shift+ArrowUp')
    expect(await thickness.inputValue()).toBe('134 mm')
    const box = await grip.boundingBox()
    if (box === null) throw new Error('the grip is not drawn')
    await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2)
    await page.mouse.down()
    for (let y = 1; y <= 30; y += 1) await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2 - y)
    await page.mouse.up()
    expect(Number.parseFloat(await thickness.inputValue())).toBeGreaterThan(150)
    await page.keyboard.press('Control+Z')
    expect(await thickness.inputValue()).toBe('134 mm')
  })

  it('units change what is shown and typed, never what is saved', async () => {
    await page.getByRole('button', { name: 'New plan' }).click()
    const units = (words: string) => page.getByRole('button', { name: `Units: ${words}` })
    await units('°C · mm · kg').click()
    await page.getByRole('menuitemradio', { name: '°F' }).click()
    await units('°F · mm · kg').click()
    await page.getByRole('menuitemradio', { name: 'in', exact: true }).click()
    expect(await field('Temperature of layer 1 at start').inputValue()).toBe('140 °F')
    expect(await field('Thickness of layer 1').inputValue()).toBe('3.94 in')
    await field('Width').focus()
    await field('Length').focus()
    expect(await page.getByRole('img', { name: 'not saved' }).count()).toBe(0)
    await field('Temperature of layer 1 at start').fill('131')
    await field('Temperature of layer 1 at start').press('Enter')
    await page.keyboard.press('Control+S')
    await page.getByRole('button', { name: 'Save', exact: true }).click()
    await page.getByText(/^Saved as/).waitFor({ state: 'attached' })
    // 131 °F is 55 °C
    const { piece } = await savedPlan()
    expect(piece.fill[0]?.thickness_mm).toBe(100)
    expect(piece.fill[0]?.start_C).toBeCloseTo(55, 9)
  })

  it('stages, what is done at their start, questions and rules are edited', async () => {
    await page.getByRole('button', { name: 'New plan' }).click()
    await page.getByRole('button', { name: 'Stage', exact: true }).click()
    await field('Name').fill('Freezer')
    await field('Surroundings').selectOption('chest-freezer')
    await field('Air').fill('-22')
    await field('Ends').selectOption('core')
    await field('core at').fill('-12')
    await field('But after this long at the latest').fill('72')
    await page
      .getByRole('button', { name: 'Add something to do at the start of stage B' })
      .or(page.getByRole('button', { name: 'To do' }))
      .click()
    await page.getByRole('menuitem', { name: 'Cover', exact: true }).click()
    await page.getByLabel('top', { exact: true }).check()
    await choose('Question', 'Frozen to the core?')
    await page.getByRole('checkbox', { name: /FDA Food Code 2022, 3-501.14\(A\): cooked food/ }).check()
    await upToDate(page)
    await page.keyboard.press('Control+S')
    await page.getByRole('button', { name: 'Save', exact: true }).click()
    await page.getByText(/^Saved as/).waitFor({ state: 'attached' })
    expect(await savedPlan()).toMatchObject({
      rules: ['fda-food-code-2022'],
      stages: [
        { in: 'cabinet-fridge' },
        {
          name: 'Freezer',
          in: { like: 'chest-freezer', air_C: -22 },
          until: { core_C: -12, max_h: 72 },
          start: [{ do: 'cover', with: 'film', faces: ['top'] }],
        },
      ],
      targets: [
        { kind: 'cooled', core_C: 5 },
        { kind: 'frozen', core_C: -12 },
      ],
    })
  })

  it('unsaved work is kept within two seconds and offered at the next start', async () => {
    await page.getByRole('button', { name: 'New plan' }).click()
    await field('Name of the plan').fill('Nearly lost')
    await page.waitForTimeout(2000)
    // no time to say goodbye: the page is gone, as after a power cut
    await context.close()
    await begin()
    await page.getByText(/Nearly lost, changed/).waitFor()
    await page.getByRole('button', { name: 'Open it' }).click()
    expect(await field('Name of the plan').inputValue()).toBe('Nearly lost')
    await page.getByRole('img', { name: 'not saved' }).waitFor()
  })

  it('an unsaved plan is asked about before another takes its place', async () => {
    await page.getByRole('button', { name: 'New plan' }).click()
    await field('Name of the plan').fill('')
    expect(await field('Name of the plan').getAttribute('aria-invalid')).toBe('false')
    await field('Name of the plan').fill('Keep me')
    await choose('Menu', 'Close the plan')
    await page.getByRole('dialog').getByRole('button', { name: 'Cancel' }).click()
    expect(await field('Name of the plan').inputValue()).toBe('Keep me')
    await choose('Menu', 'Close the plan')
    await page.getByRole('button', { name: 'Don’t save' }).click()
    await page.getByRole('heading', { name: 'Start from a piece like yours' }).waitFor()
    expect(await readdir(program.plansFolder).catch(() => [])).toEqual([])
  })

  it('a plan of the folder is opened by the list; its long computation can be stopped and taken up again', async () => {
    const long = { ...laborious, title: 'Laborious' }
    await mkdir(program.plansFolder, { recursive: true })
    await writeFile(join(program.plansFolder, 'Laborious.thickset'), JSON.stringify(long))
    await page.keyboard.press('Control+O')
    await page.getByRole('dialog').getByRole('button', { name: 'Laborious' }).click()
    await page.locator('.forecast-cell').getByRole('button', { name: 'Cancel' }).waitFor({ timeout: FORECAST_MS })
    const began = Date.now()
    await page.keyboard.press('Escape')
    const again = page.locator('.forecast-cell').getByRole('button', { name: 'Compute' })
    await again.waitFor()
    expect(Date.now() - began).toBeLessThan(3000)
    await again.click()
    await page.locator('.forecast-cell').getByRole('button', { name: 'Cancel' }).waitFor({ timeout: FORECAST_MS })
    // another plan takes its place at once
    await page.keyboard.press('Control+Alt+N')
    await upToDate(page)
    expect(await field('Name of the plan').inputValue()).toBe('New plan')
  })

  it('a dropped plan opens; a file that is none is refused with every reason, and nothing is lost', async () => {
    await page.getByRole('button', { name: 'New plan' }).click()
    await drop('dropped.thickset', JSON.stringify({ ...laborious, fidelity: 'quick', title: 'Dropped' }))
    await page.getByRole('img', { name: 'not saved' }).waitFor()
    expect(await field('Name of the plan').inputValue()).toBe('Dropped')
    await drop('broken.thickset', '{"format": "thickset-plan", "version": 1, "title": 7}')
    await page.getByRole('heading', { name: '“broken” can’t be opened' }).waitFor()
    await page
      .getByRole('dialog')
      .getByText(/^title: /)
      .waitFor()
    await page.getByRole('button', { name: 'All right' }).click()
    expect(await field('Name of the plan').inputValue()).toBe('Dropped')
  })

  it('examples open as copies and are forecast', async () => {
    const pieces = page.locator('.shelf-piece')
    await pieces.first().waitFor()
    expect(await pieces.count()).toBeGreaterThanOrEqual(3)
    await page.locator('.shelf-piece', { hasText: 'Semolina' }).click()
    await upToDate(page)
    expect(await page.getByRole('img', { name: 'not saved' }).count()).toBe(0)
    await page.getByRole('img', { name: /^Section of the bar/ }).waitFor()
  })
})
