import { create } from 'zustand'

import type { Settings } from '../main/contract.ts'
import { tellBy } from './format-time.ts'

/** What a person sets once: units, light or dark, paper. Changes how numbers are shown and typed, never the plan. */
export interface SettingsState {
  readonly settings: Settings
  readonly change: (patch: Partial<Settings>) => void
}

const usual: Settings = { temperature: 'C', length: 'mm', mass: 'kg', theme: 'system', paper: 'A4', clock: '24' }

export const useSettings = create<SettingsState>()((set) => ({
  settings: usual,
  change: (patch) => set(({ settings }) => ({ settings: { ...settings, ...patch } })),
}))

/** Takes over the kept settings; every later change shows at once and is kept. */
export function startSettings(kept: Settings, keep: (settings: Settings) => Promise<unknown>): void {
  useSettings.setState({ settings: kept })
  showTheme(kept)
  tellBy(kept.clock)
  useSettings.subscribe(({ settings }) => {
    showTheme(settings)
    tellBy(settings.clock)
    // not being able to keep a setting must not stop the work; it is asked again with the next change
    keep(settings).catch(() => undefined)
  })
}

function showTheme({ theme, clock }: Settings): void {
  document.documentElement.dataset.clock = clock
  if (theme === 'system') delete document.documentElement.dataset.theme
  else document.documentElement.dataset.theme = theme
}
