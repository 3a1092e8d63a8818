import { mkdtemp, readFile, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { _electron, type ElectronApplication, type Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { Envelope, Reply } from '../../src/main/contract.ts'
import { findElectron } from '../../src/main/electron-runtime.ts'
import type {} from '../../src/renderer/bridge.ts'

const root = join(import.meta.dirname, '..', '..')
const runtime = findElectron(root)

/** Why a real Electron can't run here, or undefined. */
function obstacle(): string | undefined {
  if (runtime === undefined) return 'no Electron runtime'
  if (process.platform !== 'linux') return undefined
  if (process.getuid?.() === 0) return 'root'
  return process.env.DISPLAY || process.env.WAYLAND_DISPLAY ? undefined : 'no display'
}
const reason = obstacle()
if (reason !== undefined) {
  const words = `test:electron not run: ${reason}`
  if (process.env.REQUIRE_ELECTRON === '1') throw new Error(words)
  process.stderr.write(`${words}\n`)
}

describe.skipIf(reason !== undefined)('the program in a real Electron', () => {
  let program: ElectronApplication
  let page: Page
  let folder: string

  beforeAll(async () => {
    folder = await mkdtemp(join(tmpdir(), 'thickset-test-'))
    program = await _electron.launch({
      executablePath: runtime ?? '',
      args: [root, `--user-data-dir=${join(folder, 'profile')}`],
      env: { ...(process.env as Record<string, string>), THICKSET_STATE: join(folder, 'state') },
    })
    page = await program.firstWindow()
    await page.locator('#root > *').filter({ visible: true }).first().waitFor()
  })
  afterAll(async () => {
    await program?.close()
    await rm(folder, { recursive: true, force: true, maxRetries: 5, retryDelay: 200 })
  })

  it('draws its page from its own scheme, without Node in it', async () => {
    expect(page.url()).toBe('app://thickset/')
    const there = await page.evaluate(() => ['require', 'process', 'module'].filter((name) => name in window))
    expect(there).toEqual([])
  })

  it('answers the page', async () => {
    const ready = (await page.evaluate(() => window.thickset?.ask('ready', {}))) as Envelope<Reply<'ready'>>
    expect(ready).toMatchObject({ ok: true, value: { program: 'window' } })
  })

  it('saves where the dialog says', async () => {
    const path = join(folder, 'saved.thickset')
    await program.evaluate(({ dialog }, filePath) => {
      dialog.showSaveDialog = async () => ({ canceled: false, filePath })
    }, path)
    const saved = await page.evaluate(() => window.thickset?.ask('savePlanAs', { name: 'x', text: '{}' }))
    expect(saved).toMatchObject({ ok: true, value: { outcome: 'saved', plan: { name: 'saved' } } })
    expect(await readFile(path, 'utf8')).toBe('{}')
  })

  it('writes the sheet as PDF', async () => {
    const path = join(folder, 'sheet.pdf')
    await program.evaluate(({ dialog }, filePath) => {
      dialog.showSaveDialog = async () => ({ canceled: false, filePath })
    }, path)
    await page.evaluate(() =>
      window.thickset?.ask('saveSheet', { name: 'x', page: { title: 'Bar', facts: [], blocks: [] }, paper: 'A4' }),
    )
    expect((await readFile(path)).subarray(0, 5).toString()).toBe('%PDF-')
  })
})
