import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { forecast } from '../../src/core/forecast.ts'
import { readPlan } from '../../src/core/plan/read.ts'
import { pageOf } from '../../src/core/sheet/page.ts'
import { makeSheet } from '../../src/core/sheet/sheet.ts'
import { pagePdf } from '../../src/main/sheet/pdf.ts'
import { showIn } from '../../src/renderer/format.ts'
import { dateAndClock } from '../../src/renderer/format-time.ts'
import { metricUnits } from '../../src/renderer/units.ts'
import { readPdf } from '../support/pdf-text.ts'

// The sheet on paper, read back: what is asked of it holds for every example on both sizes of paper.

const folder = join(import.meta.dirname, '..', '..', 'shared', 'examples')
const examples = readdirSync(folder).filter((name) => name.endsWith('.thickset'))
const bare = (text: string): string => text.replace(/\s+/g, '')

describe('the sheet as PDF', () => {
  it.each(examples)('%s: one or two pages, letters embedded, its numbers those of the forecast', async (name) => {
    const plan = { ...readPlan(readFileSync(join(folder, name), 'utf8')), fidelity: 'quick' as const }
    const made = forecast(plan)
    const show = { ...showIn(metricUnits, plan.startsAt), moment: (at_h: number) => dateAndClock(plan.startsAt, at_h) }
    const sheet = makeSheet(plan, made)
    for (const paper of ['A4', 'Letter'] as const) {
      const pdf = readPdf(Buffer.from(await pagePdf(pageOf(sheet, plan, show), paper)))
      expect(pdf.pages).toBeGreaterThanOrEqual(1)
      expect(pdf.pages).toBeLessThanOrEqual(2)
      expect(pdf.fonts.length).toBeGreaterThan(0)
      expect(pdf.fonts.filter(({ embedded }) => !embedded)).toEqual([])
      expect(pdf.text).not.toContain('\uFFFD')
      const text = bare(pdf.text)
      expect(text).toContain(bare(plan.title))
      expect(sheet.checks.length).toBeGreaterThan(0)
      for (const { at_h, core } of sheet.checks) {
        expect(text).toContain(bare(show.moment(at_h)))
        expect(text).toContain(bare(show.temperature(core.likely_C)))
        expect(text).toContain(bare(show.temperature(core.low_C)))
      }
      for (const { at_h } of made.answers) if (at_h !== undefined) expect(text).toContain(bare(show.moment(at_h)))
      expect(text).toContain(bare(show.mass(made.quantities.mass_kg)))
    }
  })
})
