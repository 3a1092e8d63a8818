import { randomBytes } from 'node:crypto'
import { mkdir, readdir, readFile, rename, rm, stat, utimes, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { z } from 'zod'
import { joinKept, type Kept, nothingKept, withoutKept } from '../core/fitting/kept.ts'
import { keptSchema } from '../core/plan/kept-schema.ts'
import { codeOf, replaceFile } from './atomic-file.ts'
import { type Settings, settingsSchema } from './contract.ts'
import { Refusal } from './refusal.ts'

/** How many put-away drafts, and broken files of one kind, stay on disk. */
const KEPT = 5
const MOST_RECENTS = 12
/** A running program renews its mark this often; an older mark, or one of a process that is gone, counts as ended. */
const MARK_EVERY_MS = 20_000

const recentsSchema = z.strictObject({
  recents: z.array(z.strictObject({ path: z.string(), openedAt_ms: z.number() })),
})
const draftSchema = z.strictObject({
  name: z.string(),
  text: z.string(),
  /** The file that the work belongs to, and its last change as this program knew it; null for work never saved. */
  file: z.strictObject({ path: z.string(), changedAt_ms: z.number().nullable() }).nullable(),
  keptAt_ms: z.number(),
})
export type Draft = z.output<typeof draftSchema>
export type Recent = z.output<typeof recentsSchema>['recents'][number]

/**
 * The program's own folder: settings, what was measured, recent plans, and unsaved work. Several programs may share it at once: each keeps
 * its draft under a name of its own, and drafts of a running program are not offered to another.
 */
export class Store {
  readonly #folder: string
  readonly #drafts: string
  readonly #putAway: string
  /** Begins the names of this run's drafts. */
  readonly #run = randomBytes(9).toString('base64url').replace(/[-_]/g, 'x')
  readonly #notices: string[] = []
  #begun = 0
  #marking: NodeJS.Timeout | undefined
  /** Writes go one after another, so that the last asked is the last done. */
  #queue: Promise<unknown> = Promise.resolve()

  constructor(folder: string) {
    this.#folder = folder
    this.#drafts = join(folder, 'drafts')
    this.#putAway = join(folder, 'put-away')
  }

  /** What was found broken and set aside so far, in words; told once. */
  takeNotices(): string[] {
    return this.#notices.splice(0)
  }

  async readSettings(): Promise<Settings> {
    return (await this.#readJson('settings.json', settingsSchema)) ?? settingsSchema.parse({})
  }

  async writeSettings(settings: Settings): Promise<void> {
    await this.#inTurn(() => replaceFile(join(this.#folder, 'settings.json'), asText(settings)))
  }

  async readMeasured(): Promise<Kept> {
    return (await this.#readJson('measured.json', keptSchema)) ?? nothingKept
  }

  async keepMeasured(newer: Kept): Promise<Kept> {
    return this.#changeMeasured((older) => joinKept(older, newer))
  }

  async forgetMeasured(gone: Kept): Promise<Kept> {
    return this.#changeMeasured((kept) => withoutKept(kept, gone))
  }

  async #changeMeasured(change: (kept: Kept) => Kept): Promise<Kept> {
    return this.#inTurn(async () => {
      const kept = change(await this.readMeasured())
      await replaceFile(join(this.#folder, 'measured.json'), asText(kept))
      return kept
    })
  }

  async readRecents(): Promise<Recent[]> {
    return (await this.#readJson('recents.json', recentsSchema))?.recents ?? []
  }

  /** Puts a path first among the recent ones. */
  async addRecent(path: string, openedAt_ms: number): Promise<void> {
    await this.#changeRecents((recents) => [{ path, openedAt_ms }, ...recents.filter((old) => old.path !== path)])
  }

  async forgetRecent(path: string): Promise<void> {
    await this.#changeRecents((recents) => recents.filter((old) => old.path !== path))
  }

  async #changeRecents(change: (recents: Recent[]) => Recent[]): Promise<void> {
    await this.#inTurn(async () => {
      const recents = change(await this.readRecents()).slice(0, MOST_RECENTS)
      await replaceFile(join(this.#folder, 'recents.json'), asText({ recents }))
    })
  }

  /** A name for the unsaved work of one page. */
  beginDraft(): string {
    this.#begun++
    return `${this.#run}-${this.#begun}`
  }

  /** Keeps a page's unsaved work, in place of what it kept before. */
  async keepDraft(id: string, draft: Draft): Promise<void> {
    const file = this.#ownDraft(id)
    await this.#inTurn(async () => {
      await this.#mark()
      await replaceFile(file, asText(draft))
    })
  }

  async dropDraft(id: string): Promise<void> {
    const file = this.#ownDraft(id)
    await this.#inTurn(() => rm(file, { force: true }))
  }

  #ownDraft(id: string): string {
    const [run, count] = id.split('-')
    const own = run === this.#run && Number(count) > 0 && Number(count) <= this.#begun
    if (!own) throw new Refusal('This is not the page’s own unsaved work.')
    return join(this.#drafts, `${id}.json`)
  }

  /** Unsaved work of runs that have ended and of this run's pages, newest first. */
  async listDrafts(): Promise<{ readonly id: string; readonly draft: Draft }[]> {
    const found: { id: string; draft: Draft }[] = []
    for (const file of await readdir(this.#drafts).catch(() => [])) {
      const [, id, run] = file.match(/^(([A-Za-z0-9]{1,40})(?:-\d{1,6})?)\.(?:json|run)$/) ?? []
      if (id === undefined || run === undefined) continue
      if (run !== this.#run && (await this.#isRunning(run))) continue
      if (file.endsWith('.run')) continue
      const draft = await this.#readJson(join('drafts', file), draftSchema)
      if (draft !== undefined) found.push({ id, draft })
    }
    return found.sort((a, b) => b.draft.keptAt_ms - a.draft.keptAt_ms)
  }

  async readDraft(id: string): Promise<Draft> {
    const found = (await this.listDrafts()).find((listed) => listed.id === id)
    if (found === undefined) throw new Refusal('This unsaved work is not there any more.')
    return found.draft
  }

  /** Takes a draft out of the list. It stays on disk until a few newer ones have been put away. */
  async putAwayDraft(id: string): Promise<void> {
    await this.readDraft(id)
    await mkdir(this.#putAway, { recursive: true })
    await rename(join(this.#drafts, `${id}.json`), join(this.#putAway, `${stampNow()}-${id}.json`))
    await keepNewest(this.#putAway, /\.json$/)
  }

  /** Takes the mark of this run away; its draft, if any, is then offered at the next start. */
  async close(): Promise<void> {
    clearInterval(this.#marking)
    await this.#queue
    await rm(join(this.#drafts, `${this.#run}.run`), { force: true })
  }

  /** Shows other programs that this run is alive. */
  async #mark(): Promise<void> {
    if (this.#marking !== undefined) return
    const mark = join(this.#drafts, `${this.#run}.run`)
    await mkdir(this.#drafts, { recursive: true })
    await writeFile(mark, String(process.pid))
    const renew = (): void => {
      const now = new Date()
      // A program that began while this one slept may have taken the mark away. One that can't be renewed only means
      // that the draft may be offered twice.
      utimes(mark, now, now)
        .catch(() => writeFile(mark, String(process.pid)))
        .catch(() => undefined)
    }
    this.#marking = setInterval(renew, MARK_EVERY_MS)
    this.#marking.unref()
  }

  async #isRunning(run: string): Promise<boolean> {
    const mark = join(this.#drafts, `${run}.run`)
    const renewed = await stat(mark).catch(() => undefined)
    if (renewed === undefined) return false
    const pid = Number(await readFile(mark, 'utf8').catch(() => ''))
    const there = isProcess(pid)
    if (!there) await rm(mark, { force: true })
    // A clock that was set back makes marks of the future, which say as little as old ones.
    return there && Math.abs(Date.now() - renewed.mtimeMs) < 3 * MARK_EVERY_MS
  }

  /** Contents of one of our files; a broken one is set aside under another name, never deleted, and told of. */
  async #readJson<Schema extends z.ZodType>(file: string, schema: Schema): Promise<z.output<Schema> | undefined> {
    const path = join(this.#folder, file)
    try {
      const parsed = schema.safeParse(parseJson(await readFile(path, 'utf8')))
      if (parsed.success) return parsed.data
    } catch (error) {
      if (codeOf(error) === 'ENOENT') return undefined
    }
    // Whatever is the matter with it, the program begins without.
    const aside = `${file}.broken-${stampNow()}`
    const became = await rename(path, join(this.#folder, aside)).then(
      () => `was set aside as "${aside}"`,
      () => 'could not be set aside either; it stays as it is',
    )
    this.#notices.push(`"${file}" could not be read and ${became}.`)
    return undefined
  }

  #inTurn<T>(work: () => Promise<T>): Promise<T> {
    const turn = this.#queue.then(work)
    this.#queue = turn.catch(() => undefined)
    return turn
  }
}

const asText = (value: unknown): string => `${JSON.stringify(value, null, 2)}\n`

function parseJson(text: string): unknown {
  try {
    return JSON.parse(text)
  } catch {
    return undefined
  }
}

/** Sorts by time as text, and is unique enough within one folder. */
function stampNow(): string {
  return `${new Date().toISOString().replace(/[:.]/g, '-')}-${randomBytes(2).toString('hex')}`
}

function isProcess(pid: number): boolean {
  if (!Number.isInteger(pid) || pid <= 0) return false
  try {
    process.kill(pid, 0)
    return true
  } catch (error) {
    return codeOf(error) === 'EPERM'
  }
}

/** Removes all but the newest few of a folder's files; their names begin with their time. */
async function keepNewest(folder: string, which: RegExp): Promise<void> {
  const files = (await readdir(folder)).filter((file) => which.test(file)).sort()
  for (const file of files.slice(0, -KEPT)) await rm(join(folder, file), { force: true })
}
