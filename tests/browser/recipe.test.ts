import { readdir, readFile } from 'node:fs/promises'
import { join } from 'node:path'
import type { Browser, BrowserContext, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import vectors from '../../shared/reference/recipe-vectors.json'
import type { Plan } from '../../src/core/plan/schema/plan.ts'
import { complaintsOfAxe } from '../support/axe.ts'
import { noBrowser, openBrowser, openPage } from '../support/chromium.ts'
import { type Program, startProgram } from '../support/program.ts'

// A sponge typed in by hand, in a real Chromium: its figures against those of an independent program.

const widths = [320, 390, 759, 760, 800, 999, 1000, 1280, 1440] as const

const sponge = vectors.testVectors.find(({ id }) => id === 'sheet-sponge-cocoa-oil')
const batter = sponge?.states.find(({ given }) => given.state === 'batter')?.expect

/** What is typed for a line of the reference recipe: its name in the table, and the amount as a person writes it. */
const typed = (sponge?.recipe ?? []).map((line) => {
  const amount = 'mass_kg' in line ? `${line.mass_kg} kg` : 'volume_L' in line ? `${line.volume_L} L` : `${line.count}`
  return [line.ingredient, amount] as const
})

describe.skipIf(noBrowser)('a recipe in the window', () => {
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
    await page.getByRole('button', { name: 'New plan' }).click()
    await page.getByRole('button', { name: 'Layer 1, Milk pudding with starch', exact: true }).click()
  })
  afterAll(async () => {
    await browser?.close()
    await program?.stop()
  })

  const figure = async (name: string): Promise<number> => {
    const text = await page
      .getByRole('region', { name: 'What it comes to' })
      .locator('.figure', { has: page.getByText(name, { exact: true }) })
      .locator('dd')
      .textContent()
    return Number.parseFloat((text ?? '').replace('−', '-'))
  }
  const near = (found: number, wanted: number, share: number): void =>
    expect(Math.abs(found / wanted - 1), `${found} for ${wanted}`).toBeLessThan(share)

  it('a built-in mass shows its curves, the same numbers, its sources and weak points', async () => {
    await page.getByRole('button', { name: 'Material card of layer 1' }).click()
    await page.getByRole('heading', { level: 1, name: 'Milk pudding with starch' }).waitFor()
    for (const name of ['Conductivity', 'Heat capacity', 'Heat content', 'Ice of the water'])
      await page.getByRole('img', { name: new RegExp(`^${name}`) }).waitFor()
    expect(await page.locator('.property-plot path.recharts-curve').count()).toBe(6)
    await page.getByText('As a table').click()
    await page.getByRole('region', { name: 'Properties as a table' }).getByRole('row').nth(5).waitFor()
    await page.getByRole('region', { name: 'Sources' }).getByText(/USDA/).waitFor()
    await page.getByRole('button', { name: 'Back to the piece' }).click()
    const focused = await page.evaluate(() => document.activeElement?.getAttribute('aria-label'))
    expect(focused).toBe('Material card of layer 1')
  })

  it('a sponge typed in by hand gives mass, density, conductivity and ingredients at once', async () => {
    expect(typed.length).toBeGreaterThan(8)
    await page.getByRole('button', { name: 'New recipe for layer 1' }).click()
    const name = page.getByLabel('Ingredient', { exact: true })
    for (const [ingredient, amount] of typed) {
      await name.fill(ingredient)
      await page.keyboard.press('Enter')
      await page.keyboard.type(amount)
      await page.keyboard.press('Enter')
    }
    await page.getByLabel('Air', { exact: true }).selectOption('overrun_pct')
    await page.getByLabel('Overrun', { exact: true }).fill('140')
    await page.getByLabel('Overrun', { exact: true }).press('Enter')
    await expect.poll(() => figure('Density'), { timeout: 5000 }).toBeLessThan(500)
    // The independent program's figures; the window shows three digits.
    near(await figure('Mass'), batter?.mass_kg ?? 0, 2e-3)
    near(await figure('Density'), batter?.rho_kg_m3 ?? 0, 2e-3)
    near(await figure('Conductivity'), batter?.k20_W_mK ?? 0, 5e-3)
    near(await figure('Volume'), batter?.volume_L ?? 0, 5e-3)
    near(await figure('Begins to freeze'), batter?.freezing_C ?? 0, 0.02)
    const words = (await page.locator('.ingredient-words').textContent()) ?? ''
    // By falling weight: 60 whites of 40.5 g are more than anything else.
    expect(words.indexOf('Egg white')).toBe(0)
    expect(words).toContain('Granulated sugar')
    await page.getByText('Eggs, cereals containing gluten.').waitFor()
    await page.getByText(/Its layer takes/).waitFor()
  })

  it('what cannot be stays at its field with what would be right, and the last result stays', async () => {
    const lost = page.getByLabel('Water lost in the oven or pot')
    await lost.fill('80')
    await lost.press('Enter')
    await page.getByText(/takes 80 % off, but only .* is water/).waitFor()
    await page.getByText('From before your last change: mend what is marked.').waitFor()
    await lost.fill('')
    await lost.press('Enter')
    await page.getByText('From before your last change: mend what is marked.').waitFor({ state: 'detached' })
    await page.getByLabel('Ingredient', { exact: true }).fill('buttr')
    await page.getByRole('button', { name: 'Add', exact: true }).click()
    await page.getByText(/did you mean Butter/).waitFor()
    await page.getByLabel('Ingredient', { exact: true }).fill('')
  })

  it('fits every width and is clean by axe, light and dark', async () => {
    for (const width of widths) {
      await page.setViewportSize({ width, height: 900 })
      await page.waitForTimeout(100)
      expect(await page.evaluate(() => document.documentElement.scrollWidth), `${width}`).toBeLessThanOrEqual(width)
    }
    await page.setViewportSize({ width: 1280, height: 900 })
    expect(await complaintsOfAxe(page)).toEqual([])
    await page.getByRole('button', { name: 'Dark', exact: true }).click()
    expect(await complaintsOfAxe(page)).toEqual([])
  })

  it('another name, the batch into the layer, undo by name, and saved with the plan', async () => {
    await page.getByLabel('Name', { exact: true }).fill('Cocoa sponge')
    await page.keyboard.press('Enter')
    await page.getByRole('heading', { level: 1, name: 'Cocoa-sponge' }).waitFor()
    await page.getByRole('button', { name: /^Make layer 1 .* thick/ }).click()
    await page.getByRole('button', { name: 'Undo thickness' }).click()
    await page.getByRole('button', { name: 'Undo name of the recipe' }).click()
    await page.getByRole('heading', { level: 1, name: 'my-recipe' }).waitFor()
    await page.getByRole('button', { name: 'Redo name of the recipe' }).click()
    await page.getByRole('button', { name: 'Back to the piece' }).click()
    await page.keyboard.press('Control+S')
    await page.getByRole('dialog').getByRole('button', { name: 'Save', exact: true }).click()
    await page.getByText(/^Saved as/).waitFor({ state: 'attached' })
    const [file = ''] = await readdir(program.plansFolder)
    const plan = JSON.parse(await readFile(join(program.plansFolder, file), 'utf8')) as Plan
    expect(plan.piece.fill[0]?.material).toBe('Cocoa-sponge')
    expect(plan.materials?.['Cocoa-sponge']).toEqual({ recipe: sponge?.recipe, overrun_pct: 140 })
    expect(complaints).toEqual([])
  })
})
