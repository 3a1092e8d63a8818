import { create } from 'zustand'

/** A question put to the person, in a dialog. */
export interface Question {
  readonly title: string
  readonly lines: readonly string[]
  /** The answers; the first is the one that Enter gives. */
  readonly answers: readonly { readonly id: string; readonly label: string; readonly danger?: boolean }[]
  /** A name to type as well. */
  readonly name?: { readonly label: string; readonly value: string }
  /** Things to choose from, one press each. */
  readonly choices?: readonly { readonly id: string; readonly label: string; readonly hint: string }[]
}

/** What the person answered; null when the dialog was left. */
export type Answered = { readonly id: string; readonly name: string } | null

interface NoticesState {
  /** The last thing that happened, for those who listen and for the foot of the window. */
  readonly status: string
  readonly asked: { readonly question: Question; readonly answer: (answered: Answered) => void } | null
}

export const useNotices = create<NoticesState>()(() => ({ status: '', asked: null }))

/** Says what has happened. */
export function tell(status: string): void {
  useNotices.setState({ status })
}

/** Asks the person and waits for the answer; a question that is still open is left first. */
export function askPerson(question: Question): Promise<Answered> {
  useNotices.getState().asked?.answer(null)
  return new Promise((resolve) => {
    const answer = (answered: Answered): void => {
      useNotices.setState({ asked: null })
      resolve(answered)
    }
    useNotices.setState({ asked: { question, answer } })
  })
}
