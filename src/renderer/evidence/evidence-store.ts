import { create } from 'zustand'

interface EvidenceState {
  readonly open: boolean
  readonly close: () => void
}

export const useEvidence = create<EvidenceState>()((set) => ({ open: false, close: () => set({ open: false }) }))

/** Opens the page that tells how far to trust the program. */
export const openEvidence = (): void => useEvidence.setState({ open: true })
