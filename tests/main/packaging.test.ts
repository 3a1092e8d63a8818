import { spawnSync } from 'node:child_process'
import { chmodSync, existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { inflateSync } from 'node:zlib'
import { describe, expect, it } from 'vitest'
import { PLAN_ENDING } from '../../src/main/file-name.ts'
import { drawIcon, SIZES } from '../../src/main/packaging/icons.mjs'
import { root } from '../../src/main/packaging/shipped.mjs'
import { temporaryFolder } from '../support/temporary-folder.ts'

// What can be known of packages without Electron's runtime. What can't (fuses in the binary, installers, signatures,
// double click, icons on a desktop) is on the list by hand in DEVELOPERS.md.

const folder = join(root, 'shared', 'packaging')
const json = (path: string) => JSON.parse(readFileSync(path, 'utf8'))
const config = json(join(folder, 'electron-builder.json'))
const manifest = json(join(root, 'package.json'))
const lock = json(join(folder, 'package-lock.json'))

describe('the configuration of packages', () => {
  it('packs what is built, and nothing else', () => {
    expect(config.files).toEqual(['out/main/**', 'out/preload/**', 'out/renderer/**', 'package.json', '!node_modules'])
    expect(config.asar).toBe(true)
    expect(manifest.main).toBe('out/main/index.js')
    for (const { from } of config.extraResources) expect(existsSync(join(root, from)), from).toBe(true)
  })

  // The fuses of Electron 45 that electron-builder 26.17 can set: its own schema, seen.
  it('sets every fuse: no Node by environment or words, code from the archive alone and as it was packed', () => {
    expect(config.electronFuses).toEqual({
      runAsNode: false,
      enableCookieEncryption: true,
      enableNodeOptionsEnvironmentVariable: false,
      enableNodeCliInspectArguments: false,
      enableEmbeddedAsarIntegrityValidation: true,
      onlyLoadAppFromAsar: true,
      loadBrowserProcessSpecificV8Snapshot: false,
      grantFileProtocolExtraPrivileges: false,
    })
  })

  it('makes packages for three systems, and sends them nowhere', () => {
    expect(config.linux.target).toEqual(['AppImage', 'deb'])
    expect(config.win.target).toEqual(['nsis'])
    expect(config.mac.target).toEqual(['dmg', 'zip'])
    expect(config.publish).toBeNull()
  })

  it('opens plans by their own ending, which no other file has', () => {
    expect(config.fileAssociations).toHaveLength(1)
    expect(`.${config.fileAssociations[0].ext}`).toBe(PLAN_ENDING)
    // Windows and macOS look at the last ending alone.
    expect(config.fileAssociations[0].ext).not.toContain('.')
  })

  it('is packed with the Electron that the program is made for, by a packer of exact version', () => {
    expect(manifest.devDependencies.electron).toMatch(/^\d+\.\d+\.\d+$/)
    expect(config.electronVersion).toBeUndefined()
    expect(lock.packages[''].devDependencies).toEqual({ 'electron-builder': '26.17.0' })
    expect(json(join(folder, 'package.json')).devDependencies).toEqual({ 'electron-builder': '26.17.0' })
  })

  it('keeps the packer out of the program’s own tree, and its lock without addresses', () => {
    const own = json(join(root, 'package-lock.json')).packages
    expect(Object.keys(own).filter((name) => name.includes('electron-builder'))).toEqual([])
    expect(readFileSync(join(folder, 'package-lock.json'), 'utf8')).not.toContain('"resolved"')
  })
})

describe('icons', () => {
  /** Pixels of a PNG of ours: one IDAT, no filter. */
  const pixelsOf = (file: Buffer, size: number): Uint8Array => {
    expect(file.subarray(1, 4).toString()).toBe('PNG')
    expect([file.readUInt32BE(16), file.readUInt32BE(20)]).toEqual([size, size])
    const at = file.indexOf('IDAT')
    const rows = inflateSync(file.subarray(at + 4, at + 4 + file.readUInt32BE(at - 4)))
    const pixels = new Uint8Array(4 * size * size)
    for (let row = 0; row < size; row++)
      pixels.set(rows.subarray(row * (4 * size + 1) + 1, (row + 1) * (4 * size + 1)), 4 * size * row)
    return pixels
  }

  it.each(SIZES.filter((size) => size <= 256))(
    'of %i pixels are as they are drawn: `npm run icons` draws them',
    (size) => {
      const file = readFileSync(join(folder, 'icons', `${size}x${size}.png`))
      expect(Buffer.compare(pixelsOf(file, size), drawIcon(size))).toBe(0)
    },
  )

  it('are there in every size, and no other file beside them', () => {
    const names = SIZES.map((size) => `${size}x${size}.png`)
    expect(readdirSync(join(folder, 'icons')).toSorted()).toEqual(names.toSorted())
  })

  it('show a mark on a rounded ground: corners empty, the middle not', () => {
    const pixels = drawIcon(64)
    expect(pixels[3]).toBe(0)
    expect(pixels.slice(4 * (32 * 64 + 32), 4 * (32 * 64 + 32) + 4)).toEqual(Uint8Array.of(0xf2, 0xd4, 0x78, 255))
  })

  it('of Windows and Apple hold the same pictures', () => {
    const picture = (size: number): Buffer => readFileSync(join(folder, 'icons', `${size}x${size}.png`))
    const windows = readFileSync(join(folder, config.win.icon))
    const entries = Array.from({ length: windows.readUInt16LE(4) }, (_, index) => 6 + 16 * index)
    expect(entries).toHaveLength(6)
    for (const at of entries) {
      const [length, from] = [windows.readUInt32LE(at + 8), windows.readUInt32LE(at + 12)]
      expect(windows.subarray(from, from + length)).toEqual(picture(windows[at] || 256))
    }
    const apple = readFileSync(join(folder, config.mac.icon))
    expect([apple.subarray(0, 4).toString(), apple.readUInt32BE(4)]).toEqual(['icns', apple.length])
    const held: Buffer[] = []
    for (let at = 8; at < apple.length; at += apple.readUInt32BE(at + 4))
      held.push(apple.subarray(at + 8, at + apple.readUInt32BE(at + 4)))
    expect(held).toEqual([16, 32, 64, 128, 256, 512, 1024].map(picture))
  })
})

const asked = process.env.REQUIRE_PACKED === '1'

/** Installs the packer: some 280 packages, so only when asked (`.ci/nightly` asks). */
describe.skipIf(!asked || process.platform !== 'linux')('packed around a stand-in for the runtime', () => {
  const temporary = temporaryFolder()

  it('the archive holds what is built, the manifest, and nothing else', { timeout: 600_000 }, () => {
    const standIn = join(temporary.path, 'runtime')
    mkdirSync(join(standIn, 'resources'), { recursive: true })
    writeFileSync(join(standIn, 'electron'), '#!/bin/sh\n')
    chmodSync(join(standIn, 'electron'), 0o755)
    writeFileSync(join(standIn, 'version'), manifest.devDependencies.electron)
    // A stand-in has no fuses to set; all else is as it is.
    const { electronFuses: _, ...rest } = config
    const output = join(temporary.path, 'packed')
    const path = join(temporary.path, 'config.json')
    writeFileSync(path, JSON.stringify({ ...rest, directories: { ...config.directories, output } }))
    const words = ['src/main/packaging/pack.mjs', '--linux', '--dir', `-c.electronDist=${standIn}`, '--config', path]
    const { status, stderr } = spawnSync(process.execPath, words, { cwd: root, encoding: 'utf8' })
    expect(status, stderr).toBe(0)
    const resources = join(output, 'linux-unpacked', 'resources')
    expect(readdirSync(resources).toSorted()).toEqual(['app.asar', 'licences.txt'])
    const packed = filesOf(readFileSync(join(resources, 'app.asar')))
    const built = ['main', 'preload', 'renderer'].flatMap((part) =>
      readdirSync(join(root, 'out', part), { recursive: true, withFileTypes: true })
        .filter((entry) => entry.isFile())
        .map((entry) => join(entry.parentPath, entry.name).slice(root.length + 1)),
    )
    expect(packed.toSorted()).toEqual([...built, 'package.json'].toSorted())
  })
})

interface Entry {
  readonly files?: Readonly<Record<string, Entry>>
}

/** Names in an archive: its head is a pickle of a pickle of JSON (Electron's asar format, from memory). */
function filesOf(archive: Buffer): string[] {
  const head = JSON.parse(archive.subarray(16, 16 + archive.readUInt32LE(12)).toString()) as Entry
  const names = ({ files = {} }: Entry, at: string): string[] =>
    Object.entries(files).flatMap(([name, entry]) =>
      entry.files === undefined ? [at + name] : names(entry, `${at}${name}/`),
    )
  return names(head, '')
}
