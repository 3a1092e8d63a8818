import { basename, extname } from 'node:path'

export const PLAN_ENDING = '.thickset'

const MOST_LETTERS = 100
/** Most file systems allow 255 bytes; an ending, a number and a temporary name must fit too. */
const MOST_BYTES = 180
/** Names that Windows keeps for devices, with any ending. */
const DEVICE = /^(con|prn|aux|nul|conin\$|conout\$|com[0-9¹²³]|lpt[0-9¹²³])(\.|$)/i
/** Controls, marks that reorder or hide text, and what one of the systems forbids in names. */
// biome-ignore lint/suspicious/noControlCharactersInRegex: these are what must not get into a name
const FORBIDDEN = /[\u0000-\u001f\u007f-\u009f\u200b-\u200f\u2028-\u202e\u2060-\u2069\ufeff<>:"/\\|?*]+/g

/** A name that every system takes as a file's name, close to what was asked; never empty, without ending. */
export function safeFileName(asked: string): string {
  const clean = trimmed(
    asked
      .normalize('NFC')
      .replace(FORBIDDEN, '-')
      .replace(/\p{Surrogate}/gu, '-')
      .replace(/\s+/g, ' '),
  )
  const short = trimmed(shortened(clean))
  if (/^-*$/.test(short)) return 'Plan'
  return DEVICE.test(short) ? `_${short}` : short
}

/** Windows drops dots and blanks at the end by itself; at the front a dot hides the file. */
function trimmed(name: string): string {
  return name.replace(/^[\s.]+|[\s.]+$/g, '')
}

function shortened(name: string): string {
  let kept = ''
  let bytes = 0
  for (const letter of Array.from(name).slice(0, MOST_LETTERS)) {
    bytes += Buffer.byteLength(letter)
    if (bytes > MOST_BYTES) break
    kept += letter
  }
  return kept
}

/** What a plan is called on screen: its file's name without the ending. */
export function planName(path: string): string {
  const ending = extname(path).toLowerCase()
  return ending === PLAN_ENDING || ending === '.json' ? basename(path, extname(path)) : basename(path)
}
