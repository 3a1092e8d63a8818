import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { createElement } from 'react'
import { renderToStaticMarkup } from 'react-dom/server'
import { expect, test, vi } from 'vitest'
import { forecast } from '../../../src/core/forecast.ts'
import type * as published from '../../../src/core/outcomes/published-rules.ts'
import { findRule, ruleIds } from '../../../src/core/outcomes/rules.ts'
import { readPlan } from '../../../src/core/plan/read.ts'
import { pageOf } from '../../../src/core/sheet/page.ts'
import { makeSheet } from '../../../src/core/sheet/sheet.ts'
import { forecastDocument } from '../../../src/core/words/document.ts'
import { metric } from '../../../src/core/words/show.ts'
import { run } from '../../../src/main/cli/run.ts'
import { tellForecast } from '../../../src/main/cli/tell-forecast.ts'
import { RuleAnswer } from '../../../src/renderer/answers/RuleAnswer.tsx'
import { Questions } from '../../../src/renderer/panes/Questions.tsx'
import { readPdf } from '../../support/pdf-text.ts'

/* One more rule is one more file: with it in the list everything else follows, and nothing else is changed. */

vi.mock('../../../src/core/outcomes/published-rules.ts', async (original) => {
  const { publishedRules } = await original<typeof published>()
  const house = {
    id: 'house-rule',
    title: 'Our own rule: cool in three hours',
    authority: 'this workshop',
    kind: 'staged',
    start_F: 140,
    steps: [{ to_F: 50, within_h: 3, clock: 'start', strict: true }],
    for: 'whatever we make',
    measured: 'the slowest place',
    note: 'data of a test',
    source: 'a sheet on the wall of the workshop',
    certainty: 'seen in the source',
  }
  return { publishedRules: [...publishedRules, house] }
})

// The window's lists read the open plan from its store.
vi.mock('../../../src/renderer/plan-store.ts', () => ({
  useOpenPlan: () => plan([]),
  usePlan: (select: (state: { edit: () => void }) => unknown) => select({ edit: () => undefined }),
}))

const plan = (rules: readonly string[]) =>
  readPlan(
    JSON.stringify({
      format: 'thickset-plan',
      version: 1,
      title: 'Cream',
      startsAt: '2027-03-12T16:00',
      fidelity: 'quick',
      rules,
      piece: { shape: { kind: 'sheet' }, fill: [{ material: 'pastry-cream', thickness_mm: 40, start_C: 85 }] },
      stages: [{ name: 'Cool', in: { air_C: 2, h_W_m2K: 20 }, until: { after_h: 12 } }],
    }),
  )

test('it can be asked for, is listed, judged, printed and told with its own words', () => {
  expect(ruleIds.at(-1)).toBe('house-rule')
  expect(findRule('house-rule')).toMatchObject({ start_C: 60, steps: [{ to_C: 10, strict: true }] })
  const asked = plan(['house-rule'])
  const result = forecast(asked)
  expect(result.safety).toMatchObject([{ rule: 'house-rule', steps: [{ from_C: 60, to_C: 10, within_h: 3 }] }])
  expect(forecastDocument(result).safety[0]).toMatchObject({ source: 'a sheet on the wall of the workshop' })
  expect(tellForecast(result, asked)).toContain('Our own rule: cool in three hours')
  // The sheet of the workshop.
  const answers = pageOf(makeSheet(asked, result), asked, metric).blocks.find(({ title }) => title === 'Answers')
  expect(answers).toMatchObject({
    lines: [
      expect.stringMatching(/^Our own rule: cool in three hours: /),
      expect.stringContaining('last to come down'),
    ],
  })
  // The window: its card says the title, every step, the reason and the source.
  const card = renderToStaticMarkup(
    createElement(RuleAnswer, { forecast: result, rule: 0, show: metric, open: true, onToggle: () => {} }),
  )
  for (const words of ['Our own rule: cool in three hours', '60 to 10', '3 h', 'a sheet on the wall of the workshop'])
    expect(card).toContain(words)
})

test('the program of the command line reads, computes, prints and draws it', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'thickset-rule-'))
  const file = join(folder, 'cream.thickset')
  const paper = join(folder, 'cream.pdf')
  writeFileSync(file, JSON.stringify(plan(['house-rule'])))
  const printed: string[] = []
  const out = vi.spyOn(process.stdout, 'write').mockImplementation((text) => printed.push(String(text)) > 0)
  const call = async (...words: string[]): Promise<string> => {
    printed.length = 0
    expect(await run(words, () => '')).toBe(0)
    return printed.join('')
  }
  try {
    expect(await call('check', file)).toContain('can be computed')
    expect(await call('forecast', file)).toContain('Our own rule: cool in three hours')
    expect(JSON.parse(await call('forecast', file, '--json')).safety[0]).toMatchObject({ rule: 'house-rule' })
    expect(await call('sheet', file, '--pdf', paper)).toBe('')
    const { text } = readPdf(readFileSync(paper))
    expect(text.replace(/\s+/g, '')).toContain('Ourownrule:coolinthreehours')
  } finally {
    out.mockRestore()
    rmSync(folder, { recursive: true })
  }
})

test('the window offers it among the rules', () => {
  const list = renderToStaticMarkup(createElement(Questions))
  expect(list).toContain('Our own rule: cool in three hours')
})

test('a rule that nobody published is refused, with the nearest that there is', () => {
  expect(() => plan(['house-rul'])).toThrow('house-rule')
})
