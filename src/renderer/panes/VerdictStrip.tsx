import type { ReactNode } from 'react'

import type { Forecast } from '../../core/forecast-types.ts'
import type { Place } from '../../core/geometry/body.ts'
import { answerId, type Mark, ruleIndex, ruleMarks, ruleWords, verdictWords } from '../answers/questions.ts'
import { VerdictMark } from '../answers/VerdictMark.tsx'
import { questionWord } from '../text.ts'
import { useView } from '../view-store.ts'

interface Verdict {
  /** Place in the order of the answers: targets first, then rules. */
  readonly index: number
  readonly mark: Mark
  readonly about: string
  readonly word: string
  readonly where: Place
}

const MOST = 4

/** The verdicts in one line, for windows too narrow to show the answers at once; each jumps to its answer. */
export function VerdictStrip({ forecast }: { readonly forecast: Forecast }): ReactNode {
  const { light, showRegion } = useView.getState()
  const verdicts = verdictsOf(forecast)
  if (verdicts.length === 0) return null
  return (
    <nav className="verdict-strip" aria-label="Verdicts">
      {verdicts.slice(0, MOST).map((verdict) => (
        <button
          key={verdict.index}
          type="button"
          onClick={() => {
            light(verdict.index, verdict.where)
            showRegion('answers')
            requestAnimationFrame(() => document.getElementById(answerId(verdict.index))?.focus())
          }}
        >
          <VerdictMark mark={verdict.mark} size={28} />
          <span>
            {verdict.about}
            <b>{verdict.word}</b>
          </span>
        </button>
      ))}
    </nav>
  )
}

/** Every verdict of a forecast, the pressing ones first. */
export function verdictsOf(forecast: Forecast): Verdict[] {
  const answers = forecast.answers.map(
    ({ index, answer, target, where }): Verdict => ({
      index,
      mark: answer,
      about: questionWord(target),
      word: verdictWords[answer],
      where,
    }),
  )
  const rules = forecast.safety.map(
    ({ answer, worst }, i): Verdict => ({
      index: ruleIndex(forecast, i),
      mark: ruleMarks[answer],
      about: 'Cooling rule',
      word: ruleWords[answer],
      where: worst.where,
    }),
  )
  const urgency: Readonly<Record<Mark, number>> = { no: 0, 'not yet': 1, yes: 2, none: 3 }
  return [...answers, ...rules].sort((a, b) => urgency[a.mark] - urgency[b.mark] || a.index - b.index)
}
