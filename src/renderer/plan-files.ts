import { sayFault } from '../core/errors.ts'
import type { Message } from '../core/messages.ts'
import type { Plan } from '../core/plan/schema/plan.ts'
import { writePlan } from '../core/plan/write.ts'
import { say } from '../core/words/sentences.ts'
import { metric } from '../core/words/show.ts'
import type { OpenedPlan, Reply } from '../main/contract.ts'
import { keepNow } from './autosave.ts'
import { BridgeError, bridge } from './bridge.ts'
import { newPlan } from './new-plan.ts'
import { askPerson, tell } from './notices.ts'
import { isUnsaved, type PlanFile, usePlan } from './plan-store.ts'
import { readText } from './plan-text.ts'
import { useProgram } from './program.ts'
import { useView } from './view-store.ts'

/** What was read from a file, a drop or a draft. */
type ReadFile = Pick<OpenedPlan, 'name' | 'text'> &
  Partial<Pick<OpenedPlan, 'changedAt_ms'>> & { readonly id: string | null }

const MOST_TOLD = 12

/** Does something with files; what the program refuses is told to the person, never thrown away. */
export async function withTelling(work: () => Promise<void>): Promise<void> {
  try {
    await work()
  } catch (error) {
    const reason = error instanceof BridgeError ? error.message : `That did not work: ${String(error)}`
    await askPerson({ title: 'Not done', lines: [reason], answers: [{ id: 'ok', label: 'All right' }] })
  }
}

/** Shows a plan in the place of the present one. */
function begin(plan: Plan, file: PlanFile | null, unsaved = false, notes: readonly Message[] = []): void {
  usePlan.getState().begin(plan, file, unsaved)
  useView.getState().forget()
  tell([`${plan.title || 'Plan'} opened`, ...notes.map((note) => say(note, metric))].join('; '))
}

/** Reads a file's text and shows the plan once the present one may go, or says everything that is wrong with the text. */
async function beginText(read: ReadFile, unsaved: boolean): Promise<boolean> {
  const got = readText(read.text)
  if (got.ok) {
    if (!(await mayLeave())) return false
    const { id, name, changedAt_ms } = read
    const file = { id, name, ...(changedAt_ms === undefined ? {} : { changedAt_ms }) }
    begin(got.plan, id === null && !unsaved ? null : file, unsaved, got.notes)
    return true
  }
  const told = got.faults.slice(0, MOST_TOLD).map(sayFault)
  const more = got.faults.length - told.length
  await askPerson({
    title: `“${read.name}” can’t be opened`,
    lines: [...told, ...(more > 0 ? [`and ${more} more`] : [])],
    answers: [{ id: 'ok', label: 'All right' }],
  })
  return false
}

/** True when the present plan may go: it is saved, or the person gave it up. */
export async function mayLeave(): Promise<boolean> {
  const state = usePlan.getState()
  if (!isUnsaved(state)) return true
  const answer = await askPerson({
    title: `Save “${state.history?.present.title ?? ''}” first?`,
    lines: ['What you changed since it was last saved would be lost.'],
    answers: [
      { id: 'save', label: 'Save' },
      { id: 'drop', label: 'Don’t save', danger: true },
      { id: 'stay', label: 'Cancel' },
    ],
  })
  if (answer?.id === 'save') return savePlan()
  return answer?.id === 'drop'
}

export const startNew = (): Promise<void> =>
  withTelling(async () => {
    if (await mayLeave()) begin(newPlan(new Date()), null)
  })

export const openExample = (id: string): Promise<void> =>
  withTelling(async () => {
    const { title, text } = await bridge.ask('readExample', { id })
    await beginText({ id: null, name: title, text }, false)
  })

/** Opens the plan of this id, or asks which. */
export const openPlan = (id?: string): Promise<void> =>
  withTelling(async () => {
    const wanted = id ?? (useProgram.getState().program === 'browser' ? await choosePlan() : '')
    if (wanted === null) return
    const opened = await bridge.ask('openPlan', wanted === '' ? {} : { id: wanted })
    if (opened.outcome === 'opened') await beginText(opened.plan, false)
  })

async function choosePlan(): Promise<string | null> {
  const { plans } = await bridge.ask('listPlans', {})
  const folder = useProgram.getState().plansFolder
  const answer = await askPerson({
    title: 'Open a plan',
    lines: [
      plans.length > 0 ? `Plans in ${folder}. Others can be dropped into the window.` : `No plans in ${folder} yet.`,
    ],
    choices: plans.map(({ id, name, changedAt_ms }) => ({ id, label: name, hint: dayOf(changedAt_ms) })),
    answers: [{ id: 'cancel', label: 'Cancel' }],
  })
  return answer === null || answer.id === 'cancel' ? null : answer.id
}

