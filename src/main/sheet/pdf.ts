import regular from '@fontsource/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-latin-400-normal.woff?inline'
import bold from '@fontsource/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-latin-700-normal.woff?inline'
import PDFDocument from 'pdfkit'
import type { Page, PageColumn, PageTable } from '../../core/sheet/page.ts'

/*
 * The sheet on paper: black on white, one family of letters, embedded. Tables may run on over pages, their heads come
 * with them; a row never breaks.
 */

export type Paper = 'A4' | 'Letter'

const SIZES: Readonly<Record<Paper, readonly [number, number]>> = { A4: [595.28, 841.89], Letter: [612, 792] }

/** Points. 9 points are the 12 pixels below which nothing is printed. */
const MARGIN = 36
const TEXT = 9
const HEADING = 11
const TITLE = 17
const CELL = 3
const GAP = 9
/** Height of rows that are written in by hand: a pen needs room. */
const WRITTEN_ROW = 20

const INK = '#2A1F18'
const INK2 = '#5E4F43'
const RULE = '#8A7967'

const fontOf = (dataUri: string): Buffer => Buffer.from(dataUri.slice(dataUri.indexOf(',') + 1), 'base64')

/** The pen on its way down the paper. */
interface Pen {
  readonly doc: PDFKit.PDFDocument
  readonly left: number
  readonly width: number
  readonly bottom: number
  y: number
}

function turnPage(pen: Pen): void {
  pen.doc.addPage()
  pen.y = MARGIN
}

/** Makes room for something of that height. Returns whether it took a new page. */
function makeRoom(pen: Pen, height: number): boolean {
  if (pen.y + height <= pen.bottom) return false
  turnPage(pen)
  return true
}

function write(pen: Pen, text: string, at: { readonly x?: number; readonly width?: number } = {}): number {
  const { doc, y } = pen
  const width = at.width ?? pen.width
  doc.text(text, at.x ?? pen.left, y, { width, lineGap: 1 })
  return doc.heightOfString(text, { width, lineGap: 1 })
}

function line(pen: Pen, weight: number, colour: string): void {
  pen.doc
    .lineWidth(weight)
    .strokeColor(colour)
    .moveTo(pen.left, pen.y)
    .lineTo(pen.left + pen.width, pen.y)
    .stroke()
}

function drawTitle(pen: Pen, page: Page): void {
  pen.doc.font('bold').fontSize(TITLE).fillColor(INK)
  pen.y += write(pen, page.title) + 4
  pen.doc.font('regular').fontSize(TEXT).fillColor(INK2)
  pen.y += write(pen, page.facts.map(([name, value]) => `${name} ${value}`).join('     ')) + 5
  line(pen, 1.2, INK)
  pen.y += GAP
}

function drawHeading(pen: Pen, title: string, note?: string): void {
  makeRoom(pen, HEADING + TEXT + 3 * WRITTEN_ROW)
  pen.doc.font('bold').fontSize(HEADING).fillColor(INK)
  pen.y += write(pen, title) + 2
  if (note === undefined) return
  pen.doc.font('regular').fontSize(TEXT).fillColor(INK2)
  pen.y += write(pen, note) + 2
}

/** A column where it lies on the paper. */
interface Lane {
  readonly column: PageColumn
  readonly x: number
  readonly width: number
}

function lanesOf({ left, width }: Pen, columns: readonly PageColumn[]): Lane[] {
  const total = columns.reduce((sum, { share }) => sum + share, 0)
  let x = left
  return columns.map((column) => {
    const lane = { column, x, width: (width * column.share) / total }
    x += lane.width
    return lane
  })
}

function drawTable(pen: Pen, { title, note, columns, rows }: PageTable): void {
  drawHeading(pen, title, note)
  const { doc } = pen
  const lanes = lanesOf(pen, columns)
  const written = columns.some((column) => column.blank === true)
  const textOf = (lane: Lane, text: string): number =>
    doc.heightOfString(text, { width: lane.width - CELL, lineGap: 1 })
  const heightOf = (cells: readonly string[]): number => {
    const text = Math.max(...lanes.map((lane, index) => textOf(lane, cells[index] ?? '')))
    return Math.max(text + 2 * CELL, written ? WRITTEN_ROW : 0)
  }
  const drawCells = (cells: readonly string[]): void => {
    for (const [index, { x, width }] of lanes.entries())
      doc.text(cells[index] ?? '', x, pen.y + CELL, { width: width - CELL, lineGap: 1 })
  }
  const drawHead = (): void => {
    doc.font('regular').fontSize(TEXT).fillColor(INK2)
    const head = columns.map((column) => column.title)
    drawCells(head)
    pen.y += Math.max(...lanes.map((lane) => textOf(lane, lane.column.title))) + CELL
    line(pen, 1, INK)
    doc.fillColor(INK)
  }
  drawHead()
  for (const row of rows) {
    doc.font('regular').fontSize(TEXT)
    const height = heightOf(row)
    if (makeRoom(pen, height)) drawHead()
    drawCells(row)
    // Boxes to write in, in the columns that are filled in by hand.
    for (const { column, x, width } of lanes)
      if (column.blank === true) doc.lineWidth(0.4).strokeColor(RULE).rect(x, pen.y, width, height).stroke()
    pen.y += height
    line(pen, 0.4, RULE)
  }
  pen.y += GAP
}

function drawList(pen: Pen, title: string, lines: readonly string[]): void {
  if (lines.length === 0) return
  drawHeading(pen, title)
  pen.doc.font('regular').fontSize(TEXT).fillColor(INK)
  for (const text of lines) {
    const height = pen.doc.heightOfString(text, { width: pen.width - 12, lineGap: 1 })
    makeRoom(pen, height)
    write(pen, '–', { width: 12 })
    write(pen, text, { x: pen.left + 12, width: pen.width - 12 })
    pen.y += height + 2
  }
  pen.y += GAP
}

/** The page as a PDF file. */
export function pagePdf(page: Page, paper: Paper): Promise<Uint8Array> {
  const [width, height] = SIZES[paper]
  const letters = fontOf(regular)
  const doc = new PDFDocument({
    size: [width, height],
    margin: 0,
    // The standard fonts of the format would have to be read from files beside the program.
    font: letters as unknown as string,
    info: { Title: page.title, Creator: 'Thickset' },
    lang: 'en',
    displayTitle: true,
  })
  doc.registerFont('regular', letters)
  doc.registerFont('bold', fontOf(bold))
  const done = new Promise<Uint8Array>((resolve, reject) => {
    const pieces: Buffer[] = []
    doc.on('data', (piece: Buffer) => pieces.push(piece))
    doc.on('end', () => resolve(Buffer.concat(pieces)))
    doc.on('error', reject)
  })
  const pen: Pen = { doc, left: MARGIN, width: width - 2 * MARGIN, bottom: height - MARGIN, y: MARGIN }
  drawTitle(pen, page)
  for (const block of page.blocks) {
    if (block.kind === 'table') drawTable(pen, block)
    else drawList(pen, block.title, block.lines)
  }
  doc.end()
  return done
}
