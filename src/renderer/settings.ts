import { create } from 'zustand'

import type { Settings } from '../main/contract.ts'

/** What a person sets once: units, light or dark, paper. Changes how numbers are shown and typed, never the plan. */
export interface SettingsState {
  readonly settings: Settings
  readonly change: (patch: Partial<Settings>) => void
}

export const startSettings: Settings = { temperature: 'C', length: 'mm', mass: 'kg', theme: 'system', paper: 'A4' }

export const useSettings = create<SettingsState>()((set) => ({
  settings: startSettings,
  change: (patch) => set(({ settings }) => ({ settings: { ...settings, ...patch } })),
}))
