import { mkdir, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import type { Page } from 'playwright-core'
import { noBrowser, openBrowser, openPage } from '../support/chromium.ts'
import { startProgram } from '../support/program.ts'
import { barPlan } from './parts/bar-plan.ts'
import { ms, type Table } from './parts/table.ts'

/*
 * The built program in a real Chromium: what a cold page takes to its first paint and to its first course, what a
 * changed thickness takes to its new curves on the screen, how long keystrokes wait meanwhile, and what memory is left in
 * use after many edits. The plan that is edited is a bar in its section over two days. Nothing without a Chromium.
 */

const EDITS = 50
const MEMORY_EDITS = 200
/** Cold starts that are timed. */
const STARTS = 5
/** What the window is to keep to, ms. */
const GOAL = { shown: 150, typed: 50, usable: 1000, example: 300 }

/** What was measured, as rows of the table: what, its figures, what is wanted. */
const rows: string[][] = []

/** What the page notes of itself. */
interface Noted {
  shown: number[]
  keys: { waited: number; painted: number }[]
}

/** Notes from Enter to the frame after the curves changed, and what every key waited. Runs within the page. */
function takeNotes(): void {
  const noted: Noted = { shown: [], keys: [] }
  Object.assign(window, { noted })
  let from = 0
  const begin = (event: KeyboardEvent): void => {
    if (event.key === 'Enter') from = event.timeStamp
  }
  document.addEventListener('keydown', begin, true)
  new MutationObserver(() => {
    if (from === 0) return
    const began = from
    from = 0
    requestAnimationFrame(() => setTimeout(() => noted.shown.push(performance.now() - began)))
  }).observe(document.querySelector('.recharts-wrapper') as Element, {
    subtree: true,
    attributes: true,
    attributeFilter: ['d'],
  })
  new PerformanceObserver((list) => {
    for (const entry of list.getEntries() as PerformanceEventTiming[])
      if (entry.name === 'keydown' || entry.name === 'input')
        noted.keys.push({ waited: entry.processingStart - entry.startTime, painted: entry.duration })
  }).observe({ type: 'event', durationThreshold: 16 } as PerformanceObserverInit)
}

const rank = (values: readonly number[], share: number): number =>
  [...values].sort((a, b) => a - b)[Math.min(values.length - 1, Math.ceil(share * values.length) - 1)] ?? Number.NaN

/** Types another thickness and takes it. */
async function change(page: Page, thickness: number, delay: number): Promise<void> {
  await page.keyboard.press('Control+A')
  await page.keyboard.type(String(thickness), { delay })
  await page.keyboard.press('Enter')
}

/** What a page takes from its address to its first paint, and from the press on an example to its course and its bands, ms. */
interface Begun {
  readonly paint: number
  readonly usable: number
  readonly course: number
  readonly banded: number
}

/** Presses the first example and waits for its course, then for its bands, each until its frame. Runs within the page. */
function openFirst(): Promise<Begun> {
  const frameOf = (there: () => boolean): Promise<number> =>
    new Promise((done) => {
      const look = (): void => {
        if (there()) setTimeout(() => done(performance.now()))
        else requestAnimationFrame(look)
      }
      look()
    })
  const usable = performance.now()
  document.querySelector<HTMLButtonElement>('.shelf button')?.click()
  return (async () => {
    const course = await frameOf(() => document.querySelector('path.recharts-line-curve') !== null)
    const banded = await frameOf(() => document.querySelector('.band-swatch') !== null)
    const paint = performance.getEntriesByName('first-contentful-paint')[0]?.startTime ?? Number.NaN
    return { paint, usable, course: course - usable, banded: banded - usable }
  })()
}

/** A cold page each time: its first example is pressed as soon as it stands, or after it has stood for a while. */
async function beginnings(fresh: () => Promise<Page>, address: () => string, stands_ms: number): Promise<void> {
  const begun: Begun[] = []
  for (let round = 0; round < STARTS; round += 1) {
    const page = await fresh()
    await page.goto(address())
    await page.locator('.shelf button').first().waitFor()
    await page.waitForTimeout(stands_ms)
    begun.push(await page.evaluate(openFirst))
    await page.close()
  }
  const middle = (read: (one: Begun) => number): string => ms(rank(begun.map(read), 0.5))
  if (stands_ms === 0) {
    rows.push(['cold page, from its address to its first paint', middle(({ paint }) => paint), ms(GOAL.usable)])
    rows.push([
      'cold page, from its address to a shelf that can be used',
      middle(({ usable }) => usable),
      ms(GOAL.usable),
    ])
  }
  const when = stands_ms === 0 ? 'at once' : `after ${stands_ms / 1000} s on the page`
  rows.push([`first example, pressed ${when}, to its course`, middle(({ course }) => course), ms(GOAL.example)])
  rows.push([`first example, pressed ${when}, to bands and answers`, middle(({ banded }) => banded), ''])
}

async function open(page: Page, address: string): Promise<void> {
  await page.goto(address)
  await page.getByRole('heading', { name: 'Start from a piece like yours' }).waitFor()
  await page.keyboard.press('Control+O')
  await page.getByRole('dialog').getByRole('button', { name: 'Bar' }).click()
  await page.locator('.recharts-wrapper').waitFor()
  await page.getByLabel('Thickness of layer 1', { exact: true }).click()
  // Compiled and warm before it counts, as after the first minute of work.
  for (let i = 0; i < 12; i += 1) {
    await change(page, 120 + i, 0)
    await page.waitForTimeout(400)
  }
}

/** Memory of page and worker that is still in use, MB. */
const inUse = (page: Page): Promise<number> =>
  page.evaluate(async () => {
    const measured = await (
      performance as unknown as { measureUserAgentSpecificMemory(): Promise<{ bytes: number }> }
    ).measureUserAgentSpecificMemory()
    return measured.bytes / 1e6
  })

const program = await startProgram()
const browser = noBrowser ? null : await openBrowser()
if (browser !== null) {
  await mkdir(program.plansFolder, { recursive: true })
  await writeFile(join(program.plansFolder, 'Bar.thickset'), JSON.stringify(barPlan))
  const fresh = async (): Promise<Page> =>
    (await openPage(await browser.newContext({ viewport: { width: 1440, height: 900 } }), program.origin)).page
  for (const stands_ms of [0, 2000]) await beginnings(fresh, () => program.host.newAddress(), stands_ms)
  const page = await fresh()
  await open(page, program.host.newAddress())

  await page.evaluate(takeNotes)
  for (let i = 0; i < EDITS; i += 1) {
    await change(page, 110 + ((i * 7) % 80), 0)
    await page.waitForTimeout(350)
  }
  const { shown } = await page.evaluate(() => (window as unknown as { noted: Noted }).noted)
  rows.push([`changed thickness to its curves, median of ${shown.length}`, ms(rank(shown, 0.5)), ''])
  rows.push(['changed thickness to its curves, 95 % within', ms(rank(shown, 0.95)), ms(GOAL.shown)])

  await page.evaluate(() => {
    ;(window as unknown as { noted: Noted }).noted.keys = []
  })
  // No pause: keys fall into computing and drawing alike.
  for (let i = 0; i < 40; i += 1) await change(page, 110 + ((i * 11) % 80), 45)
  await page.waitForTimeout(500)
  const { keys } = await page.evaluate(() => (window as unknown as { noted: Noted }).noted)
  const waited = keys.map((key) => key.waited)
  rows.push([
    `longest wait of a key while forecasts come in, of ${keys.length} that took more than a frame`,
    ms(Math.max(0, ...waited)),
    ms(GOAL.typed),
  ])
  for (let i = 0; i <= MEMORY_EDITS; i += 1) {
    if (i % 40 === 0) rows.push([`memory in use after ${i} edits more`, `${(await inUse(page)).toFixed(1)} MB`, ''])
    await change(page, 110 + ((i * 13) % 80), 0)
    await page.waitForTimeout(150)
  }
  await browser.close()
}
await program.stop()

export const tables: readonly Table[] =
  rows.length === 0
    ? []
    : [
        {
          title: 'The window',
          about: `The built program in Chromium at 1440 × 900, by the clock; cold starts are medians of ${STARTS}.`,
          columns: ['what', 'found', 'wanted'],
          rows,
        },
      ]
