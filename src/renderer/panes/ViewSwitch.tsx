import type { ReactNode } from 'react'

import { useView, type View } from '../view-store.ts'

const views: readonly { readonly id: View; readonly title: string }[] = [
  { id: 'plan', title: 'Plan' },
  { id: 'sheet', title: 'Sheet' },
]

/** Which view of the plan is open. */
export function ViewSwitch(): ReactNode {
  const { view, show } = useView()
  return (
    <nav className="view-switch" aria-label="Views">
      {views.map(({ id, title }) => (
        <button key={id} type="button" aria-current={view === id ? 'page' : undefined} onClick={() => show(id)}>
          {title}
        </button>
      ))}
    </nav>
  )
}
