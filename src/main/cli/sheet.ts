import { forecast } from '../../core/forecast.ts'
import { checkEntries } from '../../core/sheet/entries.ts'
import { type Page, pageOf } from '../../core/sheet/page.ts'
import { makeSheet } from '../../core/sheet/sheet.ts'
import { calendarText } from '../../core/words/calendar.ts'
import type { Paper } from '../sheet/pdf.ts'
import { askedPlan } from './asked-plan.ts'
import { clockShow } from './clock-show.ts'
import { giveFile } from './give.ts'
import { watchProgress } from './progress.ts'
import { textSection } from './text-table.ts'
import { type Words, wordFault } from './words.ts'

const PAPERS: readonly Paper[] = ['A4', 'Letter']

function paperOf(words: Words): Paper {
  const asked = words.text('paper') ?? 'A4'
  const paper = PAPERS.find((one) => one.toLowerCase() === asked.toLowerCase())
  if (paper === undefined) throw wordFault(`--paper ${asked} is no size of paper`, `write ${PAPERS.join(' or ')}`)
  return paper
}

/** Columns as wide as their longest cell. */
function columnsText(rows: readonly (readonly string[])[]): string[] {
  const widths = (rows[0] ?? []).map((_, index) => Math.max(...rows.map((row) => row[index]?.length ?? 0)))
  return rows.map((row) =>
    row
      .map((cell, index) => cell.padEnd(widths[index] ?? 0))
      .join('  ')
      .trimEnd(),
  )
}

function tellPage({ title, facts, blocks }: Page): string {
  const told = blocks.map((block) => {
    if (block.kind === 'list') return textSection(block.title, block.lines)
    const shown = block.columns.flatMap((column, index) => (column.blank === true ? [] : [index]))
    const rows = [block.columns.map((column) => column.title), ...block.rows]
    const lines = columnsText(rows.map((row) => shown.map((index) => row[index] ?? '')))
    return textSection(block.title, [...(block.note === undefined ? [] : [block.note]), ...lines])
  })
  return `${title}\n${facts.map(([name, value]) => `${name} ${value}`).join('; ')}\n${told.join('')}`
}

/** `thickset sheet PLAN`. */
export async function carrySheet(words: Words): Promise<number> {
  const paper = paperOf(words)
  const plan = await askedPlan(words)
  const progress = watchProgress(words.has('progress'))
  const result = forecast(plan, progress)
  progress.done()
  const sheet = makeSheet(plan, result)
  const show = clockShow(plan)
  const page = pageOf(sheet, plan, show)
  const pdf = words.text('pdf')
  const calendar = words.text('calendar')
  if (pdf !== undefined) giveFile(pdf, await (await import('../sheet/pdf.ts')).pagePdf(page, paper))
  if (calendar !== undefined)
    giveFile(
      calendar,
      calendarText(sheet.title, sheet.startsAt, checkEntries(sheet, show), Date.now(), plan.clock_changes),
    )
  if (words.has('json')) process.stdout.write(`${JSON.stringify({ format: 'thickset-sheet', version: 1, ...page })}\n`)
  else if (pdf === undefined && calendar === undefined) process.stdout.write(tellPage(page))
  return 0
}
