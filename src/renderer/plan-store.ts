import { create } from 'zustand'

import type { Plan } from '../core/plan/schema/plan.ts'
import { change, type History, redo, seal, startHistory, undo } from './history.ts'

/** Where a plan was read from or saved to. */
export interface PlanFile {
  /** The program's name for the file; null where only the contents are known. */
  readonly id: string | null
  readonly name: string
  /** Its last change as this page knows it. */
  readonly changedAt_ms?: number
}

export interface PlanState {
  /** The plan being edited with all its steps; null while the empty page shows. */
  readonly history: History<Plan> | null
  readonly file: PlanFile | null
  /** The plan as it is on disk, or as it was begun: nothing to lose while it is the present one. */
  readonly kept: Plan | null
  /** Counts openings: changes whenever another plan is shown, or none. */
  readonly opening: number
  /** Fields in which something stands that can't be taken. */
  readonly refused: ReadonlySet<string>

  readonly begin: (plan: Plan, file: PlanFile | null, unsaved?: boolean) => void
  /** Changes the plan; changes in a row with the same key are one step of undo. */
  readonly edit: (name: string, edit: (plan: Plan) => Plan, key?: string | null) => void
  /** Ends a gesture: what follows is a step of its own. */
  readonly seal: () => void
  readonly undo: () => void
  readonly redo: () => void
  readonly saved: (plan: Plan, file: PlanFile) => void
  readonly refuse: (field: string, refused: boolean) => void
  readonly close: () => void
}

const nothing = { opening: 0, history: null, file: null, kept: null, refused: new Set<string>() } as const

export const usePlan = create<PlanState>()((set) => {
  const step = (move: (history: History<Plan>) => History<Plan>): void =>
    set(({ history }) => (history === null ? {} : { history: move(history) }))
  return {
    ...nothing,
    begin: (plan, file, unsaved = false) =>
      set(({ opening }) => ({
        opening: opening + 1,
        history: startHistory(plan),
        file,
        kept: unsaved ? null : plan,
        refused: new Set(),
      })),
    edit: (name, edit, key = null) => step((history) => change(history, name, edit(history.present), key)),
    seal: () => step(seal),
    undo: () => step(undo),
    redo: () => step(redo),
    saved: (kept, file) => set({ kept, file }),
    refuse: (field, refused) =>
      set((state) => {
        if (state.refused.has(field) === refused) return {}
        const fields = new Set(state.refused)
        if (refused) fields.add(field)
        else fields.delete(field)
        return { refused: fields }
      }),
    close: () => set(({ opening }) => ({ ...nothing, opening: opening + 1 })),
  }
})

/** Whether closing now would lose something. */
export const isUnsaved = ({ history, kept }: PlanState): boolean => history !== null && history.present !== kept

/** The plan being edited; only for parts that stand while there is one. */
export function useOpenPlan(): Plan {
  const plan = usePlan(({ history }) => history?.present)
  if (plan === undefined) throw new Error('no plan is open')
  return plan
}
