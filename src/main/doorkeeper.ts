import { randomBytes, timingSafeEqual } from 'node:crypto'
import type { IncomingMessage } from 'node:http'

/** Knows the keys and the token, and who may ask. */
export class Doorkeeper {
  readonly #token = randomBytes(32).toString('base64url')
  readonly #keys = new Set<string>()
  port = 0
  /** True once a page has come in. */
  reached = false
  /** Minutes since the page's last word. */
  quiet_min = 0

  /** A key for one page. */
  makeKey(): string {
    const key = randomBytes(24).toString('base64url')
    this.#keys.add(key)
    return key
  }

  /** The token for a key, the first time. Command lines can be read by other users, hence once. */
  swap(key: string): string | undefined {
    const known = [...this.#keys].find((candidate) => same(key, candidate))
    if (known === undefined) return undefined
    this.#keys.delete(known)
    this.reached = true
    return this.#token
  }

  knows(header: string | undefined): boolean {
    return header !== undefined && same(header, `Bearer ${this.#token}`)
  }

  /** True for requests of our own page: exact host (a foreign name may resolve to us), no foreign origin. */
  isOwn(request: IncomingMessage): boolean {
    const host = `127.0.0.1:${this.port}`
    const origin = request.headers.origin
    if (request.headers.host !== host) return false
    return origin === undefined || origin === `http://${host}`
  }
}

function same(one: string, other: string): boolean {
  const a = Buffer.from(one)
  const b = Buffer.from(other)
  return a.length === b.length && timingSafeEqual(a, b)
}
