import type { ReactNode } from 'react'

import type { Show } from '../../core/words/show.ts'
import { useOpenPlan } from '../plan-store.ts'
import { HelpPanel } from './HelpPanel.tsx'
import { LimitPanel } from './LimitPanel.tsx'
import { SpreadPanel } from './SpreadPanel.tsx'

/** What to do about the answers: what would help, how sure they are, how far one number may go. */
export function Choosing({ show }: { readonly show: Show }): ReactNode {
  const plan = useOpenPlan()
  return (
    <>
      <HelpPanel plan={plan} show={show} />
      <SpreadPanel plan={plan} show={show} />
      <LimitPanel plan={plan} show={show} />
    </>
  )
}
