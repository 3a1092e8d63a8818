import type { ReactNode } from 'react'

import type { Deciding } from './use-deciding.ts'

interface WorkingProps extends Pick<Deciding<'help'>, 'running' | 'problem' | 'cancel'> {
  /** What is going on, in words. */
  readonly what: string
}

/** How far it is, with a way to stop it; or why it could not be done. */
export function Working({ what, running, problem, cancel }: WorkingProps): ReactNode {
  if (running !== null)
    return (
      <p className="choosing-running" role="status">
        {what}
        <progress max="1" value={running.share} aria-label={what} />
        <button type="button" className="link" onClick={cancel}>
          Cancel
        </button>
      </p>
    )
  return problem === null ? null : (
    <p className="choosing-problem" role="alert">
      {problem}
    </p>
  )
}
