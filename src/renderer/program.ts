import { create } from 'zustand'

import type { ListedDraft, Reply } from '../main/contract.ts'

/** What stands around the page, as it said when the page was ready. */
export interface ProgramState {
  readonly program: 'window' | 'browser'
  readonly version: string
  readonly keys: 'mac' | 'other'
  readonly draftId: string
  readonly plansFolder: string
  /** Work of earlier starts that was never saved. */
  readonly drafts: readonly ListedDraft[]
}

export const useProgram = create<ProgramState>()(() => ({
  program: 'browser',
  version: '',
  keys: 'other',
  draftId: '',
  plansFolder: '',
  drafts: [],
}))

/** Takes over what the program said at the start. */
export function meetProgram({ program, version, keys, draftId, plansFolder, drafts }: Reply<'ready'>): void {
  useProgram.setState({ program, version, keys, draftId, plansFolder, drafts })
}
