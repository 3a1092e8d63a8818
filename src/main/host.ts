import { createServer, type IncomingMessage, type ServerResponse } from 'node:http'
import type { AddressInfo } from 'node:net'
import { setTimeout as pause } from 'node:timers/promises'
import { z } from 'zod'
import type { Envelope } from './contract.ts'
import { Doorkeeper } from './doorkeeper.ts'
import { asEnvelope } from './envelope.ts'
import { type Ask, type Desk, makeAsk } from './handlers.ts'
import { readPage, SECURITY_HEADERS } from './pages.ts'
import { PlanFiles } from './plan-files.ts'
import { Refusal } from './refusal.ts'
import { Store } from './store.ts'

/** Largest request body, bytes: an exported file in base64 and what is around it. */
const BODY_BYTES = 24_000_000
const QUIET_MINUTES = 30

export interface HostOptions {
  /** Folder of the built page. */
  readonly pages: string
  readonly stateFolder: string
  readonly plansFolder: string
  /** The plans folder in words, for the eye. */
  readonly plansFolderName?: string
  readonly version: string
  /** Path of a plan to open at once. */
  readonly opened?: string
  /** Minutes without a word from the page after which the host ends by itself. */
  readonly quiet_min?: number
}

export interface Host {
  /** Address of the page with a key that works once. */
  readonly address: string
  /** The same with another key. */
  newAddress(): string
  /** True once a page has come in. */
  wasReached(): boolean
  readonly port: number
  /** Settled when the host has ended, by `close` or because no page spoke for long. */
  readonly ended: Promise<'closed' | 'quiet'>
  /** True while a page has work that is not in a file (it is kept as a draft). */
  hasUnsaved(): boolean
  close(): Promise<void>
}

/** Serves the program to a browser on this machine, and to nobody else. */
export async function startHost(options: HostOptions): Promise<Host> {
  const store = new Store(options.stateFolder)
  let unsaved = false
  let opened = options.opened
  const desk: Desk = {
    store,
    files: new PlanFiles(),
    version: options.version,
    platform: process.platform,
    now: Date.now,
    takeOpened: () => {
      const path = opened
      opened = undefined
      return path
    },
    shell: {
      program: 'browser',
      plansFolder: options.plansFolder,
      plansFolderName: options.plansFolderName ?? options.plansFolder,
      markUnsaved: (now) => {
        unsaved = now
      },
    },
  }
  const doorkeeper = new Doorkeeper()
  const ask = makeAsk(desk)
  const server = createServer((request, response) => {
    answer(request, response, { doorkeeper, ask, pages: options.pages }).catch(() => response.destroy())
  })
  await new Promise<void>((listening, failed) => {
    server.once('error', failed)
    server.listen(0, '127.0.0.1', listening)
  })
  const { port } = server.address() as AddressInfo
  doorkeeper.port = port

  let settle: (how: 'closed' | 'quiet') => void = () => undefined
  const ended = new Promise<'closed' | 'quiet'>((settled) => {
    settle = settled
  })
  let closing: Promise<void> | undefined
  const close = (how: 'closed' | 'quiet'): Promise<void> => {
    closing ??= (async () => {
      clearInterval(watch)
      server.close()
      server.closeAllConnections()
      await store.close()
      settle(how)
    })()
    return closing
  }
  // Minutes are counted, not read off the clock: a machine that slept has not been quiet for its whole sleep.
  const watch = setInterval(() => {
    doorkeeper.quiet_min++
    if (doorkeeper.quiet_min >= (options.quiet_min ?? QUIET_MINUTES)) close('quiet').catch(() => undefined)
  }, 60_000)
  watch.unref()

  const newAddress = (): string => `http://127.0.0.1:${port}/#${doorkeeper.makeKey()}`
  return {
    address: newAddress(),
    newAddress,
    wasReached: () => doorkeeper.reached,
    port,
    ended,
    hasUnsaved: () => unsaved,
    close: () => close('closed'),
  }
}

