import { type InputHTMLAttributes, type ReactNode, useState } from 'react'

import { useSettings } from '../settings.ts'
import { type MomentKind, momentWords, readMoment } from '../typed-moment.ts'

interface MomentInputProps
  extends Omit<InputHTMLAttributes<HTMLInputElement>, 'type' | 'value' | 'onChange' | 'placeholder'> {
  readonly kind: MomentKind
  /** As the plan writes it; empty for none. */
  readonly value: string
  /** Local date and time from which what is not typed is taken. */
  readonly near: string
  /** What stands there while nothing is typed. */
  readonly none: string
  /** Takes what can be read as soon as it can; empty where it was emptied. */
  readonly take: (local: string) => void
  /** Says whether something stands there that can't be read. */
  readonly tellUnread?: (unread: boolean) => void
}

/** A time, or a day with a time, typed as the rest of the window writes it: by the clock of the settings. */
export function MomentInput({ kind, value, near, none, take, tellUnread, ...rest }: MomentInputProps): ReactNode {
  // drawn anew when the clock is changed
  useSettings(({ settings }) => settings.clock)
  const [text, setText] = useState<string | null>(null)
  const words = value === '' ? none : momentWords(kind, value)
  const unread = text !== null && text.trim() !== '' && readMoment(text, kind, near) === null
  return (
    <span className={`moment moment-${kind}${unread ? ' moment-unread' : ''}`}>
      <input
        {...rest}
        type="text"
        autoComplete="off"
        spellCheck={false}
        value={text ?? (value === '' ? '' : words)}
        data-pending={unread ? true : undefined}
        onChange={({ target }) => {
          setText(target.value)
          const empty = target.value.trim() === ''
          const read = empty ? '' : readMoment(target.value, kind, near)
          if (read === null) return
          tellUnread?.(false)
          take(read)
        }}
        onFocus={(event) => {
          event.target.select()
          rest.onFocus?.(event)
        }}
        onBlur={(event) => {
          // what can't be read stays, with what is wrong
          if (!unread) setText(null)
          tellUnread?.(unread)
          rest.onBlur?.(event)
        }}
        onKeyDown={(event) => {
          if (event.key === 'Enter' && unread) {
            event.preventDefault()
            tellUnread?.(true)
          }
          if (event.key === 'Escape' && text !== null) {
            event.stopPropagation()
            setText(null)
            tellUnread?.(false)
          }
        }}
      />
      <span aria-hidden="true">{words}</span>
    </span>
  )
}
