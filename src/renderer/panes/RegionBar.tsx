import type { ReactNode } from 'react'

import { type Region, useView } from '../view-store.ts'

const regions: readonly { readonly id: Region; readonly title: string }[] = [
  { id: 'piece', title: 'Piece' },
  { id: 'course', title: 'Course' },
  { id: 'answers', title: 'Answers' },
]

/** Which region shows, in a window too narrow for all of them. */
export function RegionBar(): ReactNode {
  const { region, showRegion } = useView()
  return (
    <nav className="region-bar" aria-label="Regions">
      {regions.map(({ id, title }) => (
        <button key={id} type="button" aria-current={region === id ? 'true' : undefined} onClick={() => showRegion(id)}>
          {title}
        </button>
      ))}
    </nav>
  )
}
