import { basename, join } from 'node:path'
import { z } from 'zod'
import { replaceFile } from './atomic-file.ts'
import { type Channel, contract, EXPORT_BYTES, type ListedPlan, type OpenedPlan, type Reply } from './contract.ts'
import { listExamples, readExample } from './examples.ts'
import { PLAN_ENDING, planName } from './file-name.ts'
import { freePlaceIn, type PlanFiles, placeIn } from './plan-files.ts'
import { Refusal } from './refusal.ts'
import type { Store } from './store.ts'

/** A program window of its own: dialogs, printing, closing. */
export interface WindowShell {
  readonly program: 'window'
  /** Path that the person chose, or null. */
  choosePlan(): Promise<string | null>
  /** Path that the person chose for a new file of this name, ending included, or null. */
  choosePlace(name: string, ending: string): Promise<string | null>
  print(): Promise<void>
  markUnsaved(unsaved: boolean, name: string): void
  noteRecent(path: string): void
  leave(): void
}

/** A page in a browser: plans and exports lie in one folder. */
export interface FolderShell {
  readonly program: 'browser'
  readonly plansFolder: string
  /** The same folder in words, for the eye. */
  readonly plansFolderName: string
  markUnsaved(unsaved: boolean, name: string): void
}

export type Shell = WindowShell | FolderShell

/** What the calls work on. */
export interface Desk {
  readonly shell: Shell
  readonly store: Store
  readonly files: PlanFiles
  readonly version: string
  readonly platform: NodeJS.Platform
  /** Path of the plan that the program was started with; taken once. */
  takeOpened(): string | undefined
  now(): number
}

type Handlers = { readonly [C in Channel]: (request: z.output<(typeof contract)[C]['request']>) => Promise<Reply<C>> }

/** The only door to the program: checks the channel and the request, does it, checks the reply. */
export type Ask = (channel: string, request: unknown) => Promise<unknown>

export function makeAsk(desk: Desk): Ask {
  const handlers: Handlers = { ...planHandlers(desk), ...keepingHandlers(desk), ...givingHandlers(desk) }
  return async (channel, request) => {
    if (!isChannel(channel)) throw new Refusal('There is no such call.')
    const asked = contract[channel].request.safeParse(request)
    if (!asked.success) throw new Refusal(`"${channel}" was asked wrongly: ${z.prettifyError(asked.error)}`)
    const handle = handlers[channel] as (request: unknown) => Promise<unknown>
    return contract[channel].reply.parse(await handle(asked.data))
  }
}

function isChannel(channel: string): channel is Channel {
  return Object.hasOwn(contract, channel)
}

/** Opens a plan for the page and remembers it as the latest. */
export async function openAt(desk: Desk, path: string): Promise<OpenedPlan> {
  const plan = await desk.files.open(path)
  await noteRecent(desk, path)
  return plan
}

async function saveAt(desk: Desk, path: string, text: string): Promise<{ outcome: 'saved'; plan: ListedPlan }> {
  const plan = await desk.files.save(path, text)
  await noteRecent(desk, path)
  return { outcome: 'saved', plan }
}

async function noteRecent(desk: Desk, path: string): Promise<void> {
  // The plan is opened or saved by now: a list that can't be written must not make that look like a failure.
  await desk.store.addRecent(path, desk.now()).catch(() => undefined)
  if (desk.shell.program === 'window') desk.shell.noteRecent(path)
}

type Some<C extends Channel> = Pick<Handlers, C>

function planHandlers(
  desk: Desk,
): Some<
  'listPlans' | 'openPlan' | 'savePlan' | 'savePlanAs' | 'listRecents' | 'forgetRecent' | 'listExamples' | 'readExample'
> {
  const { shell, store, files } = desk
  return {
    listPlans: async () => ({ plans: shell.program === 'browser' ? await files.list(shell.plansFolder) : [] }),

    openPlan: async ({ id }) => {
      if (id !== undefined) return { outcome: 'opened', plan: await openAt(desk, files.pathOf(id)) }
      if (shell.program === 'browser') throw new Refusal('Choose a plan of the list.')
      const path = await shell.choosePlan()
      return path === null ? { outcome: 'cancelled' } : { outcome: 'opened', plan: await openAt(desk, path) }
    },

    savePlan: async ({ id, text, knownAt_ms, replace }) => {
      const path = files.pathOf(id)
      const became = replace === true ? 'same' : await files.whatBecame(path, knownAt_ms)
      return became === 'same' ? saveAt(desk, path, text) : { outcome: became, name: planName(path) }
    },

    savePlanAs: async ({ name, text, replace }) => {
      if (shell.program === 'window') {
        const path = await shell.choosePlace(name, PLAN_ENDING)
        return path === null ? { outcome: 'cancelled' } : saveAt(desk, path, text)
      }
      const path = placeIn(shell.plansFolder, name, PLAN_ENDING)
      if (replace !== true && (await files.look(path)) !== undefined) {
        return { outcome: 'name-taken', name: planName(path) }
      }
      return saveAt(desk, path, text)
    },

    listRecents: async () => {
      const found = await Promise.all((await store.readRecents()).map(({ path }) => files.look(path)))
      return { plans: found.filter((plan) => plan !== undefined) }
    },

    forgetRecent: async ({ id }) => {
      await store.forgetRecent(files.pathOf(id))
      return {}
    },

    listExamples: async () => ({ examples: listExamples().map(({ id, title }) => ({ id, title })) }),

    readExample: async ({ id }) => {
      const { title, text } = readExample(id)
      return { title, text }
    },
  }
}

