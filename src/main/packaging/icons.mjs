// `npm run icons`: draws the program's mark as icons of every size and kind that a package needs, into shared/packaging.
import { mkdirSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { crc32, deflateSync } from 'node:zlib'
import { root } from './shipped.mjs'

/** Sizes in pixels: those of Linux, and all that the other kinds hold. */
export const SIZES = [16, 32, 48, 64, 128, 256, 512, 1024]
const ICO_SIZES = [16, 32, 48, 64, 128, 256]
/** Kinds of Apple's container that hold a PNG, by its size. Source: the format's usual description, from memory. */
const ICNS_KINDS = /** @type {const} */ ([
  ['icp4', 16],
  ['icp5', 32],
  ['icp6', 64],
  ['ic07', 128],
  ['ic08', 256],
  ['ic09', 512],
  ['ic10', 1024],
])

/** Colours of the window by day: paper, ink, biscuit, custard. */
const PAPER = [0xfb, 0xf8, 0xf2]
const INK = [0x2a, 0x1f, 0x18]
const BISCUIT = [0xd3, 0xa2, 0x63]
const CUSTARD = [0xf2, 0xd4, 0x78]
/** Points beside each other within a pixel, along one side. */
const FINE = 4

/**
 * The mark on a ground of unit size, as the page draws it: a half-round in its mould. What shows at a point, none
 * outside of the rounded ground.
 * @returns {readonly number[] | undefined}
 */
function colourAt(/** @type {number} */ x, /** @type {number} */ y) {
  const round = 0.2
  const [dx, dy] = [x, y].map((at) => Math.max(0, round - at, at - (1 - round)))
  if (Math.hypot(dx ?? 0, dy ?? 0) > round) return undefined
  // The page's mark is 34 wide; here it lies in the middle of the ground, its lines a little stronger.
  const across = (x - 0.5) * 39
  const below = (y - 0.5) * 39 + 8
  const inside = (/** @type {number} */ radius, /** @type {number} */ top) =>
    below >= top && Math.hypot(across, below - top) <= radius
  if (inside(9.6, 3.6)) return CUSTARD
  if (inside(10.9, 2.8)) return INK
  if (inside(14.2, 0.8)) return BISCUIT
  return inside(15.8, 0) ? INK : PAPER
}

/** Red, green, blue, opacity of every pixel, row by row. */
export function drawIcon(/** @type {number} */ size) {
  const pixels = new Uint8Array(4 * size * size)
  for (let pixel = 0; pixel < size * size; pixel++) {
    const sum = [0, 0, 0]
    let seen = 0
    for (let point = 0; point < FINE * FINE; point++) {
      const x = ((pixel % size) + ((point % FINE) + 0.5) / FINE) / size
      const y = (Math.floor(pixel / size) + (Math.floor(point / FINE) + 0.5) / FINE) / size
      const colour = colourAt(x, y)
      if (colour === undefined) continue
      seen++
      for (const [index, part] of colour.entries()) sum[index] = (sum[index] ?? 0) + part
    }
    const mean = sum.map((part) => (seen === 0 ? 0 : Math.round(part / seen)))
    pixels.set([...mean, Math.round((255 * seen) / (FINE * FINE))], 4 * pixel)
  }
  return pixels
}

function chunk(/** @type {string} */ kind, /** @type {Uint8Array} */ data) {
  const body = Buffer.concat([Buffer.from(kind, 'latin1'), data])
  const [length, check] = [Buffer.alloc(4), Buffer.alloc(4)]
  length.writeUInt32BE(data.length)
  check.writeUInt32BE(crc32(body))
  return Buffer.concat([length, body, check])
}

/** A PNG of eight bits a part with opacity. Source: PNG specification, W3C. */
export function png(/** @type {number} */ size) {
  const pixels = drawIcon(size)
  const rows = Array.from({ length: size }, (_, row) =>
    Buffer.concat([Buffer.of(0), pixels.subarray(4 * size * row, 4 * size * (row + 1))]),
  )
  const header = Buffer.alloc(13)
  header.writeUInt32BE(size, 0)
  header.writeUInt32BE(size, 4)
  header.set([8, 6, 0, 0, 0], 8)
  return Buffer.concat([
    Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]),
    chunk('IHDR', header),
    chunk('IDAT', deflateSync(Buffer.concat(rows), { level: 9 })),
    chunk('IEND', Buffer.alloc(0)),
  ])
}

/** Pictures in the container of Windows: a directory, then the files themselves. */
export function ico() {
  const files = ICO_SIZES.map((size) => png(size))
  const head = Buffer.alloc(6 + 16 * files.length)
  head.writeUInt16LE(1, 2)
  head.writeUInt16LE(files.length, 4)
  let from = head.length
  for (const [index, file] of files.entries()) {
    const at = 6 + 16 * index
    const size = (ICO_SIZES[index] ?? 0) % 256
    head.set([size, size], at)
    head.writeUInt16LE(1, at + 4)
    head.writeUInt16LE(32, at + 6)
    head.writeUInt32LE(file.length, at + 8)
    head.writeUInt32LE(from, at + 12)
    from += file.length
  }
  return Buffer.concat([head, ...files])
}

/** Pictures in the container of Apple: kind, length, file, one after another. */
export function icns() {
  const parts = ICNS_KINDS.map(([kind, size]) => {
    const file = png(size)
    const head = Buffer.alloc(8)
    head.write(kind, 'latin1')
    head.writeUInt32BE(file.length + 8, 4)
    return Buffer.concat([head, file])
  })
  const all = Buffer.concat(parts)
  const head = Buffer.alloc(8)
  head.write('icns', 'latin1')
  head.writeUInt32BE(all.length + 8, 4)
  return Buffer.concat([head, all])
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const folder = join(root, 'shared', 'packaging')
  mkdirSync(join(folder, 'icons'), { recursive: true })
  for (const size of SIZES) writeFileSync(join(folder, 'icons', `${size}x${size}.png`), png(size))
  writeFileSync(join(folder, 'icon.ico'), ico())
  writeFileSync(join(folder, 'icon.icns'), icns())
}
