import type { ReactNode } from 'react'

import { useMaterialPage } from '../material/material-page.ts'
import { useView, type View } from '../view-store.ts'

const views: readonly { readonly id: View; readonly title: string }[] = [
  { id: 'plan', title: 'Plan' },
  { id: 'day', title: 'On the day' },
  { id: 'sheet', title: 'Sheet' },
]

/** Which view of the plan is open. */
export function ViewSwitch(): ReactNode {
  const { view, show } = useView()
  const closeMaterial = useMaterialPage((state) => state.close)
  return (
    <nav className="view-switch" aria-label="Views">
      {views.map(({ id, title }) => (
        <button
          key={id}
          type="button"
          aria-current={view === id ? 'page' : undefined}
          onClick={() => {
            // also from the card of a material back to where it was opened
            closeMaterial()
            show(id)
          }}
        >
          {title}
        </button>
      ))}
    </nav>
  )
}
