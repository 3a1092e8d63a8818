import { create } from 'zustand'

import { type Kept, nothingKept } from '../../core/fitting/kept.ts'
import { bridge } from '../bridge.ts'
import { tell } from '../notices.ts'

interface MeasuredState {
  readonly kept: Kept
  /** Whether the list of what is kept is open. */
  readonly open: boolean
  readonly close: () => void
}

/** What fits have found of surroundings and materials, for every plan; the program keeps it. */
export const useMeasured = create<MeasuredState>()((set) => ({
  kept: nothingKept,
  open: false,
  close: () => set({ open: false }),
}))

export const openMeasured = (): void => useMeasured.setState({ open: true })

export async function loadMeasured(): Promise<void> {
  useMeasured.setState(await bridge.ask('readMeasured', {}))
}

export async function keepForLater(kept: Partial<Kept>, name: string): Promise<void> {
  try {
    useMeasured.setState(await bridge.ask('keepMeasured', { kept: { ...nothingKept, ...kept } }))
    tell(`${name} kept for later plans`)
  } catch (error) {
    tell(error instanceof Error ? error.message : `${name} could not be kept`)
  }
}

export async function forgetMeasured(kept: Partial<Kept>, name: string): Promise<void> {
  try {
    useMeasured.setState(await bridge.ask('forgetMeasured', { kept: { ...nothingKept, ...kept } }))
    tell(`${name} forgotten`)
  } catch (error) {
    tell(error instanceof Error ? error.message : `${name} could not be forgotten`)
  }
}