function keepingHandlers(
  desk: Desk,
): Some<
  | 'ready'
  | 'beat'
  | 'keepDraft'
  | 'dropDraft'
  | 'readDraft'
  | 'putAwayDraft'
  | 'readSettings'
  | 'writeSettings'
  | 'readMeasured'
  | 'keepMeasured'
  | 'forgetMeasured'
> {
  const { shell, store, files } = desk
  const openedAtStart = async (notices: string[]): Promise<OpenedPlan | null> => {
    const path = desk.takeOpened()
    if (path === undefined) return null
    try {
      return await openAt(desk, path)
    } catch (error) {
      if (!(error instanceof Refusal)) throw error
      notices.push(error.message)
      return null
    }
  }
  return {
    ready: async () => {
      const notices: string[] = []
      const opened = await openedAtStart(notices)
      const settings = await store.readSettings()
      const drafts = await store.listDrafts()
      return {
        program: shell.program,
        version: desk.version,
        keys: desk.platform === 'darwin' ? 'mac' : 'other',
        settings,
        draftId: store.beginDraft(),
        drafts: drafts.map(({ id, draft }) => ({ id, name: draft.name, keptAt_ms: draft.keptAt_ms })),
        opened,
        plansFolder: shell.program === 'browser' ? shell.plansFolderName : '',
        notices: [...notices, ...store.takeNotices()],
      }
    },

    beat: async () => ({}),

    keepDraft: async ({ id, name, text, planId }) => {
      const path = planId === null ? null : files.pathOf(planId)
      const file = path === null ? null : { path, changedAt_ms: files.knownChange_ms(path) }
      await store.keepDraft(id, { name, text, file, keptAt_ms: desk.now() })
      return {}
    },

    dropDraft: async ({ id }) => {
      await store.dropDraft(id)
      return {}
    },

    readDraft: async ({ id }) => {
      const { name, text, file, keptAt_ms } = await store.readDraft(id)
      const plan = file === null ? undefined : await files.look(file.path)
      if (plan !== undefined && file !== null && file.changedAt_ms !== null) {
        files.rememberChange(file.path, file.changedAt_ms)
      }
      return { name, text, planId: plan?.id ?? null, keptAt_ms }
    },

    putAwayDraft: async ({ id }) => {
      await store.putAwayDraft(id)
      return {}
    },

    readSettings: async () => ({ settings: await store.readSettings() }),

    writeSettings: async ({ settings }) => {
      await store.writeSettings(settings)
      return {}
    },

    readMeasured: async () => ({ kept: await store.readMeasured() }),
    keepMeasured: async ({ kept }) => ({ kept: await store.keepMeasured(kept) }),
    forgetMeasured: async ({ kept }) => ({ kept: await store.forgetMeasured(kept) }),
  }
}

function givingHandlers(desk: Desk): Some<'exportFile' | 'print' | 'saveSheet' | 'markUnsaved' | 'leave'> {
  const { shell } = desk
  const own = (): WindowShell => {
    if (shell.program === 'window') return shell
    throw new Refusal('In a browser the page does this by itself.')
  }
  const give = async (name: string, ending: string, bytes: Uint8Array): Promise<Reply<'exportFile'>> => {
    if (bytes.byteLength > EXPORT_BYTES) throw new Refusal('This file is larger than 15 MB: it can’t be exported.')
    const folder = shell.program === 'browser' ? join(shell.plansFolder, 'Exports') : ''
    const path =
      shell.program === 'browser' ? await freePlaceIn(folder, name, ending) : await shell.choosePlace(name, ending)
    if (path === null) return { outcome: 'cancelled' }
    await replaceFile(path, bytes)
    const folderName = shell.program === 'browser' ? `${shell.plansFolderName}/Exports` : ''
    return { outcome: 'saved', name: basename(path), folder: folderName }
  }
  return {
    exportFile: async ({ name, ending, encoding, data }) => give(name, `.${ending}`, Buffer.from(data, encoding)),

    print: async () => {
      await own().print()
      return {}
    },

    saveSheet: async ({ name, page, paper }) => {
      // Loaded when it is wanted: it brings letters and what lays them.
      const { pagePdf } = await import('./sheet/pdf.ts')
      return give(name, '.pdf', await pagePdf(page, paper))
    },

    markUnsaved: async ({ unsaved, name }) => {
      shell.markUnsaved(unsaved, name)
      return {}
    },

    leave: async () => {
      own().leave()
      return {}
    },
  }
}
