import type { ReactNode } from 'react'

interface MeasuredLineProps {
  readonly className: string
  /** What was measured, in words. */
  readonly said: string
  /** What can be done about it, and what does it. */
  readonly offer: string
  readonly onTake: () => void
}

/** What was measured, with the one thing that can be done about it. */
export function MeasuredLine({ className, said, offer, onTake }: MeasuredLineProps): ReactNode {
  return (
    <p className={className}>
      {said}{' '}
      <button type="button" className="link" onClick={onTake}>
        {offer}
      </button>
    </p>
  )
}

export const LEAVE_OUT = 'Leave what was measured out'
export const TAKE_OVER = 'Take over what was measured'
