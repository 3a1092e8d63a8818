import { mkdir, readdir, writeFile } from 'node:fs/promises'
import { Agent, request as httpRequest } from 'node:http'
import { connect } from 'node:net'
import { join } from 'node:path'
import fc from 'fast-check'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { type Host, startHost } from '../../src/main/host.ts'
import { temporaryFolder } from '../support/temporary-folder.ts'
import { expectClear } from './clear-words.ts'
import { anyValue, texts } from './mutations.ts'
import { share, timeout } from './runs.ts'

// The fourth door: the loopback host. Whatever comes in over the wire, it answers by its rules, tells nothing that it
// must not tell, and goes on.

const folder = temporaryFolder()
const agent = new Agent({ keepAlive: true, maxSockets: 1 })
let host: Host
let authorization: string

beforeEach(async () => {
  await mkdir(join(folder.path, 'pages', 'assets'), { recursive: true })
  await writeFile(join(folder.path, 'pages', 'index.html'), '<!doctype html>')
  await writeFile(join(folder.path, 'secret.html'), 'outside of the pages')
  host = await startHost({
    pages: join(folder.path, 'pages'),
    stateFolder: join(folder.path, 'state'),
    plansFolder: join(folder.path, 'plans'),
    plansFolderName: 'Documents/Thickset',
    version: '1.2.3',
  })
  const key = new URL(host.address).hash.slice(1)
  const swapped = await send({ method: 'POST', path: '/key', headers: JSON_TYPE, body: JSON.stringify({ key }) })
  authorization = `Bearer ${(JSON.parse(swapped.text) as { value: { token: string } }).value.token}`
})
afterEach(() => host.close())

const JSON_TYPE = { 'content-type': 'application/json' }

interface Asked {
  readonly method: string
  readonly path: string
  readonly headers: Readonly<Record<string, string>>
  readonly body: string
}

interface Answer {
  readonly status: number
  readonly headers: Readonly<Record<string, string | string[] | undefined>>
  readonly text: string
}

function send({ method, path, headers, body }: Asked): Promise<Answer> {
  return new Promise((done, failed) => {
    // Without its length, Node's client writes the body of some methods where the next request should begin.
    const counted = { ...headers, 'content-length': String(Buffer.byteLength(body)) }
    const own = method === 'GET' || method === 'HEAD' ? headers : counted
    const asked = httpRequest({ host: '127.0.0.1', port: host.port, method, path, headers: own, agent }, (response) => {
      const pieces: Buffer[] = []
      response.on('data', (piece: Buffer) => pieces.push(piece))
      response.on('end', () => {
        const text = Buffer.concat(pieces).toString('utf8')
        done({ status: response.statusCode ?? 0, headers: response.headers, text })
      })
    })
    asked.on('error', failed)
    asked.end(own === counted ? body : undefined)
  })
}

const counted: Record<string, number> = {}

function expectByTheRules({ status, headers, text }: Answer): void {
  counted[status] = (counted[status] ?? 0) + 1
  expect([200, 400, 403, 404, 405, 413, 415]).toContain(status)
  expect(headers['content-security-policy']).toMatch(/^default-src 'none'/)
  expect(Object.keys(headers).filter((name) => name.startsWith('access-control'))).toEqual([])
  expect(headers['set-cookie']).toBeUndefined()
  expect(text).not.toContain(folder.path)
  expect(text).not.toContain('outside of the pages')
  // The answer to a HEAD has no body.
  if (text === '' || !String(headers['content-type']).startsWith('application/json')) return
  const envelope = JSON.parse(text) as { ok: boolean; message?: string }
  if (status !== 200) expect(envelope.ok).toBe(false)
  if (envelope.ok) return
  expectClear(envelope.message ?? '')
  expect(envelope.message).not.toBe('This failed.')
}

/** One of these mostly, else something strange. */
const mostly = (usual: string, ...others: string[]): fc.Arbitrary<string> =>
  fc.oneof({ weight: 5, arbitrary: fc.constant(usual) }, { weight: 2, arbitrary: fc.constantFrom(...others) })

