import { mkdir, writeFile } from 'node:fs/promises'
import { request as httpRequest, type IncomingHttpHeaders } from 'node:http'
import { connect } from 'node:net'
import { networkInterfaces } from 'node:os'
import { join } from 'node:path'
import { gzipSync } from 'node:zlib'
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import { type Host, startHost } from '../../src/main/host.ts'
import { CONTENT_SECURITY_POLICY } from '../../src/main/pages.ts'
import { temporaryFolder } from '../support/temporary-folder.ts'

const folder = temporaryFolder()
let host: Host

const options = () => ({
  pages: join(folder.path, 'pages'),
  stateFolder: join(folder.path, 'state'),
  plansFolder: join(folder.path, 'plans'),
  version: '1.2.3',
})

beforeEach(async () => {
  await mkdir(join(folder.path, 'pages', 'assets'), { recursive: true })
  await writeFile(join(folder.path, 'pages', 'index.html'), '<!doctype html>')
  await writeFile(join(folder.path, 'pages', 'assets', 'a.js'), 'export {}')
  await writeFile(join(folder.path, 'secret.html'), 'outside of the pages')
  host = await startHost(options())
})
afterEach(() => host.close())

interface Answer {
  readonly status: number
  readonly headers: IncomingHttpHeaders
  readonly text: string
}

/** A request with exactly the headers given; `fetch` would not let a test lie about its host. */
function send(method: string, path: string, headers: Record<string, string>, body?: string): Promise<Answer> {
  return new Promise((done, failed) => {
    const asked = httpRequest(
      { host: '127.0.0.1', port: host.port, method, path, headers: { connection: 'close', ...headers } },
      (response) => {
        const pieces: Buffer[] = []
        response.on('data', (piece: Buffer) => pieces.push(piece))
        response.on('end', () =>
          done({
            status: response.statusCode ?? 0,
            headers: response.headers,
            text: Buffer.concat(pieces).toString('utf8'),
          }),
        )
      },
    )
    asked.on('error', failed)
    asked.end(body)
  })
}

const JSON_TYPE = { 'content-type': 'application/json' }
const keyOf = (address: string): string => new URL(address).hash.slice(1)

async function getToken(address = host.address): Promise<string> {
  const { text } = await send('POST', '/key', JSON_TYPE, JSON.stringify({ key: keyOf(address) }))
  return (JSON.parse(text) as { value: { token: string } }).value.token
}

describe('a page that came by the address', () => {
  it('swaps the key for a token, and asks with it', async () => {
    const authorization = `Bearer ${await getToken()}`
    const origin = `http://127.0.0.1:${host.port}`
    const own = { ...JSON_TYPE, authorization, origin, 'sec-fetch-site': 'same-origin' }
    const { status, text, headers } = await send('POST', '/ask/ready', own, '{}')
    expect(status).toBe(200)
    expect(JSON.parse(text)).toMatchObject({ ok: true, value: { program: 'browser', version: '1.2.3' } })
    expect(headers['cache-control']).toBe('no-store')
    expect(host.wasReached()).toBe(true)
  })

  it('has a key that works once; a further address has another', async () => {
    const first = await getToken()
    const again = await send('POST', '/key', JSON_TYPE, JSON.stringify({ key: keyOf(host.address) }))
    expect(again.status).toBe(403)
    expect(again.text).not.toContain(first)
    expect(await getToken(host.newAddress())).toBe(first)
  })

  it('is told of refusals in words, of other failures without paths', async () => {
    const authorization = `Bearer ${await getToken()}`
    const ask = async (channel: string, request: unknown): Promise<unknown> => {
      const answer = await send('POST', `/ask/${channel}`, { ...JSON_TYPE, authorization }, JSON.stringify(request))
      return JSON.parse(answer.text)
    }
    expect(await ask('openPlan', { id: 'none' })).toEqual({
      ok: false,
      message: 'This plan is not known here any more; open it again.',
    })
    expect(await ask('__proto__', {})).toEqual({ ok: false, message: 'There is no such call.' })
    await writeFile(join(folder.path, 'plans'), 'a file where the folder should be')
    expect(await ask('savePlanAs', { name: 'x', text: '{}' })).toEqual({
      ok: false,
      message: expect.stringMatching(/^The folder or file for it is not what it should be\. [^/\\]*$/),
    })
  })

  it('can be told apart from nothing: unsaved work is known', async () => {
    const authorization = `Bearer ${await getToken()}`
    expect(host.hasUnsaved()).toBe(false)
    const body = JSON.stringify({ unsaved: true, name: 'x' })
    await send('POST', '/ask/markUnsaved', { ...JSON_TYPE, authorization }, body)
    expect(host.hasUnsaved()).toBe(true)
  })
})

