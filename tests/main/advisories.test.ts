import { execFile } from 'node:child_process'
import { readFileSync } from 'node:fs'
import { createServer, type Server } from 'node:http'
import type { AddressInfo } from 'node:net'
import { join } from 'node:path'
import { gunzipSync } from 'node:zlib'
import { afterEach, describe, expect, it } from 'vitest'
import { root } from '../../src/main/packaging/shipped.mjs'
import { temporaryFolder } from '../support/temporary-folder.ts'

interface Advisory {
  readonly package: string
  readonly id: string
  /** The first version that has it; all before the fix where it is left out. */
  readonly since?: string
  /** The first version without it, of each line of versions that was mended. */
  readonly fixedIn: readonly string[]
}

const read = (path: string) => JSON.parse(readFileSync(join(root, path), 'utf8'))
const { advisories } = read('shared/packaging/advisories.json') as { advisories: readonly Advisory[] }

const numbers = (version: string): number[] => version.split('-')[0]!.split('.').map(Number)
function atLeast(version: string, other: string): boolean {
  const [a, b] = [numbers(version), numbers(other)]
  const first = a.findIndex((part, i) => part !== b[i])
  return first < 0 || a[first]! > b[first]!
}

/** Mended in its own line of versions, or of a line that came after all mended ones. */
function mended(version: string, { since, fixedIn }: Advisory): boolean {
  if (since !== undefined && !atLeast(version, since)) return true
  const line = numbers(version)[0]!
  const own = fixedIn.find((fixed) => numbers(fixed)[0] === line)
  return own === undefined ? fixedIn.every((fixed) => numbers(fixed)[0]! < line) : atLeast(version, own)
}

const locked = ['package-lock.json', 'shared/packaging/package-lock.json'].flatMap((path) =>
  Object.entries(read(path).packages as Record<string, { version: string }>)
    .filter(([folder]) => folder !== '')
    .map(([folder, { version }]) => ({ name: folder.slice(folder.lastIndexOf('node_modules/') + 13), version })),
)

describe('advisories that were read', () => {
  it.each(advisories.map((one) => [one.id, one.package, one] as const))('%s: %s is past it', (_id, name, advisory) => {
    const copies = locked.filter((one) => one.name === name)
    expect(copies.length, `${name} is in no lock any more: the line can go`).toBeGreaterThan(0)
    expect(copies.filter(({ version }) => !mended(version, advisory))).toEqual([])
  })

  it('would be found in what has one', () => {
    const lines: Advisory = { package: 'x', id: 'y', fixedIn: ['2.3.2', '4.0.4'] }
    expect(['1.9.9', '2.3.1', '3.0.0', '4.0.3'].map((version) => mended(version, lines))).not.toContain(true)
    expect(['2.3.2', '2.10.0', '4.0.4', '5.0.0'].map((version) => mended(version, lines))).not.toContain(false)
    expect(mended('1.0.0', { ...lines, since: '2.0.0' })).toBe(true)
  })
})

describe('npm run advisories', { timeout: 120_000 }, () => {
  const folder = temporaryFolder()
  let server: Server | undefined
  afterEach(() => server?.close())

  /** What it prints, and how it ends, with a registry of the test. */
  async function askedOf(answer: (asked: Record<string, string[]>) => unknown, status = 200) {
    server = createServer(async (request, response) => {
      const body = Buffer.concat(await request.toArray())
      const zipped = request.headers['content-encoding'] === 'gzip'
      const asked = request.method === 'POST' ? JSON.parse(String(zipped ? gunzipSync(body) : body)) : undefined
      response.writeHead(status, { 'content-type': 'application/json' })
      // After a finding npm asks which versions of the package there are.
      const name = request.url?.slice(1)
      const versions = { name, 'dist-tags': { latest: '1.0.0' }, versions: { '1.0.0': { name, version: '1.0.0' } } }
      response.end(
        JSON.stringify(status !== 200 ? { error: 'refused' } : asked === undefined ? versions : answer(asked)),
      )
    })
    await new Promise<void>((listening) => server?.listen(0, '127.0.0.1', listening))
    const registry = `http://127.0.0.1:${(server.address() as AddressInfo).port}/`
    return new Promise<{ out: string; code: number }>((done) => {
      const env = { ...process.env, npm_config_registry: registry, npm_config_cache: join(folder.path, 'cache') }
      const script = join(root, 'src/main/packaging/advisories.mjs')
      execFile(process.execPath, [script], { env: { ...env, npm_config_fetch_retries: '0' } }, (failed, out) =>
        done({ out, code: failed === null ? 0 : Number(failed.code) }),
      )
    })
  }

  it('says what was not looked at', async () => {
    const { out, code } = await askedOf(() => ({}), 405)
    expect(out.match(/^(\.|shared\/packaging): NOT LOOKED AT, the registry does not tell/gm)).toHaveLength(2)
    expect(code).toBe(0)
  })

  it('asks about both locks, and ends with 1 for what is known', async () => {
    const asked: string[][] = []
    const { out, code } = await askedOf((packages) => {
      asked.push(Object.keys(packages))
      const known = { id: 1, url: 'https://x.example', title: 'Bad', severity: 'high', vulnerable_versions: '*' }
      return 'zod' in packages ? { zod: [{ ...known, cwe: [], cvss: { score: 0 } }] } : {}
    })
    expect(asked.some((names) => names.includes('zod'))).toBe(true)
    expect(asked.some((names) => names.includes('electron-builder'))).toBe(true)
    expect(out).toContain('.: zod')
    expect(out).toContain('shared/packaging: nothing known against its packages')
    expect(code).toBe(1)
  })
})
