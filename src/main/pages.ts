import { readFile } from 'node:fs/promises'
import { extname, join, resolve, sep } from 'node:path'

/** What the page may load and do: its own files, nothing else. Sent by both hosts as a header. */
export const CONTENT_SECURITY_POLICY = [
  "default-src 'none'",
  "script-src 'self'",
  "style-src 'self'",
  "img-src 'self' data: blob:",
  "font-src 'self'",
  "connect-src 'self'",
  "worker-src 'self'",
  "base-uri 'none'",
  "form-action 'none'",
  "frame-ancestors 'none'",
  "object-src 'none'",
].join('; ')

export const SECURITY_HEADERS: Readonly<Record<string, string>> = {
  'content-security-policy': CONTENT_SECURITY_POLICY,
  'x-content-type-options': 'nosniff',
  'referrer-policy': 'no-referrer',
  'cross-origin-opener-policy': 'same-origin',
  'cross-origin-embedder-policy': 'require-corp',
  'cross-origin-resource-policy': 'same-origin',
}

const TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.ico': 'image/x-icon',
  '.woff2': 'font/woff2',
}

export interface Page {
  readonly status: number
  readonly headers: Readonly<Record<string, string>>
  readonly body: Uint8Array<ArrayBuffer>
}

const refused = (status: number, words: string): Page => ({
  status,
  headers: { ...SECURITY_HEADERS, 'content-type': 'text/plain; charset=utf-8' },
  body: new Uint8Array(Buffer.from(words)),
})

/** The file of the built page that a request's path names, or a refusal; never anything outside `root`. */
export async function readPage(root: string, pathname: string): Promise<Page> {
  const path = decoded(pathname)
  if (path === undefined || path.includes('\0') || path.includes('\\')) return refused(400, 'bad request')
  const file = resolve(join(root, path === '/' ? 'index.html' : path))
  const type = Object.hasOwn(TYPES, extname(file)) ? TYPES[extname(file)] : undefined
  if (!file.startsWith(resolve(root) + sep) || type === undefined) return refused(404, 'not found')
  try {
    const body = new Uint8Array(await readFile(file))
    // Names of assets change with their contents; asking again each time keeps an old page from meeting a new build.
    return { status: 200, headers: { ...SECURITY_HEADERS, 'content-type': type, 'cache-control': 'no-cache' }, body }
  } catch {
    return refused(404, 'not found')
  }
}

function decoded(pathname: string): string | undefined {
  try {
    return decodeURIComponent(pathname)
  } catch {
    return undefined
  }
}