describe('every answer', () => {
  it.each([
    ['the page', 'GET', '/', {}],
    ['an asset', 'GET', '/assets/a.js', {}],
    ['nothing there', 'GET', '/none.js', {}],
    ['a refusal', 'POST', '/ask/ready', JSON_TYPE],
  ])('carries the rules for the page (%s) and lets no other origin read it', async (_what, method, path, extra) => {
    const { headers } = await send(method, path, extra)
    expect(headers['content-security-policy']).toBe(CONTENT_SECURITY_POLICY)
    expect(headers['x-content-type-options']).toBe('nosniff')
    expect(headers['referrer-policy']).toBe('no-referrer')
    expect(headers['cross-origin-opener-policy']).toBe('same-origin')
    expect(headers['cross-origin-embedder-policy']).toBe('require-corp')
    expect(headers['cross-origin-resource-policy']).toBe('same-origin')
    expect(Object.keys(headers).filter((name) => name.startsWith('access-control'))).toEqual([])
    expect(headers['set-cookie']).toBeUndefined()
  })

  it('of a page is served under any query, as a head too', async () => {
    expect((await send('GET', '/?x=1', {})).text).toBe('<!doctype html>')
    const head = await send('HEAD', '/', {})
    expect([head.status, head.text, head.headers['content-length']]).toEqual([200, '', '15'])
  })
})

describe('refused', () => {
  let authorization: string
  beforeEach(async () => {
    authorization = `Bearer ${await getToken()}`
  })
  const refusedAsk = (headers: Record<string, string>, method = 'POST', path = '/ask/ready', body = '{}') =>
    send(method, path, { ...JSON_TYPE, authorization, ...headers }, body)

  it('accepts the same request without any of these faults', async () => {
    expect((await refusedAsk({})).status).toBe(200)
  })

  it.each([
    ['another name for this machine (DNS rebinding)', { host: 'localhost' }, 403],
    ['a foreign host with our port', { host: 'evil.example' }, 403],
    ['a foreign origin', { origin: 'https://evil.example' }, 403],
    ['an opaque origin', { origin: 'null' }, 403],
    ['our origin on another port', { origin: 'http://127.0.0.1:1' }, 403],
    ['a request from another site', { 'sec-fetch-site': 'cross-site' }, 403],
    ['a request from another port', { 'sec-fetch-site': 'same-site' }, 403],
    ['a call typed into the address bar', { 'sec-fetch-site': 'none' }, 403],
    ['no token', { authorization: '' }, 403],
    ['a wrong token', { authorization: `Bearer ${'A'.repeat(43)}` }, 403],
    ['a form', { 'content-type': 'application/x-www-form-urlencoded' }, 415],
    ['plain text', { 'content-type': 'text/plain' }, 415],
  ])('%s', async (_what, headers, status) => {
    const answer = await refusedAsk(headers)
    expect(answer.status).toBe(status)
    expect(JSON.parse(answer.text)).toMatchObject({ ok: false })
  })

  it.each([
    ['a call by GET', 'GET', '/ask/ready', 404],
    ['PUT', 'PUT', '/ask/ready', 405],
    ['DELETE', 'DELETE', '/', 405],
    ['OPTIONS (a preflight)', 'OPTIONS', '/ask/ready', 405],
    ['a call elsewhere', 'POST', '/other', 404],
  ])('%s', async (_what, method, path, status) => {
    expect((await refusedAsk({}, method, path, method === 'GET' ? '' : '{}')).status).toBe(status)
  })

  it('a page asked for by another site', async () => {
    expect((await send('GET', '/', { 'sec-fetch-site': 'cross-site' })).status).toBe(403)
    expect((await send('GET', '/', { host: 'evil.example' })).status).toBe(403)
  })

  it('a body that is no JSON', async () => {
    const answer = await refusedAsk({}, 'POST', '/ask/ready', '{"half":')
    expect(JSON.parse(answer.text)).toEqual({ ok: false, message: 'The request is not JSON.' })
  })

  it('a compressed body: nothing is unpacked', async () => {
    const packed = gzipSync('{}').toString('latin1')
    const answer = await refusedAsk({ 'content-encoding': 'gzip' }, 'POST', '/ask/ready', packed)
    expect(JSON.parse(answer.text)).toEqual({ ok: false, message: 'The request is not JSON.' })
  })

  it('a key of the wrong shape', async () => {
    for (const body of ['', '{}', '{"key": 1}', '{"key": ""}', 'null', `{"key": "${'A'.repeat(32)}"}`]) {
      expect((await send('POST', '/key', JSON_TYPE, body)).status).toBe(403)
    }
  })

  it('a body that is too large, and the answer arrives', async () => {
    const large = JSON.stringify({ text: 'x'.repeat(30_000_000) })
    expect((await refusedAsk({}, 'POST', '/ask/keepDraft', large)).status).toBe(413)
    const counted = { 'content-length': String(Buffer.byteLength(large)) }
    expect((await refusedAsk(counted, 'POST', '/ask/keepDraft', large)).status).toBe(413)
  })

  it.each([
    '/../secret.html',
    '/%2e%2e/secret.html',
    '/..%2fsecret.html',
    '/assets/../../secret.html',
    '/..%5csecret.html',
    '/%00',
    '/index.html%00.js',
    '/%',
    '//secret.html',
    '/assets',
    '/assets/',
  ])('the path %s', async (path) => {
    const answer = await send('GET', path, {})
    expect([400, 404]).toContain(answer.status)
    expect(answer.text).not.toContain('outside')
  })

  it('every other address of this machine', async () => {
    const others = Object.values(networkInterfaces())
      .flatMap((addresses) => addresses ?? [])
      .filter((address) => address.family === 'IPv4' && !address.internal)
    for (const { address } of [...others, { address: '127.0.0.2' }]) {
      const reached = await new Promise((done) => {
        const socket = connect({ host: address, port: host.port, timeout: 1000 })
        socket
          .once('connect', () => done(true))
          .once('error', () => done(false))
          .once('timeout', () => done(false))
        socket.once('connect', () => socket.destroy())
      })
      expect(reached, address).toBe(false)
    }
  })
})

