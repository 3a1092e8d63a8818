import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { z } from 'zod'
import { contract } from '../../src/main/contract.ts'

// What holds for the sources as a whole. What the window and the hosts do is tested beside them; the table in
// shared/papers/security.md says where.

const root = join(import.meta.dirname, '..', '..')

/** Sources by their path from the root. */
function sources(folder: string): ReadonlyMap<string, string> {
  const files = readdirSync(join(root, folder), { recursive: true, encoding: 'utf8' })
  return new Map(
    files
      .filter((file) => /\.(ts|tsx|mjs)$/.test(file))
      .map((file) => [`${folder}/${file.replaceAll('\\', '/')}`, readFileSync(join(root, folder, file), 'utf8')]),
  )
}
const all = new Map([...sources('src/core'), ...sources('src/main'), ...sources('src/renderer')])
const filesWith = (pattern: RegExp): string[] =>
  [...all].filter(([, text]) => pattern.test(text.replace(/^\s*(\/\/|\*|\/\*).*$/gm, ''))).map(([file]) => file)

describe('the sources', () => {
  it('reach the network in named places only: our own host, our own page, and the fetch of the runtime at `npm start`', () => {
    expect(filesWith(/from 'node:(https?|net)'/).sort()).toEqual(['src/main/doorkeeper.ts', 'src/main/host.ts'])
    // The host listens; nothing asks.
    expect(all.get('src/main/host.ts')).toMatch(/import \{ createServer, type IncomingMessage, type ServerResponse \}/)
    expect(all.get('src/main/doorkeeper.ts')).toMatch(/import type \{ IncomingMessage \}/)
    expect(filesWith(/from 'node:(tls|dgram|dns|http2)/)).toEqual([])
    expect(filesWith(/\bfetch\(/).sort()).toEqual(['src/renderer/bridge.ts', 'src/renderer/course/course-picture.ts'])
    expect(filesWith(/\b(WebSocket|XMLHttpRequest|EventSource|sendBeacon|RTCPeerConnection|importScripts)\b/)).toEqual(
      [],
    )
    expect(filesWith(/downloadArtifact/)).toEqual(['src/main/electron-runtime.ts'])
  })

  it('unpack nothing, so that no small file can become a large one', () => {
    expect(filesWith(/DecompressionStream|unzip\w*\(|inflate\w*\(|brotliDecompress/)).toEqual([])
  })

  it('hand no address to the system', () => {
    expect(filesWith(/openExternal|openPath|showItemInFolder/)).toEqual([])
  })

  it('make no code or markup from text', () => {
    expect(
      filesWith(/\beval\(|new Function\(|dangerouslySetInnerHTML|innerHTML|insertAdjacentHTML|document\.write/),
    ).toEqual([])
  })

  it('run programs by name and list of words, never through a shell', () => {
    expect(filesWith(/(?<![.\w])exec(Sync)?\(|shell: true/)).toEqual([])
  })
})

describe('the contract', () => {
  it('has no path in any request or reply: files go by id', () => {
    const keys = (schema: unknown): string[] =>
      typeof schema !== 'object' || schema === null
        ? []
        : Object.entries(schema).flatMap(([key, value]) =>
            key === 'properties' ? [...Object.keys(value as object), ...keys(value)] : keys(value),
          )
    const named = Object.values(contract).flatMap(({ request, reply }) =>
      [request, reply].flatMap((one) => keys(z.toJSONSchema(one, { io: 'input' }))),
    )
    expect(named).toContain('id')
    // What is there for the eye: the folder's name in words.
    const forTheEye = ['plansFolder', 'folder']
    expect(named.filter((key) => /path|folder|dir|file(?!s)/i.test(key) && !forTheEye.includes(key))).toEqual([])
  })

  it('bounds every text and every list that a page may send', () => {
    const unbounded = (schema: unknown, at: string): string[] => {
      if (typeof schema !== 'object' || schema === null) return []
      const { type, maxLength, maxItems, pattern, enum: choices, const: fixed } = schema as Record<string, unknown>
      const free =
        (type === 'string' && [maxLength, pattern, choices, fixed].every((one) => one === undefined)) ||
        (type === 'array' && maxItems === undefined && !('prefixItems' in schema))
      return [
        ...(free ? [at] : []),
        ...Object.entries(schema).flatMap(([key, value]) => unbounded(value, `${at}.${key}`)),
      ]
    }
    for (const [channel, { request }] of Object.entries(contract))
      expect(unbounded(z.toJSONSchema(request, { io: 'input' }), channel)).toEqual([])
  })
})

describe('the table of the security paper', () => {
  const paper = readFileSync(join(root, 'shared', 'papers', 'security.md'), 'utf8')
  const rows = paper
    .split('\n')
    .filter((line) => line.startsWith('| ') && !/^\| (-|line)/.test(line))
    .map((line) => line.split('|').map((cell) => cell.trim()))

  it.each(rows.map((row) => [row[1] ?? '', row[3] ?? '']))('%s: its tests are there', (_line, tests) => {
    const named = [...tests.matchAll(/`([^`]+\.test\.ts)`: ([^;]+)/g)]
    expect(named.length).toBeGreaterThan(0)
    for (const [, file = '', name = ''] of named) {
      expect(existsSync(join(root, file)), file).toBe(true)
      expect(readFileSync(join(root, file), 'utf8').replaceAll(/['"`]/g, ''), `${file}: ${name}`).toContain(
        name.replaceAll(/['"`]/g, '').trim(),
      )
    }
  })

  it('has a line for each of Electron’s own list, and more', () => {
    expect(rows.length).toBeGreaterThan(30)
    for (let number = 1; number <= 17; number++) expect(paper).toContain(`| ${number}. `)
  })
})
