import type { Browser, BrowserContext, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { complaintsOfAxe, settled } from '../support/axe.ts'
import { noBrowser, openBrowser, openPage } from '../support/chromium.ts'
import { type Program, startProgram } from '../support/program.ts'

/*
 * WCAG 2.2, level A and AA, as far as a browser can tell, on every screen of the window. Each test names the criteria
 * that it looks at. 1.4.3 and 1.4.11 are computed from the palette (tests/unit/renderer/palette.test.ts), as the tool
 * leaves text on charts open; 2.1.1, 2.1.2, 2.4.3 and 2.5.7 are walked in whole-plan.test.ts; 3.3.1 and 3.3.3 in
 * edit.test.ts.
 */

/** The spacing that 1.4.12 names. */
const SPACED = '* { line-height: 1.5 !important; letter-spacing: 0.12em !important; word-spacing: 0.16em !important }'
const LONG = { timeout: 40_000 }

let browser: Browser
let program: Program
let context: BrowserContext
let page: Page

const button = (name: string | RegExp) => page.getByRole('button', { name, exact: typeof name === 'string' })
const view = (name: string) => page.getByRole('navigation', { name: 'Views' }).getByRole('button', { name })

/** How each screen is come to from the plan view, and left again. */
const screens: Readonly<Record<string, { readonly open: () => Promise<void>; readonly leave: () => Promise<void> }>> = {
  plan: { open: async () => undefined, leave: async () => undefined },
  'plan with a stage, a layer and the table open': {
    open: async () => {
      await region('Piece')
      await page.locator('.stage-button').first().click()
      await page.getByRole('button', { name: /^Layer 1,.*in the drawing$/ }).click()
      await region('Course')
      await button('As a table').click()
    },
    leave: async () => {
      await button('As a table').click()
      await region('Piece')
      await page.locator('.stage-button').first().click()
      await page.getByRole('button', { name: /^Layer 1,.*in the drawing$/ }).click()
      await region('Course')
    },
  },
  answers: { open: () => region('Answers'), leave: () => region('Course') },
  'on the day': { open: () => view('On the day').click(), leave: () => view('Plan').click() },
  sheet: {
    open: async () => {
      await view('Sheet').click()
      await page.getByRole('article', { name: 'Sheet' }).waitFor(LONG)
    },
    leave: () => view('Plan').click(),
  },
  'card of a material': {
    open: async () => {
      await region('Piece')
      await page.getByRole('button', { name: /^Layer 2,.*in the drawing$/ }).click()
      await page.getByRole('button', { name: /^(Material card|Recipe) of layer 2$/ }).click()
      await page.getByRole('heading', { level: 1 }).first().waitFor()
    },
    leave: async () => {
      await view('Plan').click()
      await page.getByRole('button', { name: /^Layer 2,.*in the drawing$/ }).click()
      await region('Course')
    },
  },
  help: { open: () => page.keyboard.press('F1'), leave: () => page.keyboard.press('Escape') },
  'how far to trust this': {
    open: async () => {
      await button('Menu').click()
      await page.getByRole('menuitem', { name: 'How far to trust this' }).click()
      await page.getByRole('heading', { name: 'Every case' }).waitFor()
    },
    leave: () => page.keyboard.press('Escape'),
  },
  'what was measured': {
    open: async () => {
      await button('Menu').click()
      await page.getByRole('menuitem', { name: 'What was measured' }).click()
      await page.getByRole('heading', { name: 'What was measured' }).waitFor()
    },
    leave: () => page.keyboard.press('Escape'),
  },
  menu: { open: () => button('Menu').click(), leave: () => page.keyboard.press('Escape') },
  dialog: { open: () => page.keyboard.press('Control+Shift+S'), leave: () => page.keyboard.press('Escape') },
}

/** In a narrow window one region shows at a time; in a wide one all do. */
async function region(name: string): Promise<void> {
  const bar = page.getByRole('navigation', { name: 'Regions' })
  if (await bar.isVisible()) await bar.getByRole('button', { name }).click()
}

/** Colours change softly; what is looked at in between is neither. */
async function show(colorScheme: 'light' | 'dark'): Promise<void> {
  await page.emulateMedia({ colorScheme, reducedMotion: 'reduce' })
  await settled(page)
}

async function openExample(): Promise<void> {
  await page.locator('.shelf-piece', { hasText: 'Semolina' }).click()
  await page.locator('.forecast-fresh[aria-busy=false]').waitFor(LONG)
}

describe.skipIf(noBrowser)('WCAG 2.2 AA', { timeout: 300_000 }, () => {
  beforeAll(async () => {
    browser = await openBrowser()
    program = await startProgram()
    context = await browser.newContext({ viewport: { width: 1280, height: 900 } })
    ;({ page } = await openPage(context, program.origin))
    await page.goto(program.host.newAddress())
    await page.locator('.shelf-piece').first().waitFor()
  })
  afterAll(async () => {
    await browser?.close()
    await program?.stop()
  })

  it.each(['light', 'dark'] as const)(
    '1.1.1, 1.3.1, 4.1.2 and more by axe: the empty page, %s',
    async (colorScheme) => {
      await show(colorScheme)
      expect(await complaintsOfAxe(page)).toEqual([])
      await page.setViewportSize({ width: 320, height: 800 })
      await expect.poll(() => page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(320)
      await page.setViewportSize({ width: 1280, height: 900 })
    },
  )

  it.each([
    ['light', 1280],
    ['dark', 1280],
    ['light', 390],
    ['dark', 390],
  ] as const)('1.1.1, 1.3.1, 2.5.8, 4.1.2 and more by axe: every screen, %s, %i px', async (colorScheme, width) => {
    if (await button('New plan').isVisible()) await openExample()
    // so tall that the bar of regions lies on nothing: what a bar hides can be scrolled from under it
    await page.setViewportSize({ width, height: width < 760 ? 7000 : 900 })
    await show(colorScheme)
    const found: string[] = []
    for (const [name, { open, leave }] of Object.entries(screens)) {
      await open()
      // in the dark nothing but colours is another
      const complaints = await complaintsOfAxe(page, colorScheme === 'dark' ? ['color-contrast'] : undefined)
      found.push(...complaints.map((one) => `${name}: ${one}`))
      await leave()
    }
    expect(found).toEqual([])
  })

  it.each([
    ['1.4.10: 320 px wide', 320, ''],
    ['1.4.4: 1280 px at 200 %', 640, ''],
    ['1.4.12: text spaced wider', 1280, SPACED],
    ['1.4.12: text spaced wider, 390 px', 390, SPACED],
  ])('%s: nothing scrolls sideways, nothing is cut', async (_, width, css) => {
    await page.emulateMedia({ colorScheme: 'light' })
    await page.setViewportSize({ width, height: 800 })
    await spaceText(css)
    for (const [name, { open, leave }] of Object.entries(screens)) {
      await open()
      await settled(page)
      const cut = await page.evaluate(() => {
        const wide = document.documentElement.scrollWidth - innerWidth
        const clipped = [...document.querySelectorAll<HTMLElement>('button, h1, h2, h3, label, legend, th, p, b')]
          .filter((one) => one.offsetParent !== null && !one.closest('.unseen'))
          .filter((one) => /hidden|clip/.test(getComputedStyle(one).overflowX) && one.scrollWidth > one.clientWidth + 1)
        return [...(wide > 0 ? [`page ${wide} px`] : []), ...clipped.map((one) => one.outerHTML.slice(0, 120))]
      })
      expect({ name, cut }).toEqual({ name, cut: [] })
      await leave()
    }
    await spaceText('')
  })

  it('1.4.1: curves differ without colour, verdicts have words', async () => {
    await page.setViewportSize({ width: 1440, height: 900 })
    // The chart is drawn anew at another width: curves of before are of no look.
    await page.waitForTimeout(400)
    const looks = await page.locator('.curve .recharts-line-curve').evaluateAll((curves) =>
      curves.map((curve) => {
        const { strokeDasharray, strokeWidth } = getComputedStyle(curve)
        return `${strokeDasharray} ${strokeWidth}`
      }),
    )
    // probes have signs along their line as well, so theirs may be alike
    expect(new Set(looks).size).toBeGreaterThanOrEqual(Math.min(looks.length, 5))
    expect(await page.locator('.chart-marks .curve-name').count()).toBeGreaterThanOrEqual(looks.length)
    for (const word of await page.locator('.answer-word').allTextContents()) expect(word).toMatch(/[A-Za-z]{2}/)
  })

  it('1.4.13: what shows on hover stays under the pointer, and goes with Esc', async () => {
    const deed = page.locator('.deed').first()
    await deed.hover()
    await page.locator('.deed-words').waitFor()
    await page.mouse.move(0, 0)
    await deed.focus()
    await page.locator('.deed-words').waitFor()
    await page.keyboard.press('Escape')
    expect(await page.locator('.deed-words').count()).toBe(0)
  })

  it.each([1280, 390])('2.4.7, 2.4.11: what has the focus is seen, and under no bar, %i px', async (width) => {
    await page.setViewportSize({ width, height: 844 })
    await page.evaluate(() => (document.activeElement as HTMLElement | null)?.blur())
    const lost: string[] = []
    const seen = new Set<string>()
    for (let i = 0; i < 70; i += 1) {
      await page.keyboard.press('Tab')
      const state = await page.evaluate(() => {
        const one = document.activeElement
        if (!(one instanceof HTMLElement) || one === document.body) return null
        const framed = (node: Element | null): boolean =>
          node !== null &&
          getComputedStyle(node).outlineStyle !== 'none' &&
          Number.parseFloat(getComputedStyle(node).outlineWidth) >= 2
        const box = one.getBoundingClientRect()
        const [x, y] = [box.left + box.width / 2, box.top + Math.min(box.height / 2, 20)]
        const top = document.elementFromPoint(x, y)
        const covered =
          top !== null &&
          top !== one &&
          !one.contains(top) &&
          !top.contains(one) &&
          top.closest('.region-bar, .title-block') !== null
        const visible =
          framed(one) ||
          [one.parentElement, one.closest('.box'), one.closest('.title-cell')].some(framed) ||
          [...one.children].some(framed)
        return {
          name: (one.getAttribute('aria-label') ?? one.textContent ?? '').slice(0, 60),
          html: one.outerHTML.slice(0, 90),
          visible,
          covered,
        }
      })
      if (state === null) continue
      seen.add(state.name)
      if (!state.visible || state.covered) lost.push(`${state.covered ? 'covered' : 'unseen'}: ${state.html}`)
    }
    expect([...new Set(lost)]).toEqual([])
    expect(seen.size).toBeGreaterThan(20)
  })

  it('3.3.1, 3.3.2: every input of every screen has its help, found by F1', async () => {
    await page.setViewportSize({ width: 1280, height: 900 })
    const { helpKeyOf, findHelp } = await helpers()
    const missing = new Set<string>()
    for (const { open, leave } of Object.values(screens)) {
      await open()
      const inputs = page.locator('input:not([type=file]):not(dialog input), select:not(dialog select)')
      for (const input of await inputs.evaluateAll(describeInputs)) {
        const key = helpKeyOf(input)
        if (key === null || findHelp(key) === undefined) missing.add(`${key}: ${input.html}`)
      }
      await leave()
    }
    expect([...missing]).toEqual([])
    await page.getByLabel('Width', { exact: true }).focus()
    await page.keyboard.press('F1')
    await page.locator('.help-asked').getByText('Width, length, diameter, radius').waitFor()
    await page.keyboard.press('Escape')
  })

  it('4.1.3: what has happened is said by a status', async () => {
    await page.getByLabel('Name of the plan').fill('Said')
    await page.keyboard.press('Control+S')
    await page.getByRole('dialog').getByRole('button', { name: 'Save', exact: true }).click()
    await page
      .getByRole('status')
      .getByText(/^Saved as Said/)
      .waitFor({ state: 'attached' })
    expect(await page.locator('.forecast-cell [role=status]').textContent()).toMatch(/\w/)
  })

  it('forced colours: words, outlines and dashes stay', async () => {
    await page.emulateMedia({ forcedColors: 'active' })
    expect(await page.locator('.answer-word').first().isVisible()).toBe(true)
    const borders = await page
      .locator('.box')
      .first()
      .evaluate((one) => getComputedStyle(one).borderTopStyle)
    expect(borders).toBe('solid')
    expect(await complaintsOfAxe(page)).toEqual([])
    await page.emulateMedia({ forcedColors: null })
  })

  it.each([320, 800, 1920, 3840])('%i px wide: the window fills, nothing scrolls sideways', async (width) => {
    await page.setViewportSize({ width, height: Math.max(800, Math.round(width * 0.5)) })
    await settled(page)
    await expect.poll(() => page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width)
    expect(await page.locator('.plan-view').evaluate((one) => one.getBoundingClientRect().width)).toBeGreaterThan(
      width - 20,
    )
  })
})

/** By a sheet of the page's own making, as its rules take no other. */
const spaceText = (css: string): Promise<void> =>
  page.evaluate((text) => {
    const sheet = new CSSStyleSheet()
    sheet.replaceSync(text)
    document.adoptedStyleSheets = text === '' ? [] : [sheet]
  }, css)

interface DescribedInput {
  readonly told: string | null
  readonly path: string | null
  readonly label: string | null
  readonly html: string
}

/** What `helpKeyOf` looks at, as plain data. */
const describeInputs = (inputs: Element[]): DescribedInput[] =>
  inputs.map((one) => ({
    told: one.closest('[data-help]')?.getAttribute('data-help') ?? null,
    path: one.getAttribute('data-field'),
    label:
      one instanceof HTMLSelectElement ? (one.getAttribute('aria-label') ?? one.labels[0]?.textContent ?? '') : null,
    html: one.outerHTML.slice(0, 140),
  }))

async function helpers() {
  const { choiceKey, findHelp, pathKey } = await import('../../src/renderer/help/inputs.ts')
  const helpKeyOf = ({ told, path, label }: DescribedInput): string | null =>
    told ?? (path === null ? (label === null ? null : choiceKey(label)) : pathKey(path))
  return { helpKeyOf, findHelp }
}
