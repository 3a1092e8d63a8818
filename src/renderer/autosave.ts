import type { Plan } from '../core/plan/schema/plan.ts'
import { writePlan } from '../core/plan/write.ts'
import { bridge } from './bridge.ts'
import { tell } from './notices.ts'
import { isUnsaved, usePlan } from './plan-store.ts'
import { useProgram } from './program.ts'

/** Work is kept this long after the first change that isn't kept, ms. */
const KEEP_MS = 1000
/** What could not be kept is tried again after this, ms. */
const AGAIN_MS = 10_000
/** The program behind a browser page ends when it hears nothing; so it hears something, ms. */
const BEAT_MS = 20_000

/** What was kept last, so that nothing is kept twice. */
let keptPlan: Plan | null = null
let timer: ReturnType<typeof setTimeout> | undefined

/** Keeps unsaved work at once; drops what was kept once there is nothing left to lose. */
export async function keepNow(): Promise<void> {
  clearTimeout(timer)
  timer = undefined
  const state = usePlan.getState()
  const id = useProgram.getState().draftId
  const present = state.history?.present ?? null
  if (id === '') return
  if (!isUnsaved(state) || present === null) {
    if (keptPlan === null) return
    keptPlan = null
    await bridge.ask('dropDraft', { id })
    return
  }
  if (present === keptPlan) return
  keptPlan = present
  const name = state.file?.name ?? (present.title || 'Plan')
  await bridge.ask('keepDraft', { id, name, text: writePlan(present), planId: state.file?.id ?? null })
}

function keepSoon(): void {
  timer ??= setTimeout(keepAndTell, KEEP_MS)
}

function keepAndTell(): void {
  keepNow().catch((error: unknown) => {
    keptPlan = null
    tell(`Your work could not be kept: ${error instanceof Error ? error.message : String(error)}`)
    timer ??= setTimeout(keepAndTell, AGAIN_MS)
  })
}

/** Keeps unsaved work from now on, a second after each change and whenever the window is left. */
export function startAutosave(): void {
  let unsaved = false
  let name = ''
  usePlan.subscribe((state) => {
    keepSoon()
    const now = isUnsaved(state)
    const title = state.history?.present.title || 'Thickset'
    if (now === unsaved && title === name) return
    unsaved = now
    name = title
    document.title = `${now ? '• ' : ''}${state.history === null ? 'Thickset' : `${title}, Thickset`}`
    bridge.ask('markUnsaved', { unsaved: now, name: title }).catch(() => undefined)
  })
  addEventListener('blur', keepAndTell)
  addEventListener('pagehide', keepAndTell)
  document.addEventListener('visibilitychange', () => {
    if (document.visibilityState === 'hidden') keepAndTell()
  })
  addEventListener('beforeunload', (event) => {
    if (useProgram.getState().program === 'browser' && isUnsaved(usePlan.getState())) event.preventDefault()
  })
  setInterval(() => bridge.ask('beat', {}).catch(() => undefined), BEAT_MS)
}
