import { inflateSync } from 'node:zlib'

/*
 * As much of a PDF reader as its sheet needs: pages, fonts and the text that can be copied out, by ISO 32000-1 (objects
 * 7.3, content streams 7.8, text 9.4, ToUnicode maps 9.10.3).
 */

export interface ReadPdf {
  readonly pages: number
  /** Names of the fonts, and whether their letters lie in the file. */
  readonly fonts: readonly { readonly name: string; readonly embedded: boolean }[]
  readonly text: string
}

interface PdfObject {
  readonly dictionary: string
  readonly stream: string
}

export function readPdf(file: Buffer): ReadPdf {
  const objects = readObjects(file)
  const all = [...objects.values()]
  const pages = all.filter(({ dictionary }) => /\/Type \/Page\b/.test(dictionary))
  const fonts = all.filter(
    ({ dictionary }) => /\/Type \/Font\b/.test(dictionary) && !/\/DescendantFonts/.test(dictionary),
  )
  return {
    pages: pages.length,
    fonts: fonts.map(({ dictionary }) => {
      const descriptor = objects.get(reference(dictionary, 'FontDescriptor') ?? '')?.dictionary ?? ''
      return { name: /\/BaseFont \/(\S+)/.exec(dictionary)?.[1] ?? '', embedded: /\/FontFile[23]? /.test(descriptor) }
    }),
    text: pages.map((page) => pageText(page, objects)).join('\n'),
  }
}

function readObjects(file: Buffer): Map<string, PdfObject> {
  const objects = new Map<string, PdfObject>()
  const text = file.toString('latin1')
  for (const found of text.matchAll(/(\d+) 0 obj\n([\s\S]*?)\nendobj/g)) {
    const [, id = '', body = ''] = found
    const at = body.indexOf('\nstream\n')
    const dictionary = at < 0 ? body : body.slice(0, at)
    const raw = at < 0 ? '' : body.slice(at + 8, body.lastIndexOf('\nendstream'))
    const stream = /FlateDecode/.test(dictionary) ? inflateSync(Buffer.from(raw, 'latin1')).toString('latin1') : raw
    objects.set(id, { dictionary, stream })
  }
  return objects
}

const reference = (dictionary: string, key: string): string | undefined =>
  new RegExp(`/${key} \\[?(\\d+) 0 R`).exec(dictionary)?.[1]

/** Codes of a font and the letters that they stand for. */
function letters({ stream }: PdfObject): Map<number, string> {
  const map = new Map<number, string>()
  for (const [, range = ''] of stream.matchAll(/beginbfrange([\s\S]*?)endbfrange/g))
    for (const [, from = '', , list = ''] of range.matchAll(/<(\w+)> <(\w+)> \[([^\]]*)\]/g))
      [...list.matchAll(/<([\w ]+)>/g)].forEach(([, hex = ''], index) => {
        map.set(
          Number.parseInt(from, 16) + index,
          Buffer.from(hex.replaceAll(' ', ''), 'hex').swap16().toString('utf16le'),
        )
      })
  return map
}

function pageText(page: PdfObject, objects: Map<string, PdfObject>): string {
  const resources = objects.get(reference(page.dictionary, 'Resources') ?? '')?.dictionary ?? page.dictionary
  const fonts = new Map<string, Map<number, string>>()
  for (const [, name = '', id = ''] of resources.matchAll(/\/(F\d+) (\d+) 0 R/g)) {
    const map = objects.get(reference(objects.get(id)?.dictionary ?? '', 'ToUnicode') ?? '')
    if (map !== undefined) fonts.set(name, letters(map))
  }
  const content = objects.get(reference(page.dictionary, 'Contents') ?? '')?.stream ?? ''
  let font = new Map<number, string>()
  let text = ''
  for (const [token, name, shown] of content.matchAll(/\/(F\d+) [\d.]+ Tf|\[([^\]]*)\] TJ/g)) {
    if (name !== undefined) font = fonts.get(name) ?? new Map<number, string>()
    if (shown === undefined || !token.endsWith('TJ')) continue
    for (const [, hex = ''] of shown.matchAll(/<(\w*)>/g))
      for (let i = 0; i < hex.length; i += 4) text += font.get(Number.parseInt(hex.slice(i, i + 4), 16)) ?? '\uFFFD'
    text += '\n'
  }
  return text
}
