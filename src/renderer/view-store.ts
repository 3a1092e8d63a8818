import { create } from 'zustand'

import type { Place } from '../core/geometry/body.ts'
import type { CutPlane } from '../core/geometry/section.ts'

/** What the film of the section shows. */
export type FilmQuantity = 'temperature' | 'set' | 'ice' | 'danger' | 'growth'

/** The region shown when the window is too narrow for all three. */
export type Region = 'piece' | 'course' | 'answers'

/** Pages of the program that a plan has; the empty page is no view, it stands while no plan is open. */
export type View = 'plan' | 'day' | 'sheet'

/** What is looked at: nothing of this is saved, undone or computed from. */
export interface ViewState {
  readonly view: View
  readonly region: Region
  /** Where the scrubber stands, hours since the plan's start. */
  readonly at_h: number
  /** The layer chosen in list or drawing, by its name in the plan (`fill[0]`, `lining[1]`, `mould[0]`). */
  readonly layer: string | null
  /** The stage chosen on the ribbon, by its place in the plan. */
  readonly stage: number | null
  /** The stage whose fields are open in the list. */
  readonly opened: number | null
  readonly film: FilmQuantity
  /** Through which cut the film looks. */
  readonly plane: CutPlane
  /** Index of the answer whose place is lit in the section; rules count on after the targets. */
  readonly answer: number | null
  /** The place that is lit in the section. */
  readonly place: Place | null

  readonly show: (view: View) => void
  readonly showRegion: (region: Region) => void
  readonly scrub: (at_h: number) => void
  readonly chooseLayer: (layer: string | null) => void
  readonly chooseStage: (stage: number | null) => void
  readonly openStage: (opened: number | null) => void
  readonly chooseFilm: (film: FilmQuantity) => void
  readonly choosePlane: (plane: CutPlane) => void
  readonly light: (answer: number | null, place: Place | null) => void
  /** Another plan is shown: nothing chosen, scrubber at the start. */
  readonly forget: () => void
}

const nothing = { at_h: 0, layer: null, stage: null, opened: null, answer: null, place: null } as const

export const useView = create<ViewState>()((set) => ({
  ...nothing,
  view: 'plan',
  region: 'course',
  film: 'temperature',
  plane: 'across',
  show: (view) => set({ view }),
  showRegion: (region) => set({ region }),
  scrub: (at_h) => set({ at_h: Math.max(0, at_h) }),
  chooseLayer: (layer) => set({ layer }),
  chooseStage: (stage) => set({ stage }),
  openStage: (opened) => set({ opened }),
  chooseFilm: (film) => set({ film }),
  choosePlane: (plane) => set({ plane }),
  light: (answer, place) => set({ answer, place }),
  forget: () => set({ ...nothing, view: 'plan' }),
}))
