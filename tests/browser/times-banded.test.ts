import { mkdir, readFile, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { noBrowser, openBrowser, openPage } from '../support/chromium.ts'
import { type Program, startProgram } from '../support/program.ts'
import { unbandedTimes } from '../support/unbanded-times.ts'

// Every computed time in the window carries its band: an example whose stages wait for temperatures, walked through
// view by view and answer by answer, in the loopback host in a real Chromium.

const LONG = { timeout: 120_000 }

/** Moments that the person or an axis chose: what stands beside them is what is computed. */
const chosenMoments = [
  '.clock-axis',
  '.course-table th',
  '.moment-reading h3, .moment-reading .second',
  '.scrubber',
  '.film-strip',
  '.track text',
  '.model-notes',
  '.answer-source',
  '.number-pad',
  'select',
  'input',
  '.moment',
  '.day-entry',
  // looked at one by one
  '.stage-time',
]
/** Asked, allowed and planned in the example: its start, what is asked, stages by hours, hours of the rule. */
const given = [
  'Fri 14:00',
  'Fri 15:00',
  'Sun 10:00',
  'Sun 7 Nov, 10:00',
  'Fri 5 Nov, 14:00',
  'Fri 5 Nov, 15:00',
  '1 h',
  '2 h',
  '6 h',
  '0 min',
  '0 h',
]

describe.skipIf(noBrowser)('every computed time in the window', { timeout: 300_000 }, () => {
  let browser: Browser
  let program: Program
  let page: Page

  beforeAll(async () => {
    browser = await openBrowser()
    program = await startProgram()
    await mkdir(program.plansFolder, { recursive: true })
    const example = join(import.meta.dirname, '..', '..', 'shared', 'examples', 'vanilla-half-round.thickset')
    const plan = { ...JSON.parse(await readFile(example, 'utf8')), fidelity: 'quick' }
    plan.probes ??= [{ name: 'heart' }]
    await writeFile(join(program.plansFolder, 'Half.thickset'), JSON.stringify(plan))
    const context = await browser.newContext({ viewport: { width: 1440, height: 1000 } })
    ;({ page } = await openPage(context, program.origin))
    await page.goto(program.host.newAddress())
    await page.getByRole('heading', { name: 'Start from a piece like yours' }).waitFor()
    await page.keyboard.press('Control+O')
    await page.getByRole('dialog').getByRole('button', { name: 'Half' }).click()
    await page.locator('.forecast-fresh[aria-busy=false]').waitFor(LONG)
  })
  afterAll(async () => {
    await browser?.close()
    await program?.stop()
  })

  /** Text of a part of the page as it is read, without moments that were chosen. */
  const textOf = (selector: string): Promise<string> =>
    page.locator(selector).evaluate((element, hidden) => {
      for (const one of element.querySelectorAll('details')) one.open = true
      const found = [...element.querySelectorAll<HTMLElement | SVGElement>(hidden)]
      for (const one of found) one.style.visibility = 'hidden'
      // biome-ignore lint/performance/useDomNodeTextContent: what is hidden to the eye shall not be read
      const text = (element as HTMLElement).innerText
      for (const one of found) one.style.removeProperty('visibility')
      return text
    }, chosenMoments.join(', '))
  const strays = async (selector: string): Promise<string[]> =>
    unbandedTimes((await textOf(selector)).replace(/Usual:.*/g, ''), given)
  const view = (name: string) => page.getByRole('navigation', { name: 'Views' }).getByRole('button', { name }).click()

  it('piece, stages and course', async () => {
    expect(await strays('.region-piece')).toEqual([])
    const stages = await page.locator('.stage-button').allInnerTexts()
    expect(stages.length).toBeGreaterThan(4)
    for (const words of stages)
      expect(given.some((time) => words.includes(time)) || /between .* and /.test(words), words).toBe(true)
    const course = await textOf('.region-course')
    expect(course).toMatch(/The core is between .* \(.* to .*\), until/)
    // the likely moment in the plot stands on a whisker from early to late
    expect(await page.locator('.lozenge').count()).toBe(await page.locator('.whisker').count())
    expect(unbandedTimes(course.replace(/likely \w{3} \d\d:\d\d/g, ''), given)).toEqual([])
  })

  it('each answer, opened', async () => {
    const heads = page.locator('.answer-head')
    const count = await heads.count()
    expect(count).toBeGreaterThan(6)
    for (let index = 0; index < count; index++) {
      if ((await heads.nth(index).getAttribute('aria-expanded')) === 'false') await heads.nth(index).click()
      const own = await page.locator('.answer').nth(index).getAttribute('id')
      expect(await strays(`#${own}`), own ?? '').toEqual([])
    }
    expect(await strays('.cautions')).toEqual([])
  })

  it('the sheet', async () => {
    await view('Sheet')
    await page.getByRole('heading', { name: 'Checks' }).waitFor()
    const halfway = await page.locator('.sheet-view tr', { hasText: 'halfway' }).allInnerTexts()
    const set = halfway.flatMap((row) => row.match(/\w{3} \d+ \w{3}, \d\d:\d\d/) ?? [])
    const text = (await textOf('.sheet-view')).replace(/\n(?:United|France|Australia)[^\n]*/g, '')
    expect(unbandedTimes(text, [...given, ...set])).toEqual([])
  })

  it('is found out where it has none', async () => {
    await view('Plan')
    await page.locator('.region-answers').waitFor()
    await page.evaluate(() => {
      const place = document.querySelector('.region-answers')
      place?.insertAdjacentHTML('beforeend', '<p id="bare">It is ready Sun 22:45, after 13 h.</p>')
    })
    expect(await strays('#bare')).toEqual(['Sun 22:45', '13 h'])
  })
})
