import { createElement } from 'react'
import { renderToStaticMarkup } from 'react-dom/server'
import { describe, expect, test, vi } from 'vitest'
import { forecast } from '../../../src/core/forecast.ts'
import type { Answer } from '../../../src/core/forecast-types.ts'
import type { Course } from '../../../src/core/journey/course.ts'
import { message } from '../../../src/core/messages.ts'
import type * as words from '../../../src/core/outcomes/target-words.ts'
import type * as registry from '../../../src/core/outcomes/targets/ways.ts'
import type { Plan } from '../../../src/core/plan/schema/plan.ts'
import { pageOf } from '../../../src/core/sheet/page.ts'
import { makeSheet } from '../../../src/core/sheet/sheet.ts'
import { forecastDocument } from '../../../src/core/words/document.ts'
import { metric } from '../../../src/core/words/show.ts'
import { tellBriefly, tellForecast } from '../../../src/main/cli/tell-forecast.ts'
import { TargetAnswer } from '../../../src/renderer/answers/TargetAnswer.tsx'
import { AddQuestion, Questions } from '../../../src/renderer/panes/Questions.tsx'
import { questionTitles } from '../../../src/renderer/text.ts'

/*
 * One more kind of target: its judge is a file of its own, here the function below; one line puts it among the ways,
 * one gives its words. Command line, window and sheet have it by that; only its form in the plan's schema is written
 * beside, so this test hands the plan over without reading it.
 */

/** Even all through: the hottest and the coldest place lie within two kelvins at the end. */
function judgeEven({ index }: { readonly index: number }, course: Course): Answer {
  const last = course.t.length - 1
  const where = course.hottestAt(last)
  const even = course.hottest_C[last]! - course.coldest_C[last]! < 2
  return {
    target: 'even',
    index,
    answer: even ? 'yes' : 'no',
    ...(even ? { at_h: course.t[last]! / 3600 } : {}),
    where,
    layer: course.describe(where).layer,
    why: message('fallen-from-the-start', { core_C: course.hottest_C[last]! }, where),
  }
}

vi.mock('../../../src/core/outcomes/targets/ways.ts', async (original) => {
  const { ways } = await original<typeof registry>()
  return { ways: { ...ways, even: { judge: judgeEven } } }
})
vi.mock('../../../src/core/outcomes/target-words.ts', async (original) => {
  const { targetWords } = await original<typeof words>()
  const even = {
    title: 'Even all through',
    asks: 'Even all through?',
    short: 'Even',
    source: 'a choice of this test',
    unknown: 'nothing but the test itself',
  }
  return { targetWords: { ...targetWords, even } }
})

const plan = {
  format: 'thickset-plan',
  version: 1,
  title: 'Cream',
  startsAt: '2027-03-12T16:00',
  fidelity: 'quick',
  piece: { shape: { kind: 'sheet' }, fill: [{ material: 'pastry-cream', thickness_mm: 40, start_C: 85 }] },
  stages: [{ name: 'Cool', in: { air_C: 2, h_W_m2K: 20 }, until: { after_h: 12 } }],
  targets: [{ kind: 'even' }],
} as unknown as Plan

// The window's lists read the open plan from its store.
vi.mock('../../../src/renderer/plan-store.ts', () => {
  const state = {
    history: {
      get present() {
        return plan
      },
    },
    edit: () => undefined,
    seal: () => undefined,
    refuse: () => undefined,
  }
  const usePlan = (select: (given: typeof state) => unknown) => select(state)
  return { useOpenPlan: () => plan, usePlan: Object.assign(usePlan, { getState: () => state }) }
})

describe('a kind of target that is a file, a line and its words', () => {
  const result = forecast(plan)
  const [answer] = result.answers

  test('is judged, with a band, its source and what it cannot know', () => {
    expect(answer).toMatchObject({ target: 'even', answer: 'yes', sources: ['a choice of this test'] })
    expect(answer!.early_h).toBeLessThanOrEqual(answer!.at_h!)
    expect(answer!.notes!.at(-1)!.values).toMatchObject({ unknown: 'nothing but the test itself' })
  })

  test('is told by the command line, at length, in short and as an object', () => {
    expect(tellForecast(result, plan)).toMatch(/yes {6}even all through: at /)
    expect(tellBriefly(result, plan).lines[1]).toMatch(/^yes {6}even all through: at /)
    expect(forecastDocument(result).answers[0]).toMatchObject({ target: 'even', answer: 'yes' })
  })

  test('stands on the sheet', () => {
    const answers = pageOf(makeSheet(plan, result), plan, metric).blocks.find(({ title }) => title === 'Answers')
    expect(answers).toMatchObject({ lines: [expect.stringMatching(/^Even all through, yes: likely /)] })
  })

  test('is asked and answered in the window', () => {
    expect(questionTitles).toMatchObject({ even: 'Even all through?' })
    const answered = createElement(TargetAnswer, {
      forecast: result,
      plan,
      show: metric,
      answer: answer!,
      open: true,
      onToggle: () => undefined,
    })
    const card = renderToStaticMarkup(answered)
    for (const said of ['Even all through?', 'Yes', 'a choice of this test', 'nothing but the test itself'])
      expect(card).toContain(said)
    expect(renderToStaticMarkup(createElement(Questions))).toContain('Even')
    expect(renderToStaticMarkup(createElement(AddQuestion))).toContain('Question')
  })
})