const channel = fc.constantFrom('ready', 'beat', 'openPlan', 'savePlanAs', 'keepDraft', 'exportFile', 'readSettings')
const path = fc.oneof(
  { weight: 6, arbitrary: channel.map((name) => `/ask/${name}`) },
  {
    weight: 3,
    arbitrary: fc.constantFrom(
      '/',
      '/key',
      '/ask/',
      '/ask/__proto__',
      '/ask/ready?x=1',
      '/../secret.html',
      '/%2e%2e/secret.html',
      '/..%2fsecret.html',
      '/..%5csecret.html',
      '/assets/%00',
      '/%',
      '//secret.html',
      '/index.html',
    ),
  },
  { weight: 1, arbitrary: fc.string({ maxLength: 60 }).map((text) => `/${encodeURIComponent(text)}`) },
  {
    weight: 1,
    arbitrary: fc
      .array(fc.constantFrom('..', '.', '%2e', '%2F', 'a', '%c0%af'), { maxLength: 8 })
      .map((parts) => `/${parts.join('/')}`),
  },
)
const method = fc.oneof(
  { weight: 6, arbitrary: fc.constant('POST') },
  { weight: 2, arbitrary: fc.constant('GET') },
  { weight: 1, arbitrary: fc.constantFrom('HEAD', 'PUT', 'DELETE', 'OPTIONS', 'PATCH', 'TRACE', 'PROPFIND') },
)
const body = fc.oneof(
  { weight: 2, arbitrary: fc.constant('{}') },
  { weight: 3, arbitrary: anyValue.map((value) => JSON.stringify(value) ?? '') },
  {
    weight: 2,
    arbitrary: fc.record({ name: fc.constantFrom(...texts), text: fc.string() }).map((value) => JSON.stringify(value)),
  },
  { weight: 1, arbitrary: fc.string({ unit: 'binary', maxLength: 200 }) },
  { weight: 1, arbitrary: fc.nat({ max: 20_000 }).map((depth) => '['.repeat(depth)) },
)
const faults = fc.record({
  host: mostly('own', 'localhost', 'evil.example', '127.0.0.1', '[::1]'),
  origin: mostly('none', 'own', 'https://evil.example', 'null', 'http://127.0.0.1:1'),
  site: mostly('none given', 'same-origin', 'cross-site', 'same-site', 'none', 'x'),
  type: mostly(
    'application/json',
    'application/json; charset=utf-8',
    'text/plain',
    'multipart/form-data',
    'application/jsonx',
  ),
  token: mostly('own', 'none', 'Bearer', 'Bearer x', `Bearer ${'A'.repeat(43)}`, 'Basic x'),
})

describe('any request to the loopback host', { timeout }, () => {
  it('well written, with whatever in it', async () => {
    const any = fc.tuple(method, path, body, faults)
    await fc.assert(
      fc.asyncProperty(any, async ([verb, where, what, wrong]) => {
        const own = `127.0.0.1:${host.port}`
        const headers: Record<string, string> = {
          host: wrong.host === 'own' ? own : wrong.host,
          'content-type': wrong.type,
          ...(wrong.origin === 'none' ? {} : { origin: wrong.origin === 'own' ? `http://${own}` : wrong.origin }),
          ...(wrong.site === 'none given' ? {} : { 'sec-fetch-site': wrong.site }),
          ...(wrong.token === 'none' ? {} : { authorization: wrong.token === 'own' ? authorization : wrong.token }),
        }
        const answer = await send({ method: verb, path: where, headers, body: what })
        expectByTheRules(answer)
        const foreign = wrong.host !== 'own' || !['none', 'own'].includes(wrong.origin)
        if (foreign) expect(answer.status).toBe(403)
        if (where.startsWith('/ask/') && wrong.token !== 'own') expect(answer.status).not.toBe(200)
      }),
      share(0.95),
    )
  })

  it('written by no rule at all: it is cut off or refused, and the host goes on', async () => {
    const line = fc.constantFrom(
      'GET / HTTP/1.1\r\n',
      'POST /ask/ready HTTP/1.1\r\n',
      'GET / HTTP/9.9\r\n',
      'host: 127.0.0.1\r\n',
      'content-length: 5\r\n',
      'content-length: -1\r\n',
      'content-length: 99999999999999\r\n',
      'transfer-encoding: chunked\r\n',
      'fffffffff\r\n',
      '\r\n',
      '\0\0\0',
      `x: ${'y'.repeat(20_000)}\r\n`,
    )
    const wire = fc.array(fc.oneof(line, fc.string({ unit: 'binary', maxLength: 30 })), { minLength: 1, maxLength: 6 })
    await fc.assert(
      fc.asyncProperty(wire, async (lines) => {
        const heard = await whatComes(Buffer.from(lines.join(''), 'latin1'))
        expect(heard).not.toContain(folder.path)
        expect(heard).not.toContain('outside of the pages')
        expect(heard).not.toMatch(/"ok":true/)
      }),
      share(0.05),
    )
  })

  afterEach(async () => {
    const headers = { ...JSON_TYPE, authorization }
    const answer = await send({ method: 'POST', path: '/ask/beat', headers, body: '{}' })
    expect(answer.text).toBe('{"ok":true,"value":{}}')
    expect(
      (await readdir(folder.path)).filter((file) => !['pages', 'plans', 'state', 'secret.html'].includes(file)),
    ).toEqual([])
    console.info(`requests by status: ${JSON.stringify(counted)}`)
  })
})

/** What the host says to bytes on a fresh connection, of which the other half never comes. */
function whatComes(bytes: Buffer): Promise<string> {
  return new Promise((done) => {
    const pieces: Buffer[] = []
    const socket = connect({ host: '127.0.0.1', port: host.port })
    socket.on('data', (piece) => pieces.push(piece))
    socket.on('error', () => undefined)
    socket.on('close', () => done(Buffer.concat(pieces).toString('latin1')))
    socket.end(bytes)
  })
}
