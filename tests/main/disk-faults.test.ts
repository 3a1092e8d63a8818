import { execFileSync } from 'node:child_process'
import { chmod, mkdir, readdir, readFile, rm, stat, utimes, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { afterEach, describe, expect, it, vi } from 'vitest'
import type { Channel, Reply, Request } from '../../src/main/contract.ts'
import { asEnvelope } from '../../src/main/envelope.ts'
import { makeAsk } from '../../src/main/handlers.ts'
import { PlanFiles } from '../../src/main/plan-files.ts'
import { Store } from '../../src/main/store.ts'
import { temporaryFolder } from '../support/temporary-folder.ts'

// Disks that fail while the program saves, keeps or begins: what was there stays as it was, what was typed stays in the
// page, and the person is told in words. Faults come from calls of the file system that fail as they do on a full, a
// read-only or a broken disk; where a real one can be had, it is used too.

interface Broken {
  /** Which call fails from now on, on paths that match, and how. */
  readonly call: 'write' | 'rename' | 'open' | 'readFile'
  readonly path: RegExp
  readonly code: string
}

const broken = vi.hoisted(() => ({ now: [] as { call: string; path: RegExp; code: string }[] }))

vi.mock('node:fs/promises', async (original) => {
  const fs = await original<typeof import('node:fs/promises')>()
  const check = (call: string, path: unknown): void => {
    const fault = broken.now.find((one) => one.call === call && one.path.test(String(path)))
    if (fault !== undefined) throw Object.assign(new Error(`${fault.code}: no`), { code: fault.code })
  }
  return {
    ...fs,
    rename: async (from: string, to: string) => {
      check('rename', to)
      return fs.rename(from, to)
    },
    readFile: async (path: string, ...rest: never[]) => {
      check('readFile', path)
      return fs.readFile(path, ...rest)
    },
    open: async (path: string, ...rest: never[]) => {
      check('open', path)
      const handle = await fs.open(path, ...rest)
      const write = handle.writeFile.bind(handle)
      // A full disk takes the first part.
      handle.writeFile = async (contents) => {
        try {
          check('write', path)
        } catch (error) {
          await write(String(contents).slice(0, 10))
          throw error
        }
        return write(contents)
      }
      return handle
    },
  }
})

const breakDisk = (fault: Broken): void => void broken.now.push(fault)
const mendDisk = (): void => void broken.now.splice(0)
afterEach(mendDisk)

const folder = temporaryFolder()
const plans = (): string => join(folder.path, 'plans')

function program() {
  const store = new Store(join(folder.path, 'state'))
  const ask = makeAsk({
    store,
    files: new PlanFiles(),
    version: '1.2.3',
    platform: 'linux',
    now: Date.now,
    takeOpened: () => undefined,
    shell: {
      program: 'browser',
      plansFolder: plans(),
      plansFolderName: 'Documents/Thickset',
      markUnsaved: () => undefined,
    },
  })
  const sure = <C extends Channel>(channel: C, request: Request<C>): Promise<Reply<C>> =>
    ask(channel, request) as Promise<Reply<C>>
  /** What the person is told where it fails. */
  const told = async <C extends Channel>(channel: C, request: Request<C>): Promise<string> => {
    const envelope = await asEnvelope(() => ask(channel, request))
    return envelope.ok ? 'done' : envelope.message
  }
  return { store, sure, told }
}

type Program = ReturnType<typeof program>
const saved = async ({ sure }: Program, name: string, text: string) => {
  const reply = await sure('savePlanAs', { name, text })
  if (reply.outcome !== 'saved') throw new Error(reply.outcome)
  return reply.plan
}
const lemon = (): Promise<string> => readFile(join(plans(), 'Lemon.thickset'), 'utf8')

const FULL = 'The disk is full. What was there is as it was. Make room, then try again.'
const CLOSED = 'This place can’t be written. What was there is as it was. Choose another place, or change its rights.'

describe.each([
  ['a full disk', { call: 'write', path: /./, code: 'ENOSPC' }, FULL],
  ['a disk over its quota', { call: 'write', path: /./, code: 'EDQUOT' }, FULL],
  ['a read-only disk', { call: 'open', path: /\.tmp$/, code: 'EROFS' }, CLOSED],
  ['a folder without the right to write', { call: 'open', path: /\.tmp$/, code: 'EACCES' }, CLOSED],
  ['a disk that fails', { call: 'write', path: /./, code: 'EIO' }, /^The disk could not be read or written\./],
] as const)('%s', (_what, fault, message) => {
  it('leaves the old plan, no litter, and says what to do; later the same work is saved', async () => {
    const one = program()
    const { id } = await saved(one, 'Lemon', 'old')
    breakDisk(fault)
    expect(await one.told('savePlan', { id, text: 'new and longer than ten' })).toMatch(message)
    expect(await lemon()).toBe('old')
    expect(await readdir(plans())).toEqual(['Lemon.thickset'])
    mendDisk()
    expect(await one.sure('savePlan', { id, text: 'new' })).toMatchObject({ outcome: 'saved' })
    expect(await lemon()).toBe('new')
  })

  it('keeps the draft that was kept before, and the next one once there is room', async () => {
    const one = program()
    const { draftId } = await one.sure('ready', {})
    const keep = (text: string) => ({ id: draftId, name: 'Lemon', text, planId: null })
    await one.sure('keepDraft', keep('first'))
    breakDisk(fault)
    expect(await one.told('keepDraft', keep('second'))).toMatch(message)
    expect((await one.store.readDraft(draftId)).text).toBe('first')
    mendDisk()
    await one.sure('keepDraft', keep('third'))
    expect((await one.store.readDraft(draftId)).text).toBe('third')
    await one.store.close()
  })
})

describe('a folder of settings that fails', () => {
  const state = /state/

  it('does not make a saved plan look unsaved, nor an opened one unopened', async () => {
    const one = program()
    breakDisk({ call: 'open', path: state, code: 'EROFS' })
    const { id } = await saved(one, 'Lemon', 'text')
    expect(await lemon()).toBe('text')
    expect(await one.sure('openPlan', { id })).toMatchObject({ outcome: 'opened', plan: { text: 'text' } })
  })

  it.each(['EACCES', 'EIO', 'EISDIR'])('is begun without (%s), and that is said', async (code) => {
    await mkdir(join(folder.path, 'state'))
    await writeFile(join(folder.path, 'state', 'settings.json'), '{"temperature": "F"}')
    breakDisk({ call: 'readFile', path: /settings\.json$/, code })
    breakDisk({ call: 'rename', path: /settings\.json/, code: 'EROFS' })
    const { settings, notices } = await program().sure('ready', {})
    expect(settings.temperature).toBe('C')
    expect(notices).toEqual(['"settings.json" could not be read and could not be set aside either; it stays as it is.'])
    mendDisk()
    expect((await program().sure('ready', {})).settings.temperature).toBe('F')
  })
})

describe('power cut', () => {
  it('between write and rename: the old plan is there, whole, and the program goes on', async () => {
    const one = program()
    const { id } = await saved(one, 'Lemon', 'old')
    const { draftId } = await one.sure('ready', {})
    await one.sure('keepDraft', { id: draftId, name: 'Lemon', text: 'kept', planId: id })
    // What such a cut leaves behind: the new contents beside the old, whole or half, under a name of their own.
    await writeFile(join(plans(), '.Lemon.thickset.0123456789ab.tmp'), 'new')
    await writeFile(join(folder.path, 'state', 'drafts', `.${draftId}.json.0123456789ab.tmp`), '{"name": "hal')
    await writeFile(join(folder.path, 'state', '.settings.json.0123456789ab.tmp'), '')
    await one.store.close()
    const next = program()
    expect((await next.sure('listPlans', {})).plans.map(({ name }) => name)).toEqual(['Lemon'])
    expect(await lemon()).toBe('old')
    const { drafts, notices } = await next.sure('ready', {})
    expect(drafts.map(({ name }) => name)).toEqual(['Lemon'])
    expect(notices).toEqual([])
    expect(await next.sure('readDraft', { id: draftId })).toMatchObject({ text: 'kept', planId: id })
  })
})

describe('a file that others work on', () => {
  it('changed within the same moment is noticed by its contents', async () => {
    const one = program()
    const { id } = await saved(one, 'Lemon', 'mine')
    const path = join(plans(), 'Lemon.thickset')
    const { atime, mtime } = await stat(path)
    await writeFile(path, 'them')
    await utimes(path, atime, mtime)
    expect(await one.sure('savePlan', { id, text: 'mine 2' })).toEqual({ outcome: 'changed-elsewhere', name: 'Lemon' })
    expect(await lemon()).toBe('them')
    expect(await one.sure('savePlan', { id, text: 'mine 2', replace: true })).toMatchObject({ outcome: 'saved' })
  })

  it('deleted, or gone with its disk, is not made anew unasked', async () => {
    const one = program()
    const { id } = await saved(one, 'Lemon', 'mine')
    await rm(plans(), { recursive: true })
    expect(await one.sure('savePlan', { id, text: 'mine 2' })).toEqual({ outcome: 'gone', name: 'Lemon' })
    expect(await readdir(folder.path)).toEqual(['state'])
    expect(await one.sure('savePlan', { id, text: 'mine 2', replace: true })).toMatchObject({ outcome: 'saved' })
    expect(await lemon()).toBe('mine 2')
  })

  it('replaced by a folder is refused, and the folder stays', async () => {
    const one = program()
    const { id } = await saved(one, 'Lemon', 'mine')
    await rm(join(plans(), 'Lemon.thickset'))
    await mkdir(join(plans(), 'Lemon.thickset', 'inside'), { recursive: true })
    expect(await one.sure('savePlan', { id, text: 'mine 2' })).toEqual({ outcome: 'gone', name: 'Lemon' })
    expect(await one.told('savePlan', { id, text: 'mine 2', replace: true })).not.toBe('done')
    expect(await readdir(join(plans(), 'Lemon.thickset'))).toEqual(['inside'])
  })

  it('by two programs: the second to save is asked', async () => {
    const [one, other] = [program(), program()]
    const { id } = await saved(one, 'Lemon', 'first')
    await other.sure('listPlans', {})
    const opened = await other.sure('openPlan', { id })
    expect(opened).toMatchObject({ outcome: 'opened' })
    expect(await other.sure('savePlan', { id, text: 'theirs' })).toMatchObject({ outcome: 'saved' })
    expect(await one.sure('savePlan', { id, text: 'mine' })).toEqual({ outcome: 'changed-elsewhere', name: 'Lemon' })
    expect(await lemon()).toBe('theirs')
  })

  it('by two pages of one program: the second to save is asked', async () => {
    const one = program()
    const { id, changedAt_ms } = await saved(one, 'Lemon', 'first')
    const past = new Date(changedAt_ms - 5000)
    await utimes(join(plans(), 'Lemon.thickset'), past, past)
    const both = await one.sure('openPlan', { id })
    const knownAt_ms = both.outcome === 'opened' ? both.plan.changedAt_ms : 0
    const first = await one.sure('savePlan', { id, text: 'of the first page', knownAt_ms })
    expect(first).toMatchObject({ outcome: 'saved' })
    const second = await one.sure('savePlan', { id, text: 'of the second page', knownAt_ms })
    expect(second).toEqual({ outcome: 'changed-elsewhere', name: 'Lemon' })
    expect(await lemon()).toBe('of the first page')
    const again = first.outcome === 'saved' ? first.plan.changedAt_ms : 0
    expect(await one.sure('savePlan', { id, text: 'again', knownAt_ms: again })).toMatchObject({ outcome: 'saved' })
  })
})

describe('a clock that is set', () => {
  it('back or forward changes neither which work is kept nor which plan came last', async () => {
    const store = new Store(join(folder.path, 'state'))
    const draft = (text: string, keptAt_ms: number) => ({ name: 'Lemon', text, file: null, keptAt_ms })
    const id = store.beginDraft()
    for (const [text, at] of [
      ['first', 5e12],
      ['second', 1e3],
      ['third', 9e12],
      ['fourth', 0],
    ] as const)
      await store.keepDraft(id, draft(text, at))
    expect((await store.readDraft(id)).text).toBe('fourth')
    await store.addRecent('/plans/one', 9e12)
    await store.addRecent('/plans/two', 1e3)
    expect((await store.readRecents()).map(({ path }) => path)).toEqual(['/plans/two', '/plans/one'])
    await store.close()
  })

  it('does not hide unsaved work behind a mark of the future', async () => {
    const drafts = join(folder.path, 'state', 'drafts')
    await mkdir(drafts, { recursive: true })
    const kept = { name: 'Lemon', text: '{}', file: null, keptAt_ms: 1 }
    await writeFile(join(drafts, 'abc-1.json'), JSON.stringify(kept))
    // The number of a process that lives, as it may have been given out again.
    await writeFile(join(drafts, 'abc.run'), String(process.ppid))
    const future = new Date(Date.now() + 7_200_000)
    await utimes(join(drafts, 'abc.run'), future, future)
    expect((await new Store(join(folder.path, 'state')).listDrafts()).map(({ id }) => id)).toEqual(['abc-1'])
  })

  it('or a sleep: a program that wakes marks its work again, though another took the mark for an old one', async () => {
    vi.useFakeTimers({ toFake: ['setInterval', 'clearInterval'] })
    try {
      const asleep = new Store(join(folder.path, 'state'))
      const id = asleep.beginDraft()
      await asleep.keepDraft(id, { name: 'Lemon', text: '{}', file: null, keptAt_ms: 1 })
      const drafts = join(folder.path, 'state', 'drafts')
      await rm(join(drafts, `${id.split('-')[0]}.run`))
      await vi.advanceTimersByTimeAsync(20_000)
      await vi.waitFor(async () => expect(await readdir(drafts)).toContain(`${id.split('-')[0]}.run`))
      expect(await new Store(join(folder.path, 'state')).listDrafts()).toEqual([])
      await asleep.close()
    } finally {
      vi.useRealTimers()
    }
  })
})

/** A real disk of 64 kB, where the system lets us make one. */
function smallDisk(): string | undefined {
  if (process.platform !== 'linux' || process.getuid?.() !== 0) return undefined
  const path = join(folder.path, 'disk')
  try {
    execFileSync('mkdir', ['-p', path])
    execFileSync('mount', ['-t', 'tmpfs', '-o', 'size=64k', 'tmpfs', path], { stdio: 'ignore' })
    return path
  } catch {
    return undefined
  }
}

describe('a real disk', () => {
  it('that is full keeps the old plan', async ({ skip }) => {
    const disk = smallDisk()
    skip(disk === undefined, 'a small disk can be made by root on Linux only')
    if (disk === undefined) return
    try {
      const files = new PlanFiles()
      const path = join(disk, 'Lemon.thickset')
      await files.save(path, 'old')
      const failed = await asEnvelope(() => files.save(path, 'x'.repeat(200_000)))
      expect(failed).toEqual({ ok: false, message: FULL })
      expect(await readFile(path, 'utf8')).toBe('old')
      expect(await readdir(disk)).toEqual(['Lemon.thickset'])
    } finally {
      execFileSync('umount', [disk])
    }
  })

  it('whose folder may not be written keeps the old plan', async ({ skip }) => {
    skip(process.platform === 'win32' || process.getuid?.() === 0, 'root may write anywhere, Windows has other rights')
    const one = program()
    const { id } = await saved(one, 'Lemon', 'old')
    await chmod(plans(), 0o500)
    try {
      expect(await one.told('savePlan', { id, text: 'new' })).toBe(CLOSED)
      expect(await lemon()).toBe('old')
    } finally {
      await chmod(plans(), 0o700)
    }
  })
})
