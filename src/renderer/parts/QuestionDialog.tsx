import { type ReactNode, useEffect, useId, useRef, useState } from 'react'

import { useNotices } from '../notices.ts'

/** The question that waits for the person, in a dialog of the browser's own kind: Esc leaves it, focus stays within. */
export function QuestionDialog(): ReactNode {
  const asked = useNotices((state) => state.asked)
  if (asked === null) return null
  return <Asked key={asked.question.title} asked={asked} />
}

type AskedProps = { readonly asked: NonNullable<ReturnType<typeof useNotices.getState>['asked']> }

function Asked({ asked: { question, answer } }: AskedProps): ReactNode {
  const id = useId()
  const dialog = useRef<HTMLDialogElement>(null)
  const [name, setName] = useState(question.name?.value ?? '')
  useEffect(() => {
    dialog.current?.showModal()
    dialog.current?.querySelector<HTMLInputElement>('input')?.select()
  }, [])
  const first = question.answers[0]
  return (
    <dialog ref={dialog} aria-labelledby={`${id}-title`} onClose={() => answer(null)} onCancel={() => answer(null)}>
      <form
        method="dialog"
        onSubmit={(event) => {
          event.preventDefault()
          if (first !== undefined) answer({ id: first.id, name })
        }}
      >
        <h2 id={`${id}-title`}>{question.title}</h2>
        {question.lines.map((line) => (
          <p key={line}>{line}</p>
        ))}
        {question.name === undefined ? null : (
          <div className="field">
            <label htmlFor={`${id}-name`}>{question.name.label}</label>
            <div className="box">
              <input id={`${id}-name`} value={name} maxLength={100} onChange={(event) => setName(event.target.value)} />
            </div>
          </div>
        )}
        {question.choices === undefined ? null : (
          <ul className="choice-list">
            {question.choices.map((choice) => (
              <li key={choice.id}>
                <button type="button" className="link" onClick={() => answer({ id: choice.id, name })}>
                  {choice.label}
                </button>
                <span className="second">{choice.hint}</span>
              </li>
            ))}
          </ul>
        )}
        <div className="dialog-answers">
          {question.answers.map(({ id: key, label, danger }, i) => (
            <button
              key={key}
              type={i === 0 ? 'submit' : 'button'}
              className={`button${i === 0 ? ' button-first' : ''}${danger === true ? ' button-danger' : ''}`}
              onClick={i === 0 ? undefined : () => answer({ id: key, name })}
            >
              {label}
            </button>
          ))}
        </div>
      </form>
    </dialog>
  )
}
