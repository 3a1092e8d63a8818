import { createElement } from 'react'
import { renderToStaticMarkup } from 'react-dom/server'
import { describe, expect, test } from 'vitest'
import { forecast } from '../../src/core/forecast.ts'
import type { Plan } from '../../src/core/plan/schema/plan.ts'
import { pageOf } from '../../src/core/sheet/page.ts'
import { makeSheet } from '../../src/core/sheet/sheet.ts'
import { say } from '../../src/core/words/sentences.ts'
import { metric } from '../../src/core/words/show.ts'
import { tellForecast } from '../../src/main/cli/tell-forecast.ts'
import { RuleAnswer } from '../../src/renderer/answers/RuleAnswer.tsx'

/*
 * Cream chilled for a night, then coated warm: the coat is the last to come down, as it was laid on when all else was
 * cold already. Chocolate needs no control by its water activity (FDA Food Code 1-201.10(B), as in shared/rules), the
 * cream does.
 */

const coated = (material: string, start_C: number, hours: number): Plan => ({
  format: 'thickset-plan',
  version: 1,
  title: 'Cream, coated in the morning',
  startsAt: '2027-03-12T16:00',
  fidelity: 'quick',
  rules: ['fda-food-code-2022'],
  piece: {
    shape: { kind: 'block', length_mm: 300, width_mm: 200 },
    fill: [{ material: 'pastry-cream', thickness_mm: 60, start_C: 80 }],
  },
  stages: [
    { name: 'Chill', in: { air_C: 2, h_W_m2K: 25 }, until: { after_h: 14 } },
    {
      name: 'Coat',
      in: { air_C: 20, h_W_m2K: 12 },
      start: [{ do: 'coat', material, thickness_mm: 8, start_C, faces: ['top', 'sides'] }],
      until: { after_h: hours },
    },
  ],
})

const cream = coated('pastry-cream', 65, 0.1)
const chocolate = coated('dark-chocolate', 45, 0.1)

describe('a coat that a rule holds for', () => {
  const verdict = forecast(cream).safety[0]!

  test('is the last to come down, named with the hour at which it was laid on', () => {
    expect(verdict.slowest).toMatchObject({ layer: 'stages[1].start[0]', laid_h: 14 })
    const { last_C } = verdict.slowest!
    // Laid on at 65 °C, on cream that is all but at the 2 °C of its air.
    expect(last_C).toBeLessThan(65)
    expect(last_C).toBeGreaterThan(20)
    const note = verdict.notes.find(({ code }) => code === 'rule-slowest-above')!
    expect(say(note, metric)).toMatch(/It was laid on later, and its hours began then$/)
    expect(verdict).not.toHaveProperty('coat')
  })
})

describe('a coat that needs no control', () => {
  const result = forecast(chocolate)
  const verdict = result.safety[0]!

  test('is named beside the last place that does', () => {
    expect(verdict.coat).toMatchObject({ layer: 'stages[1].start[0]', laid_h: 14 })
    expect(verdict.coat!.last_C).toBeGreaterThan(verdict.slowest!.last_C!)
    const note = verdict.notes.find(({ code }) => code === 'rule-coat-above')!
    expect(say(note, metric)).toContain('needs no control itself')
  })

  test('stands in the command line, on the sheet and in the window', () => {
    const title = 'Dark chocolate'
    expect(tellForecast(result, chocolate)).toMatch(new RegExp(`laid on later, still warmer: ${title}`))
    const page = pageOf(makeSheet(chocolate, result), chocolate, metric)
    const answers = page.blocks.find((block) => block.title === 'Answers')
    expect(answers).toMatchObject({
      lines: expect.arrayContaining([
        expect.stringMatching(/^last to come down: /),
        expect.stringMatching(new RegExp(`^laid on later, still warmer: ${title}.* at the end$`)),
      ]),
    })
    const card = renderToStaticMarkup(
      createElement(RuleAnswer, { forecast: result, rule: 0, show: metric, open: true, onToggle: () => {} }),
    )
    expect(card).toContain('Laid on later, still warmer')
    expect(card).toContain(title)
  })

  test('is not named where it has come down before what lies under it', () => {
    const chilled = { name: 'Chill again', in: { air_C: 2, h_W_m2K: 25 }, until: { after_h: 6 } } as const
    const verdict = forecast({ ...chocolate, stages: [...chocolate.stages, chilled] }).safety[0]!
    expect(verdict.slowest!.down_h).toBeGreaterThan(14)
    expect(verdict).not.toHaveProperty('coat')
  })
})
