import { mkdir, readdir, readFile, rename, rm, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import type { Browser, BrowserContext, Page } from 'playwright-core'
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import type { Plan } from '../../src/core/plan/schema/plan.ts'
import { noBrowser, openBrowser, openPage, upToDate } from '../support/chromium.ts'
import { type Program, startProgram } from '../support/program.ts'

// What a person sees of a fault: autosave that can't write, a plan in two tabs, a file that is gone, a part of the page
// that can't compute. The work stays in the page, and what to do is said.

const plan: Plan = {
  format: 'thickset-plan',
  version: 1,
  title: 'Pudding',
  startsAt: '2027-03-12T16:00',
  fidelity: 'quick',
  piece: { shape: { kind: 'sheet' }, fill: [{ material: 'milk-pudding', thickness_mm: 60, start_C: 70 }] },
  stages: [{ name: 'Fridge', in: { air_C: 4, h_W_m2K: 12 }, until: { after_h: 24 } }],
  targets: [{ kind: 'cooled', core_C: 8, by: '2027-03-13T06:00' }],
}

describe.skipIf(noBrowser)('a fault', { timeout: 120_000 }, () => {
  let browser: Browser
  let program: Program
  let context: BrowserContext

  beforeAll(async () => {
    browser = await openBrowser()
  })
  afterAll(() => browser?.close())
  beforeEach(async () => {
    program = await startProgram()
    await mkdir(program.plansFolder, { recursive: true })
    await writeFile(join(program.plansFolder, 'Pudding.thickset'), JSON.stringify(plan))
    context = await browser.newContext({ viewport: { width: 1440, height: 900 } })
  })
  afterEach(async () => {
    await context.close()
    await program.stop()
  })

  async function openPlan(): Promise<Page> {
    const { page } = await openPage(context, program.origin)
    await page.goto(program.host.newAddress())
    await page.getByRole('heading', { name: 'Start from a piece like yours' }).waitFor()
    await page.keyboard.press('Control+O')
    await page.getByRole('dialog').getByRole('button', { name: 'Pudding' }).click()
    await page.getByLabel('Name of the plan').waitFor()
    return page
  }
  const name = async (page: Page, as: string): Promise<void> => {
    await page.getByLabel('Name of the plan').fill(as)
    await page.getByLabel('Name of the plan').press('Enter')
  }
  const onDisk = async (): Promise<string> =>
    (JSON.parse(await readFile(join(program.plansFolder, 'Pudding.thickset'), 'utf8')) as Plan).title

  it('of autosave is told, the work stays, and it is kept as soon as that can be', async () => {
    const page = await openPlan()
    const drafts = join(program.stateFolder, 'drafts')
    await rm(drafts, { recursive: true, force: true })
    await mkdir(program.stateFolder, { recursive: true })
    await writeFile(drafts, 'a file where the folder should be')
    await name(page, 'Never saved')
    await page
      .getByText(/^Your work could not be kept: .*is not what it should be/)
      .first()
      .waitFor({ state: 'attached' })
    expect(await page.getByLabel('Name of the plan').inputValue()).toBe('Never saved')
    await rm(drafts)
    // Nothing more is typed: it is tried again by itself.
    await expect
      .poll(
        () =>
          readdir(drafts).then(
            (files) => files.some((file) => file.endsWith('.json')),
            () => false,
          ),
        {
          timeout: 30_000,
        },
      )
      .toBe(true)
  })

  it('of two tabs on one plan: the second to save is asked, and nothing is written over unasked', async () => {
    const [one, other] = [await openPlan(), await openPlan()]
    await name(one, 'By the first tab')
    await one.keyboard.press('Control+S')
    await expect.poll(onDisk).toBe('By the first tab')
    await name(other, 'By the second tab')
    await other.keyboard.press('Control+S')
    const dialog = other.getByRole('dialog')
    await dialog.getByText('“Pudding” was changed elsewhere').waitFor()
    expect(await onDisk()).toBe('By the first tab')
    await dialog.getByRole('button', { name: 'Write over it' }).click()
    await expect.poll(onDisk).toBe('By the second tab')
  })

  it('of a file that is gone: it is asked whether to save it there again', async () => {
    const page = await openPlan()
    await rename(join(program.plansFolder, 'Pudding.thickset'), join(program.plansFolder, 'Moved.thickset'))
    await name(page, 'Changed since')
    await page.keyboard.press('Control+S')
    const dialog = page.getByRole('dialog')
    await dialog.getByText('“Pudding” is not there any more').waitFor()
    expect(await readdir(program.plansFolder)).toEqual(['Moved.thickset'])
    await dialog.getByRole('button', { name: 'Save it there again' }).click()
    await expect.poll(() => onDisk().catch(() => '')).toBe('Changed since')
  })

  it('of the computing part: it is told, the plan stays, and the next change computes again', async () => {
    let broken = true
    await context.route(/forecast\.worker-.*\.js$/, (route) => (broken ? route.abort() : route.continue()))
    const page = await openPlan()
    await page.getByText('The computation stopped:').first().waitFor()
    expect(await page.getByLabel('Name of the plan').inputValue()).toBe('Pudding')
    broken = false
    await page.getByLabel('Thickness of layer 1', { exact: true }).fill('50')
    await page.getByLabel('Thickness of layer 1', { exact: true }).press('Enter')
    await upToDate(page)
  })
})
