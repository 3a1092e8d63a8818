import type { ReactNode } from 'react'

/** Drawn on a grid of 20 px with one line of 1.7 and round ends. */
const paths = {
  undo: 'M7.5 4 4 7.5 7.5 11M4.5 7.5h7a4.25 4.25 0 0 1 0 8.5H8',
  redo: 'M12.5 4 16 7.5 12.5 11M15.5 7.5h-7a4.25 4.25 0 0 0 0 8.5H12',
  plus: 'M10 4v12M4 10h12',
  minus: 'M4 10h12',
  close: 'M5 5l10 10M15 5 5 15',
  folder: 'M3 15.5V5h5l1.8 2H17v8.5z',
  disk: 'M4 4h9.5L16 6.5V16H4zM7 4v4h5V4M7 16v-4.5h6V16',
  warning: 'M10 3.5 17.5 16h-15zM10 8.5V12M10 14v.2',
  sun: 'M10 6.6a3.4 3.4 0 1 0 0 6.8 3.4 3.4 0 0 0 0-6.8zM10 2.2v1.4M10 16.4v1.4M2.2 10h1.4M16.4 10h1.4M4.5 4.5l1 1M14.5 14.5l1 1M4.5 15.5l1-1M14.5 5.5l1-1',
  moon: 'M15.8 12.1A6.6 6.6 0 0 1 8.2 3.8a6.6 6.6 0 1 0 7.6 8.3z',
  more: 'M4.4 10h.2M9.9 10h.2M15.4 10h.2',
  up: 'M10 16V4.5M5 9.5l5-5 5 5',
  down: 'M10 4v11.5M5 10.5l5 5 5-5',
  copy: 'M7 7h9v9H7zM13 4H4v9',
  bin: 'M4 6h12M8 6V4h4v2M5.5 6l.8 10.5h7.4L14.5 6M8.5 9v4.5M11.5 9v4.5',
  back: 'M16 10H4.5M9.5 5l-5 5 5 5',
  card: 'M4 3.5h12v13H4zM7 12.5c1.5-5 3 1 6-5M7 7h2',
  chevron: 'M5 8l5 5 5-5',
  check: 'M4.5 10.5 8.5 14.5 16 6',
  drop: 'M10 2.5v9M6 8l4 4 4-4M3.5 11.5a6.5 6.5 0 0 0 13 0',
  table: 'M3 4.5h14v11H3zM3 8.5h14M8 8.5v7',
  play: 'M6 4l10 6-10 6z',
  pause: 'M6.5 4.5v11M13.5 4.5v11',
  before: 'M15.5 4.5 7.5 10l8 5.5zM4.5 4.5v11',
  after: 'M4.5 4.5 12.5 10l-8 5.5zM15.5 4.5v11',
} as const

export type IconName = keyof typeof paths

/** A sign beside a word; it says nothing by itself to those who listen. */
export function Icon({ name }: { readonly name: IconName }): ReactNode {
  return (
    <svg
      className={`icon icon-${name}`}
      width="20"
      height="20"
      viewBox="0 0 20 20"
      aria-hidden="true"
      focusable="false"
    >
      <path d={paths[name]} />
    </svg>
  )
}

/** The mark of the program: a half-round in its mould. */
export function Mark(): ReactNode {
  return (
    <svg className="mark" width="34" height="24" viewBox="0 0 34 24" aria-hidden="true" focusable="false">
      <path className="mark-mould" d="M2 4h30a15 15 0 0 1-30 0z" />
      <path className="mark-fill" d="M5.6 7h22.8a11.4 11.4 0 0 1-22.8 0z" />
    </svg>
  )
}
