import { create } from 'zustand'

import { helpKeyOf } from './help-of.ts'

interface HelpState {
  readonly open: boolean
  /** The field that was being typed in when help was asked. */
  readonly key: string | null
  readonly close: () => void
}

export const useHelp = create<HelpState>()((set) => ({
  open: false,
  key: null,
  close: () => set({ open: false, key: null }),
}))

/** Opens the help, with what it says of the field that has the focus first. */
export function openHelp(): void {
  const focused = document.activeElement
  useHelp.setState({ open: true, key: focused === null ? null : helpKeyOf(focused) })
}
