import { createServer } from 'node:http'
import type { AddressInfo } from 'node:net'
import type { Browser, BrowserContext } from 'playwright-core'
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import { noBrowser, openBrowser, openPage, waitUntilDrawn } from '../support/chromium.ts'
import { type Program, startProgram } from '../support/program.ts'

describe.skipIf(noBrowser)('the program in the loopback host', () => {
  let browser: Browser
  let context: BrowserContext
  let program: Program

  beforeAll(async () => {
    browser = await openBrowser()
  })
  afterAll(() => browser?.close())
  beforeEach(async () => {
    program = await startProgram()
    context = await browser.newContext()
  })
  afterEach(async () => {
    await context.close()
    await program.stop()
  })

  it('draws, keeps to its own origin and breaks none of its own rules', async () => {
    const { page, complaints } = await openPage(context, program.origin)
    await page.goto(program.address)
    await waitUntilDrawn(page)
    expect(complaints).toEqual([])
    expect(await page.evaluate(() => crossOriginIsolated)).toBe(true)
  })

  it('takes its key out of the address bar, and survives a reload', async () => {
    const { page, complaints } = await openPage(context, program.origin)
    await page.goto(program.address)
    await waitUntilDrawn(page)
    expect(page.url()).toBe(`${program.origin}/`)
    await page.reload()
    await waitUntilDrawn(page)
    expect(complaints).toEqual([])
  })

  it('does not let a second browser in by the same address', async () => {
    const first = await openPage(context, program.origin)
    await first.page.goto(program.address)
    await waitUntilDrawn(first.page)
    const other = await browser.newContext()
    const second = await openPage(other, program.origin)
    const refused = second.page.waitForResponse((response) => response.url().endsWith('/key'))
    await second.page.goto(program.address)
    expect((await refused).status()).toBe(403)
    expect(await second.page.evaluate(() => sessionStorage.length)).toBe(0)
    await other.close()
  })

  it('is out of reach for a page of another port, which knows the token even', async () => {
    const { page } = await openPage(context, program.origin)
    await page.goto(program.address)
    await waitUntilDrawn(page)
    const token = await page.evaluate(() => sessionStorage.getItem('thickset-token'))
    expect(token).toMatch(/^[\w-]{43}$/)
    const stranger = createServer((_request, response) => {
      response.setHeader('content-type', 'text/html').end('<!doctype html><title>stranger</title>')
    })
    await new Promise<void>((listening) => stranger.listen(0, '127.0.0.1', listening))
    const strange = await context.newPage()
    await strange.goto(`http://127.0.0.1:${(stranger.address() as AddressInfo).port}/`)
    const reached = await strange.evaluate(
      async ({ address, authorization }) => {
        const headers = { 'content-type': 'application/json', authorization }
        const send = (mode: RequestMode) =>
          fetch(address, { method: 'POST', headers, body: '{}', mode }).then(
            (response) => response.type,
            () => 'failed',
          )
        return [await send('cors'), await send('same-origin')]
      },
      { address: `${program.origin}/ask/ready`, authorization: `Bearer ${token}` },
    )
    expect(reached).toEqual(['failed', 'failed'])
    stranger.closeAllConnections()
    stranger.close()
  })

  it('refuses inline scripts and evaluation', async () => {
    const { page } = await openPage(context, program.origin)
    await page.goto(program.address)
    const outcome = await page.evaluate(() => {
      const script = document.createElement('script')
      script.textContent = 'window.inlineRan = true'
      document.body.append(script)
      return 'inlineRan' in window
    })
    expect(outcome).toBe(false)
  })
})
