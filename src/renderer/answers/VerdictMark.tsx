import type { ReactNode } from 'react'

import type { Mark } from './questions.ts'

/** The sign of a verdict: its shape tells it, the colour only helps. */
export function VerdictMark({ mark, size = 30 }: { readonly mark: Mark; readonly size?: number }): ReactNode {
  return (
    <svg
      className={`verdict-mark verdict-${mark.replace(' ', '-')}`}
      width={size}
      height={size}
      viewBox="0 0 30 30"
      aria-hidden="true"
      focusable="false"
    >
      {shapes[mark]}
    </svg>
  )
}

const shapes: Readonly<Record<Mark, ReactNode>> = {
  yes: (
    <>
      <circle className="verdict-ground" cx="15" cy="15" r="13" />
      <path className="verdict-stroke" d="M9 15.5l4.2 4.2L21.5 11" />
    </>
  ),
  'not yet': (
    <>
      <circle className="verdict-ring" cx="15" cy="15" r="12" />
      <path className="verdict-ground" d="M3 15a12 12 0 0 0 24 0z" />
    </>
  ),
  no: (
    <>
      <rect className="verdict-ground" x="3" y="3" width="24" height="24" rx="2" />
      <path className="verdict-stroke" d="M10 10l10 10M20 10L10 20" />
    </>
  ),
  none: <path className="verdict-bar" d="M7 15h16" />,
}