describe('the end', () => {
  it('comes when asked, also with a connection open', async () => {
    const socket = connect({ host: '127.0.0.1', port: host.port })
    await new Promise((done) => socket.once('connect', done))
    socket.on('error', () => undefined)
    await host.close()
    expect(await host.ended).toBe('closed')
    socket.destroy()
  })

  it('does not come of a sleep: the machine’s hours asleep are not minutes without a word', async () => {
    vi.useFakeTimers({ toFake: ['setInterval', 'clearInterval', 'Date'] })
    try {
      const woken = await startHost({ ...options(), quiet_min: 3 })
      const first = host
      host = woken
      const authorization = `Bearer ${await getToken()}`
      vi.setSystemTime(Date.now() + 20 * 3_600_000)
      vi.advanceTimersByTime(60_000)
      const beat = await send('POST', '/ask/beat', { ...JSON_TYPE, authorization }, '{}')
      expect(beat.text).toBe('{"ok":true,"value":{}}')
      vi.setSystemTime(Date.now() - 40 * 3_600_000)
      vi.advanceTimersByTime(2 * 60_000)
      expect((await send('POST', '/ask/beat', { ...JSON_TYPE, authorization }, '{}')).status).toBe(200)
      await first.close()
    } finally {
      vi.useRealTimers()
    }
  })

  it('comes by itself when no page has spoken for long; each word puts it off', async () => {
    vi.useFakeTimers({ toFake: ['setInterval', 'clearInterval'] })
    try {
      const quiet = await startHost({ ...options(), quiet_min: 3 })
      let how: string | undefined
      quiet.ended.then(
        (value) => {
          how = value
        },
        () => undefined,
      )
      const first = host
      host = quiet
      const authorization = `Bearer ${await getToken()}`
      vi.advanceTimersByTime(2 * 60_000)
      await send('POST', '/ask/beat', { ...JSON_TYPE, authorization }, '{}')
      vi.advanceTimersByTime(2 * 60_000)
      expect(how).toBeUndefined()
      vi.advanceTimersByTime(60_000)
      expect(await quiet.ended).toBe('quiet')
      await first.close()
    } finally {
      vi.useRealTimers()
    }
  })
})
