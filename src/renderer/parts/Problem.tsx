import type { ReactNode } from 'react'

import { Icon } from '../icons.tsx'

/** What is wrong at a field and what would be right. */
export function Problem({ id, words }: { readonly id?: string; readonly words: string }): ReactNode {
  return (
    <p className="problem" id={id}>
      <Icon name="warning" />
      <span>{words}</span>
    </p>
  )
}
