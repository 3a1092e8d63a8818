import type { ReactNode } from 'react'

import type { Message } from '../../core/messages.ts'
import { say } from '../../core/words/sentences.ts'
import type { Show } from '../../core/words/show.ts'
import { Icon } from '../icons.tsx'
import { sentence } from './sentence.ts'

interface CautionsProps {
  readonly cautions: readonly Message[]
  readonly show: Show
}

export function Cautions({ cautions, show }: CautionsProps): ReactNode {
  if (cautions.length === 0) return null
  const told = [...new Set(cautions.map((caution) => sentence(say(caution, show))))]
  return (
    <section className="cautions" aria-label="Cautions">
      <h3>Cautions</h3>
      <ul>
        {told.map((caution) => (
          <li key={caution}>
            <Icon name="warning" />
            <span>{caution}</span>
          </li>
        ))}
      </ul>
    </section>
  )
}
