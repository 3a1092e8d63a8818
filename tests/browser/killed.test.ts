import { type ChildProcess, spawn } from 'node:child_process'
import { join } from 'node:path'
import { pathToFileURL } from 'node:url'
import { afterEach, describe, expect, it } from 'vitest'
import { noBrowser, openMortalBrowser } from '../support/chromium.ts'
import { temporaryFolder } from '../support/temporary-folder.ts'

// The program's process and the browser's are killed while somebody types: what was typed more than two seconds before
// must be there at the next start.

const LOSS_MS = 2000
const KEY_MS = 90
const out = join(import.meta.dirname, '..', '..', 'out')

const children: ChildProcess[] = []

/** The loopback host in a process of its own, on folders that outlive it. */
async function startHostProcess(folder: string): Promise<{ readonly address: string; readonly kill: () => void }> {
  const options = {
    pages: join(out, 'renderer'),
    version: '0.0.0-test',
    plansFolderName: 'Plans',
    stateFolder: join(folder, 'state'),
    plansFolder: join(folder, 'plans'),
  }
  const program = `import { startHost } from ${JSON.stringify(pathToFileURL(join(out, 'main', 'host.js')).href)}
    const host = await startHost(${JSON.stringify(options)})
    console.log(host.newAddress())`
  const child = spawn(process.execPath, ['--input-type=module', '-e', program], {
    stdio: ['ignore', 'pipe', 'inherit'],
  })
  children.push(child)
  const address = await new Promise<string>((resolve, reject) => {
    child.stdout.once('data', (text: Buffer) => resolve(text.toString().trim()))
    child.once('exit', () => reject(new Error('the host ended')))
  })
  return { address, kill: () => child.kill('SIGKILL') }
}

describe.skipIf(noBrowser)('killed while typing', { timeout: 120_000 }, () => {
  const folder = temporaryFolder()
  afterEach(() => {
    for (const child of children.splice(0)) child.kill('SIGKILL')
  })

  it('nothing older than two seconds is lost', async () => {
    const host = await startHostProcess(folder.path)
    const { browser, kill } = await openMortalBrowser()
    const page = await browser.newPage()
    await page.goto(host.address)
    await page.getByRole('button', { name: 'New plan' }).click()
    await page.getByLabel('Name of the plan').fill('')
    const typed: { readonly text: string; readonly at: number }[] = []
    let text = ''
    const began = performance.now()
    while (performance.now() - began < 5000) {
      text += String(typed.length % 10)
      await page.keyboard.type(text.at(-1) ?? '')
      typed.push({ text, at: performance.now() })
      await page.waitForTimeout(KEY_MS)
    }
    const killedAt = performance.now()
    host.kill()
    await kill()

    const owed = typed.filter(({ at }) => killedAt - at > LOSS_MS).at(-1)?.text ?? ''
    expect(owed.length).toBeGreaterThan(5)
    const again = await startHostProcess(folder.path)
    const next = await openMortalBrowser()
    const reopened = await next.browser.newPage()
    await reopened.goto(again.address)
    await reopened.getByRole('heading', { name: 'Recovered, not yet saved' }).waitFor()
    await reopened.getByRole('button', { name: 'Open it' }).click()
    const kept = await reopened.getByLabel('Name of the plan').inputValue()
    expect(kept.slice(0, owed.length)).toBe(owed)
    again.kill()
    await next.kill()
  })
})