interface Inside {
  readonly doorkeeper: Doorkeeper
  readonly ask: Ask
  readonly pages: string
}

async function answer(
  request: IncomingMessage,
  response: ServerResponse,
  { doorkeeper, ask, pages }: Inside,
): Promise<void> {
  const site = request.headers['sec-fetch-site']
  const typed = site === undefined || site === 'none'
  if (!doorkeeper.isOwn(request) || !(typed || site === 'same-origin')) return deny(request, response, 403)
  const path = (request.url ?? '/').split('?', 1)[0] ?? '/'
  if (request.method === 'GET' || request.method === 'HEAD') {
    const page = await readPage(pages, path)
    response.writeHead(page.status, { ...page.headers, 'content-length': page.body.byteLength })
    response.end(request.method === 'HEAD' ? undefined : page.body)
    return
  }
  if (request.method !== 'POST') return deny(request, response, 405)
  if (site === 'none') return deny(request, response, 403)
  if (!/^application\/json(;|$)/.test(request.headers['content-type'] ?? '')) return deny(request, response, 415)
  if (path === '/key') return answerKey(request, response, doorkeeper)
  if (!path.startsWith('/ask/')) return deny(request, response, 404)
  if (!doorkeeper.knows(request.headers.authorization)) return deny(request, response, 403)
  doorkeeper.quiet_min = 0
  const body = await readBody(request)
  if (body === undefined) return deny(request, response, 413)
  send(response, 200, await asEnvelope(() => ask(path.slice('/ask/'.length), parsed(body))))
}

const keyRequest = z.strictObject({ key: z.string().max(200) })

async function answerKey(request: IncomingMessage, response: ServerResponse, doorkeeper: Doorkeeper): Promise<void> {
  const body = await readBody(request)
  if (body === undefined) return deny(request, response, 413)
  const asked = keyRequest.safeParse(body === '' ? undefined : safelyParsed(body))
  const token = asked.success ? doorkeeper.swap(asked.data.key) : undefined
  if (token === undefined) {
    await pause(100)
    return send(response, 403, { ok: false, message: 'This address has been used already. Start the program again.' })
  }
  send(response, 200, { ok: true, value: { token } })
}

/** Body of a request, or undefined if it is too large. */
async function readBody(request: IncomingMessage): Promise<string | undefined> {
  if (Number(request.headers['content-length'] ?? 0) > BODY_BYTES) return undefined
  const pieces: Buffer[] = []
  let bytes = 0
  for await (const piece of request as AsyncIterable<Buffer>) {
    bytes += piece.length
    // The rest is read and dropped: leaving early would reset the connection, and the answer would be lost.
    if (bytes <= BODY_BYTES) pieces.push(piece)
  }
  return bytes > BODY_BYTES ? undefined : Buffer.concat(pieces).toString('utf8')
}

function parsed(body: string): unknown {
  const value = safelyParsed(body)
  if (value === undefined) throw new Refusal('The request is not JSON.')
  return value
}

function safelyParsed(body: string): unknown {
  try {
    return JSON.parse(body)
  } catch {
    return undefined
  }
}

const REFUSALS: Readonly<Record<number, string>> = {
  403: 'Not allowed.',
  404: 'There is no such call.',
  405: 'Not allowed.',
  413: 'Too large.',
  415: 'Not allowed.',
}

function deny(request: IncomingMessage, response: ServerResponse, status: number): void {
  request.resume()
  send(response, status, { ok: false, message: REFUSALS[status] ?? 'Not allowed.' })
}

function send(response: ServerResponse, status: number, envelope: Envelope<unknown>): void {
  response.writeHead(status, {
    ...SECURITY_HEADERS,
    'content-type': 'application/json; charset=utf-8',
    'cache-control': 'no-store',
  })
  response.end(JSON.stringify(envelope))
}
