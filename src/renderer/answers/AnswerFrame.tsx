import { type ReactNode, useId } from 'react'

import { answerId, type Mark } from './questions.ts'
import { VerdictMark } from './VerdictMark.tsx'

interface AnswerFrameProps {
  readonly index: number
  readonly mark: Mark
  readonly question: string
  readonly word: string
  readonly open: boolean
  readonly onToggle: () => void
  /** Stands under the question whether open or not. */
  readonly short: ReactNode
  /** Shown while open. */
  readonly children: ReactNode
}

/** Mark, question and verdict word, which open and close what stands behind them. */
export function AnswerFrame(props: AnswerFrameProps): ReactNode {
  const { index, mark, question, word, open, onToggle, short, children } = props
  const body = useId()
  return (
    <article className="answer" id={answerId(index)} tabIndex={-1} aria-label={`${question} ${word}`}>
      <h3>
        <button type="button" className="answer-head" aria-expanded={open} aria-controls={body} onClick={onToggle}>
          <VerdictMark mark={mark} />
          <span className="answer-question">{question}</span>
          <span className={`answer-word word-${mark.replace(' ', '-')}`}>{word}</span>
        </button>
      </h3>
      <div className="answer-body" id={body}>
        {short}
        {open && children}
      </div>
    </article>
  )
}
