import { createHash } from 'node:crypto'
import { access, readdir, stat } from 'node:fs/promises'
import { join } from 'node:path'
import { readTextFile, replaceFile } from './atomic-file.ts'
import { type ListedPlan, type OpenedPlan, PLAN_BYTES } from './contract.ts'
import { PLAN_ENDING, planName, safeFileName } from './file-name.ts'
import { Refusal } from './refusal.ts'

/** Plans of a folder that are listed; the newest. */
const MOST_LISTED = 500

/** A file as this program last read or wrote it. */
interface Known {
  readonly changedAt_ms: number
  /** Of its contents; absent where only an earlier run knew them. */
  readonly digest?: string
}

const digestOf = (text: string): string => createHash('sha256').update(text).digest('base64url')

/**
 * Plan files by id. An id stands for a path that the person chose or that lies in the plans folder; a path that was
 * never shown to the person has none, so the page can't reach it.
 */
export class PlanFiles {
  readonly #paths = new Map<string, string>()
  /** Each file as this program knows it, to notice when another one wrote it. */
  readonly #known = new Map<string, Known>()

  /** The id of a path; the same in every run. */
  idOf(path: string): string {
    const id = createHash('sha256').update(path).digest('base64url').slice(0, 22)
    this.#paths.set(id, path)
    return id
  }

  pathOf(id: string): string {
    const path = this.#paths.get(id)
    if (path === undefined) throw new Refusal('This plan is not known here any more; open it again.')
    return path
  }

  /** Last change of the file as this program knows it; null if it was neither opened nor saved here. */
  knownChange_ms(path: string): number | null {
    return this.#known.get(path)?.changedAt_ms ?? null
  }

  /** Takes over what an earlier run knew of a file. */
  rememberChange(path: string, changedAt_ms: number): void {
    this.#known.set(path, { changedAt_ms })
  }

  async open(path: string): Promise<OpenedPlan> {
    const { text, changedAt_ms } = await readTextFile(path, PLAN_BYTES)
    this.#known.set(path, { changedAt_ms, digest: digestOf(text) })
    return { id: this.idOf(path), name: planName(path), text, changedAt_ms }
  }

  /** What is there now, or undefined if the file is gone. */
  async look(path: string): Promise<ListedPlan | undefined> {
    const found = await stat(path).catch(() => undefined)
    if (found === undefined || !found.isFile()) return undefined
    return { id: this.idOf(path), name: planName(path), changedAt_ms: Math.round(found.mtimeMs) }
  }

  /**
   * What became of a file since it was opened or saved: moments can be equal by chance, so contents count too.
   * @param knownAt_ms  its last change as the asking page knows it; as this program does where left out
   */
  async whatBecame(path: string, knownAt_ms?: number): Promise<'same' | 'changed-elsewhere' | 'gone'> {
    const now = await this.look(path)
    const known = this.#known.get(path)
    const last_ms = knownAt_ms ?? known?.changedAt_ms
    if (last_ms === undefined) return 'same'
    if (now === undefined) return 'gone'
    if (now.changedAt_ms !== last_ms) return 'changed-elsewhere'
    if (known?.digest === undefined || known.changedAt_ms !== last_ms) return 'same'
    const digest = await readTextFile(path, PLAN_BYTES).then(
      ({ text }) => digestOf(text),
      () => undefined,
    )
    return digest === known.digest ? 'same' : 'changed-elsewhere'
  }

  async save(path: string, text: string): Promise<ListedPlan> {
    if (Buffer.byteLength(text) > PLAN_BYTES) throw new Refusal('This plan is larger than 5 MB: it can’t be saved.')
    await replaceFile(path, text)
    const saved = await this.look(path)
    if (saved === undefined) throw new Refusal(`"${planName(path)}" was saved, but is not there any more.`)
    this.#known.set(path, { changedAt_ms: saved.changedAt_ms, digest: digestOf(asRead(text)) })
    return saved
  }

  /** Plans of a folder, newest first. */
  async list(folder: string): Promise<ListedPlan[]> {
    const files = await readdir(folder).catch(() => [])
    const plans = await Promise.all(
      files
        .filter((file) => file.toLowerCase().endsWith(PLAN_ENDING) && !file.startsWith('.'))
        .map((file) => this.look(join(folder, file))),
    )
    return plans
      .filter((plan) => plan !== undefined)
      .sort((a, b) => b.changedAt_ms - a.changedAt_ms)
      .slice(0, MOST_LISTED)
  }
}

/** A text as it comes back from its file: without mark at the front, and without halves of letters. */
const asRead = (text: string): string => new TextDecoder().decode(Buffer.from(text))

/** A safe name for what was asked, which may have the ending already. */
function safeStem(name: string, ending: string): string {
  return safeFileName(name.toLowerCase().endsWith(ending) ? name.slice(0, -ending.length) : name)
}

/** Path in a folder for a name as asked, made safe. */
export function placeIn(folder: string, name: string, ending: string): string {
  return join(folder, safeStem(name, ending) + ending)
}

/** Like `placeIn`, but with a number behind the name where a file of that name is there. */
export async function freePlaceIn(folder: string, name: string, ending: string): Promise<string> {
  const safe = safeStem(name, ending)
  for (let count = 1; ; count++) {
    const path = join(folder, count === 1 ? safe + ending : `${safe} ${count}${ending}`)
    const taken = await access(path).then(
      () => true,
      () => false,
    )
    if (!taken) return path
  }
}
