import { spawn, spawnSync } from 'node:child_process'
import { mkdir, readdir, readFile, utimes, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { type Kept, nothingKept, readKept } from '../../src/core/fitting/kept.ts'
import { type Draft, Store } from '../../src/main/store.ts'
import { temporaryFolder } from '../support/temporary-folder.ts'

const folder = temporaryFolder()
const draft = (name: string, keptAt_ms = 1): Draft => ({ name, text: `{"of": "${name}"}`, file: null, keptAt_ms })
const names = async (store: Store): Promise<string[]> => (await store.listDrafts()).map((listed) => listed.draft.name)

describe('settings', () => {
  it('are the usual ones at first, and kept', async () => {
    const store = new Store(folder.path)
    const first = await store.readSettings()
    expect(first).toEqual({ temperature: 'C', length: 'mm', mass: 'kg', theme: 'system', paper: 'A4', clock: '24' })
    await store.writeSettings({ ...first, temperature: 'F', theme: 'dark' })
    expect(await new Store(folder.path).readSettings()).toEqual({ ...first, temperature: 'F', theme: 'dark' })
  })

  it('keep what was measured, the newer in place of the older of the same thing, and forget it', async () => {
    const kept = (film_times: number, like = 'chest-freezer'): Kept => ({
      ...nothingKept,
      surroundings: [{ name: `My ${like}`, in: { like, measured: { film_times } } }],
    })
    const store = new Store(folder.path)
    expect(await store.readMeasured()).toEqual(nothingKept)
    const asked = [store.keepMeasured(kept(1.2)), store.keepMeasured(kept(0.9, 'cabinet-fridge'))]
    await Promise.all([...asked, store.keepMeasured(kept(1.3))])
    const now = await new Store(folder.path).readMeasured()
    expect(now.surroundings).toEqual([...kept(0.9, 'cabinet-fridge').surroundings, ...kept(1.3).surroundings])
    // the file is the one that the command line reads and writes
    expect(readKept(JSON.parse(await readFile(join(folder.path, 'measured.json'), 'utf8')))).toEqual(now)
    await store.forgetMeasured(kept(1.3))
    expect((await store.readMeasured()).surroundings).toEqual(kept(0.9, 'cabinet-fridge').surroundings)
  })

  it.each([
    ['half a file', '{"temperature": "'],
    ['another shape', '{"temperature": "K"}'],
    ['nothing', ''],
  ])('set aside a broken file (%s), keep it, and say so once', async (_what, text) => {
    await writeFile(join(folder.path, 'settings.json'), text)
    const store = new Store(folder.path)
    expect((await store.readSettings()).temperature).toBe('C')
    const notices = store.takeNotices()
    expect(notices).toHaveLength(1)
    expect(notices[0]).toMatch(/^"settings.json" could not be read and was set aside as "settings.json.broken-/)
    expect(store.takeNotices()).toEqual([])
    const aside = (await readdir(folder.path)).find((file) => file.startsWith('settings.json.broken-'))
    expect(await readFile(join(folder.path, aside ?? ''), 'utf8')).toBe(text)
  })
})

describe('recent plans', () => {
  it('come latest first, each once, at most twelve', async () => {
    const store = new Store(folder.path)
    for (let n = 0; n < 15; n++) await store.addRecent(`/plans/${n}`, n)
    await store.addRecent('/plans/9', 99)
    const paths = (await new Store(folder.path).readRecents()).map((recent) => recent.path)
    expect(paths).toHaveLength(12)
    expect(paths.slice(0, 3)).toEqual(['/plans/9', '/plans/14', '/plans/13'])
    await store.forgetRecent('/plans/14')
    expect((await store.readRecents()).map((recent) => recent.path)).not.toContain('/plans/14')
  })

  it('lose none when many are added at once', async () => {
    const store = new Store(folder.path)
    await Promise.all(Array.from({ length: 10 }, (_, n) => store.addRecent(`/plans/${n}`, n)))
    expect(await store.readRecents()).toHaveLength(10)
  })
})

describe('unsaved work', () => {
  it('of a run that ended is offered at the next start, newest first', async () => {
    const first = new Store(folder.path)
    await first.keepDraft(first.beginDraft(), draft('one', 1))
    await first.close()
    const second = new Store(folder.path)
    await second.keepDraft(second.beginDraft(), draft('two', 2))
    await second.close()
    const third = new Store(folder.path)
    expect(await names(third)).toEqual(['two', 'one'])
    const [newest] = await third.listDrafts()
    expect(await third.readDraft(newest?.id ?? '')).toEqual(draft('two', 2))
  })

  it('of a page that was loaded again in the same run is offered', async () => {
    const store = new Store(folder.path)
    await store.keepDraft(store.beginDraft(), draft('before the reload'))
    store.beginDraft()
    expect(await names(store)).toEqual(['before the reload'])
    await store.close()
  })

  it('of another program that is running is not offered', async () => {
    const running = new Store(folder.path)
    await running.keepDraft(running.beginDraft(), draft('open elsewhere'))
    expect(await names(new Store(folder.path))).toEqual([])
    await running.close()
    expect(await names(new Store(folder.path))).toEqual(['open elsewhere'])
  })

  it('of a program that was killed is offered at once', async () => {
    const drafts = join(folder.path, 'drafts')
    await mkdir(drafts)
    const gone = spawnSync(process.execPath, ['-e', '']).pid
    await writeFile(join(drafts, 'abc-1.json'), JSON.stringify(draft('killed')))
    await writeFile(join(drafts, 'abc.run'), String(gone))
    expect(await names(new Store(folder.path))).toEqual(['killed'])
    expect(await readdir(drafts)).toEqual(['abc-1.json'])
  })

  it('is offered when the mark is old, though a process of that number lives', async () => {
    const drafts = join(folder.path, 'drafts')
    await mkdir(drafts)
    const other = spawn(process.execPath, ['-e', 'setTimeout(() => {}, 60000)'])
    try {
      await writeFile(join(drafts, 'abc-1.json'), JSON.stringify(draft('old')))
      await writeFile(join(drafts, 'abc.run'), String(other.pid))
      expect(await names(new Store(folder.path))).toEqual([])
      const old = new Date(Date.now() - 120_000)
      await utimes(join(drafts, 'abc.run'), old, old)
      expect(await names(new Store(folder.path))).toEqual(['old'])
    } finally {
      other.kill()
    }
  })

  it('is replaced by newer work of the same page and dropped when saved', async () => {
    const store = new Store(folder.path)
    const id = store.beginDraft()
    await Promise.all([store.keepDraft(id, draft('first')), store.keepDraft(id, draft('second'))])
    await store.close()
    expect(await names(new Store(folder.path))).toEqual(['second'])
    await store.dropDraft(id)
    expect(await names(new Store(folder.path))).toEqual([])
  })

  it('that is broken is set aside, not offered and not deleted', async () => {
    const drafts = join(folder.path, 'drafts')
    await mkdir(drafts)
    await writeFile(join(drafts, 'abc-1.json'), '{"name": "half')
    const store = new Store(folder.path)
    expect(await names(store)).toEqual([])
    expect(store.takeNotices()[0]).toMatch(/"drafts.abc-1.json" could not be read/)
    const [aside] = await readdir(drafts)
    expect(await readFile(join(drafts, aside ?? ''), 'utf8')).toBe('{"name": "half')
  })

  it('put away leaves the list; the last five stay on disk', async () => {
    for (let n = 1; n <= 7; n++) {
      const store = new Store(folder.path)
      await store.keepDraft(store.beginDraft(), draft(`work ${n}`, n))
      await store.close()
      const next = new Store(folder.path)
      const [listed] = await next.listDrafts()
      await next.putAwayDraft(listed?.id ?? '')
      expect(await next.listDrafts()).toEqual([])
    }
    const kept = await readdir(join(folder.path, 'put-away'))
    const texts = await Promise.all(kept.sort().map((file) => readFile(join(folder.path, 'put-away', file), 'utf8')))
    expect(texts.map((text) => (JSON.parse(text) as Draft).name)).toEqual([3, 4, 5, 6, 7].map((n) => `work ${n}`))
  })

  it('can’t be written under, or read by, a name that is not one of ours', async () => {
    const store = new Store(folder.path)
    await expect(store.keepDraft('../../evil-1', draft('x'))).rejects.toThrow('not the page’s own')
    await expect(store.keepDraft('abc-1', draft('x'))).rejects.toThrow('not the page’s own')
    await expect(store.readDraft('../settings')).rejects.toThrow('not there any more')
  })
})
