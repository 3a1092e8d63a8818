import { create } from 'zustand'

import { usePlan } from '../plan-store.ts'
import { useView } from '../view-store.ts'

/** The material that is looked at, and the layer from which it was opened. */
export interface ShownMaterial {
  /** Its name; the name that it will have where it is a recipe about to be begun. */
  readonly id: string
  /** Path of the layer in the plan; null when it was not opened from one. */
  readonly layer: string | null
  /** A recipe that is begun with its first ingredient. */
  readonly fresh: boolean
}

interface MaterialPageState {
  readonly shown: ShownMaterial | null
  readonly open: (id: string, layer: string | null, fresh?: boolean) => void
  /** The recipe is begun. */
  readonly begun: () => void
  /** Follows another name. */
  readonly rename: (id: string) => void
  readonly close: () => void
}

export const useMaterialPage = create<MaterialPageState>()((set) => ({
  shown: null,
  open: (id, layer, fresh = false) => set({ shown: { id, layer, fresh } }),
  begun: () => set(({ shown }) => (shown?.fresh === true ? { shown: { ...shown, fresh: false } } : {})),
  rename: (id) => set(({ shown }) => (shown === null ? {} : { shown: { ...shown, id } })),
  close: () => set({ shown: null }),
}))

// another plan, or another page asked for
usePlan.subscribe((now, before) => {
  if (now.opening !== before.opening) useMaterialPage.getState().close()
})
useView.subscribe((now, before) => {
  if (now.view !== before.view) useMaterialPage.getState().close()
})