/** The day of a moment, for lists of files. */
export const dayOf = (moment_ms: number): string =>
  new Date(moment_ms).toLocaleDateString('en-GB', { weekday: 'short', day: 'numeric', month: 'short' })

/** A plan that was opened from outside, or dropped into the window. */
export const openRead = (read: ReadFile): Promise<void> =>
  withTelling(async () => {
    await beginText(read, read.id === null)
  })

export const openDropped = (file: File): Promise<void> =>
  withTelling(async () => {
    await openRead(await bridge.openFile(file))
  })

/** Work of an earlier start that was never saved; it stays a draft until it is saved. */
export const openDraft = (id: string): Promise<void> =>
  withTelling(async () => {
    const { name, text, planId } = await bridge.ask('readDraft', { id })
    if (!(await beginText({ id: planId, name, text }, true))) return
    await keepNow()
    await putAway(id)
  })

export const putAwayDraft = (id: string): Promise<void> => withTelling(() => putAway(id))

async function putAway(id: string): Promise<void> {
  await bridge.ask('putAwayDraft', { id })
  useProgram.setState(({ drafts }) => ({ drafts: drafts.filter((draft) => draft.id !== id) }))
}

/** Saves under the plan's file, or asks for one. False when nothing was saved. */
export async function savePlan(): Promise<boolean> {
  const { history, file } = usePlan.getState()
  if (history === null) return false
  const id = file?.id ?? null
  if (id === null) return savePlanAs()
  const text = writePlan(history.present)
  const known = file?.changedAt_ms === undefined ? {} : { knownAt_ms: file.changedAt_ms }
  return save(history.present, (replace) => bridge.ask('savePlan', { id, text, ...known, ...replace }))
}

/** Saves under another name. False when nothing was saved. */
export async function savePlanAs(): Promise<boolean> {
  const { history, file } = usePlan.getState()
  if (history === null) return false
  const name = await nameFor(file?.name ?? history.present.title)
  if (name === null) return false
  const text = writePlan(history.present)
  return save(history.present, (replace) => bridge.ask('savePlanAs', { name, text, ...replace }))
}

/** The own window asks by its dialog; here a name is asked for. */
async function nameFor(suggested: string): Promise<string | null> {
  const name = suggested.trim() === '' ? 'Plan' : suggested.trim()
  const { program, plansFolder } = useProgram.getState()
  if (program === 'window') return name
  const answer = await askPerson({
    title: 'Save the plan',
    lines: [`It goes to ${plansFolder}.`],
    name: { label: 'Name', value: name },
    answers: [
      { id: 'save', label: 'Save' },
      { id: 'cancel', label: 'Cancel' },
    ],
  })
  return answer?.id === 'save' && answer.name.trim() !== '' ? answer.name.trim() : null
}

type Saving = Reply<'savePlan'>

/** What is asked before something is written over, or again. */
const questions = {
  'changed-elsewhere': {
    title: (name: string) => `“${name}” was changed elsewhere`,
    line: 'Saving would write over what was changed there.',
    replace: 'Write over it',
  },
  'name-taken': {
    title: (name: string) => `There is a plan “${name}” already`,
    line: 'Saving would write over it.',
    replace: 'Write over it',
  },
  gone: {
    title: (name: string) => `“${name}” is not there any more`,
    line: 'It was moved, renamed or deleted since it was opened here.',
    replace: 'Save it there again',
  },
} as const

async function save(plan: Plan, write: (replace: { replace?: true }) => Promise<Saving>): Promise<boolean> {
  let done = await write({})
  if (done.outcome !== 'saved' && done.outcome !== 'cancelled') {
    const { title, line, replace } = questions[done.outcome]
    const answer = await askPerson({
      title: title(done.name),
      lines: [line],
      answers: [
        { id: 'other', label: 'Save under another name' },
        { id: 'replace', label: replace, danger: done.outcome !== 'gone' },
        { id: 'cancel', label: 'Cancel' },
      ],
    })
    if (answer?.id === 'other') return savePlanAs()
    if (answer?.id !== 'replace') return false
    done = await write({ replace: true })
  }
  if (done.outcome !== 'saved') return false
  usePlan.getState().saved(plan, done.plan)
  tell(`Saved as ${done.plan.name}`)
  return true
}

/** Back to the empty page. */
export const closePlan = (): Promise<void> =>
  withTelling(async () => {
    if (!(await mayLeave())) return
    usePlan.getState().close()
    useView.getState().forget()
  })
