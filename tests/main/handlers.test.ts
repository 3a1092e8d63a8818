import { mkdir, readdir, readFile, rm, truncate, utimes, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { beforeEach, describe, expect, it } from 'vitest'
import type { Channel, Reply, Request } from '../../src/main/contract.ts'
import { type Ask, type Desk, makeAsk, type WindowShell } from '../../src/main/handlers.ts'
import { PlanFiles } from '../../src/main/plan-files.ts'
import { Store } from '../../src/main/store.ts'
import { temporaryFolder } from '../support/temporary-folder.ts'

const folder = temporaryFolder()
const PLAN = '{"format": "thickset-plan", "title": "Any"}'

/** Desks on the test's folder; `ask` is typed as the page's is. */
function browserDesk(opened?: string) {
  let waiting = opened
  const desk: Desk = {
    store: new Store(join(folder.path, 'state')),
    files: new PlanFiles(),
    version: '1.2.3',
    platform: 'linux',
    now: () => 1_000,
    takeOpened: () => {
      const path = waiting
      waiting = undefined
      return path
    },
    shell: {
      program: 'browser',
      plansFolder: join(folder.path, 'plans'),
      plansFolderName: 'Documents/Thickset',
      markUnsaved: () => undefined,
    },
  }
  return { desk, ask: typed(makeAsk(desk)) }
}

function windowDesk(shell: Partial<WindowShell>) {
  const { desk } = browserDesk()
  const own: WindowShell = {
    program: 'window',
    choosePlan: async () => null,
    choosePlace: async () => null,
    print: async () => undefined,
    markUnsaved: () => undefined,
    noteRecent: () => undefined,
    leave: () => undefined,
    ...shell,
  }
  return { desk, ask: typed(makeAsk({ ...desk, shell: own })) }
}

function typed(ask: Ask) {
  return <C extends Channel>(channel: C, request: Request<C>): Promise<Reply<C>> =>
    ask(channel, request) as Promise<Reply<C>>
}

type Saved = Extract<Reply<'savePlanAs'>, { outcome: 'saved' }>

describe('the door', () => {
  it.each(['__proto__', 'constructor', 'toString', 'nothing', ''])('knows no call "%s"', async (channel) => {
    const { desk } = browserDesk()
    await expect(makeAsk(desk)(channel, {})).rejects.toThrow('There is no such call.')
  })

  it.each([
    ['openPlan', { path: '/etc/passwd' }],
    ['openPlan', { id: '../x' }],
    ['savePlan', { id: 'abc' }],
    ['savePlanAs', { name: '', text: '' }],
    ['keepDraft', null],
    ['exportFile', { name: 'x', ending: 'exe', encoding: 'utf8', data: '' }],
    ['writeSettings', { settings: { temperature: 'K' } }],
    ['beat', { more: 1 }],
  ])('refuses a wrong request to %s', async (channel, request) => {
    const { desk } = browserDesk()
    await expect(makeAsk(desk)(channel, request)).rejects.toThrow(`"${channel}" was asked wrongly`)
  })
})

describe('plans in the plans folder', () => {
  let ask: ReturnType<typeof browserDesk>['ask']
  beforeEach(() => {
    ask = browserDesk().ask
  })
  const save = async (name: string, text = PLAN): Promise<Saved['plan']> =>
    ((await ask('savePlanAs', { name, text })) as Saved).plan

  it('are saved, listed newest first and opened by id', async () => {
    expect(await ask('listPlans', {})).toEqual({ plans: [] })
    const first = await save('First')
    await save('Second')
    const past = new Date(Date.now() - 60_000)
    await utimes(join(folder.path, 'plans', 'First.thickset'), past, past)
    await writeFile(join(folder.path, 'plans', 'notes.txt'), 'not a plan')
    expect((await ask('listPlans', {})).plans.map((plan) => plan.name)).toEqual(['Second', 'First'])
    const opened = await ask('openPlan', { id: first.id })
    expect(opened).toMatchObject({ outcome: 'opened', plan: { id: first.id, name: 'First', text: PLAN } })
    expect((await ask('listRecents', {})).plans.map((plan) => plan.name)).toEqual(['First', 'Second'])
  })

  it('keep to their folder, whatever the name', async () => {
    await save('../../outside')
    expect(await readdir(folder.path)).toEqual(['plans', 'state'])
    expect(await readdir(join(folder.path, 'plans'))).toEqual(['-..-outside.thickset'])
  })

  it('are not replaced unasked when the name is taken', async () => {
    await save('Lemon', 'old')
    expect(await ask('savePlanAs', { name: 'Lemon.thickset', text: 'new' })).toEqual({
      outcome: 'name-taken',
      name: 'Lemon',
    })
    expect(await readFile(join(folder.path, 'plans', 'Lemon.thickset'), 'utf8')).toBe('old')
    await ask('savePlanAs', { name: 'Lemon', text: 'new', replace: true })
    expect(await readFile(join(folder.path, 'plans', 'Lemon.thickset'), 'utf8')).toBe('new')
  })

  it('are not replaced unasked when another program wrote them', async () => {
    const { id } = await save('Shared')
    expect(await ask('savePlan', { id, text: 'mine' })).toMatchObject({ outcome: 'saved' })
    const path = join(folder.path, 'plans', 'Shared.thickset')
    await writeFile(path, 'theirs')
    const later = new Date(Date.now() + 5_000)
    await utimes(path, later, later)
    expect(await ask('savePlan', { id, text: 'mine 2' })).toEqual({ outcome: 'changed-elsewhere', name: 'Shared' })
    expect(await readFile(path, 'utf8')).toBe('theirs')
    expect(await ask('savePlan', { id, text: 'mine 2', replace: true })).toMatchObject({ outcome: 'saved' })
    expect(await readFile(path, 'utf8')).toBe('mine 2')
  })

  it('are not reached by an id that was never given', async () => {
    await expect(ask('openPlan', { id: 'AAAAAAAAAAAAAAAAAAAAAA' })).rejects.toThrow('not known here')
    await expect(ask('savePlan', { id: 'AAAAAAAAAAAAAAAAAAAAAA', text: '' })).rejects.toThrow('not known here')
    await expect(ask('openPlan', {})).rejects.toThrow('Choose a plan')
  })

  it('of 100 MB are refused with a reason, unread', async () => {
    const path = join(folder.path, 'plans', 'Huge.thickset')
    await mkdir(join(folder.path, 'plans'))
    await writeFile(path, '')
    await truncate(path, 100_000_000)
    const { plans } = await ask('listPlans', {})
    await expect(ask('openPlan', { id: plans[0]?.id ?? '' })).rejects.toThrow('larger than 5 MB')
  })

  it('of more than 5 MB are not saved, counted in bytes', async () => {
    await expect(ask('savePlanAs', { name: 'x', text: 'x'.repeat(5_000_001) })).rejects.toThrow('5 MB at most')
    await expect(ask('savePlanAs', { name: 'x', text: 'é'.repeat(2_500_001) })).rejects.toThrow('larger than 5 MB')
  })

  it('that are gone leave the recent ones', async () => {
    const { id } = await save('Kept')
    await save('Gone')
    expect((await ask('listRecents', {})).plans).toHaveLength(2)
    await rm(join(folder.path, 'plans', 'Gone.thickset'))
    expect((await ask('listRecents', {})).plans.map((plan) => plan.name)).toEqual(['Kept'])
    await ask('forgetRecent', { id })
    expect((await ask('listRecents', {})).plans).toEqual([])
  })
})

describe('beginning', () => {
  it('tells what the page needs', async () => {
    const { ask } = browserDesk()
    const reply = await ask('ready', {})
    expect(reply).toMatchObject({
      program: 'browser',
      version: '1.2.3',
      keys: 'other',
      drafts: [],
      opened: null,
      plansFolder: 'Documents/Thickset',
      notices: [],
    })
  })

  it('opens the plan that the program was started with, once', async () => {
    const path = join(folder.path, 'given.thickset')
    await writeFile(path, PLAN)
    const { ask } = browserDesk(path)
    expect((await ask('ready', {})).opened).toMatchObject({ name: 'given', text: PLAN })
    expect((await ask('ready', {})).opened).toBeNull()
  })

  it('says when that plan can’t be opened, and begins all the same', async () => {
    const { ask } = browserDesk(join(folder.path, 'gone.thickset'))
    const reply = await ask('ready', {})
    expect(reply.opened).toBeNull()
    expect(reply.notices).toEqual(['"gone.thickset" is not there any more.'])
  })

  it('lists the examples, each of which can be read', async () => {
    const { ask } = browserDesk()
    const { examples } = await ask('listExamples', {})
    const files = await readdir(join(import.meta.dirname, '..', '..', 'shared', 'examples'))
    expect(examples.length).toBeGreaterThanOrEqual(3)
    expect(examples).toHaveLength(files.filter((file) => file.endsWith('.thickset')).length)
    for (const { id, title } of examples) {
      const example = await ask('readExample', { id })
      expect(JSON.parse(example.text)).toMatchObject({ format: 'thickset-plan', title })
    }
    await expect(ask('readExample', { id: 'none' })).rejects.toThrow('no such example')
  })
})

describe('unsaved work', () => {
  it('comes back with the plan that it belongs to, and notices that its file changed since', async () => {
    const { ask, desk } = browserDesk()
    const saved = (await ask('savePlanAs', { name: 'Lemon', text: PLAN })) as Saved
    const { draftId } = await ask('ready', {})
    await ask('keepDraft', { id: draftId, name: 'Lemon', text: 'edited', planId: saved.plan.id })
    await desk.store.close()

    const next = browserDesk()
    const { drafts } = await next.ask('ready', {})
    expect(drafts).toMatchObject([{ name: 'Lemon', keptAt_ms: 1_000 }])
    const draft = await next.ask('readDraft', { id: drafts[0]?.id ?? '' })
    expect(draft).toMatchObject({ name: 'Lemon', text: 'edited', planId: saved.plan.id })
    const later = new Date(Date.now() + 5_000)
    await utimes(join(folder.path, 'plans', 'Lemon.thickset'), later, later)
    expect(await next.ask('savePlan', { id: saved.plan.id, text: 'edited' })).toMatchObject({
      outcome: 'changed-elsewhere',
    })
    await next.ask('putAwayDraft', { id: drafts[0]?.id ?? '' })
    expect((await next.ask('ready', {})).drafts).toEqual([])
  })
})

describe('exports', () => {
  const data = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x00, 0xff]).toString('base64')

  it('lie in a folder of their own, under a free name', async () => {
    const { ask } = browserDesk()
    const give = () => ask('exportFile', { name: 'Lemon', ending: 'png', encoding: 'base64', data })
    expect(await give()).toEqual({ outcome: 'saved', name: 'Lemon.png', folder: 'Documents/Thickset/Exports' })
    expect(await give()).toMatchObject({ name: 'Lemon 2.png' })
    const written = await readFile(join(folder.path, 'plans', 'Exports', 'Lemon 2.png'))
    expect(written.toString('base64')).toBe(data)
  })

  it('may have 15 MB at most', async () => {
    const { ask } = browserDesk()
    const large = 'é'.repeat(7_500_001)
    await expect(ask('exportFile', { name: 'x', ending: 'csv', encoding: 'utf8', data: large })).rejects.toThrow(
      '15 MB',
    )
  })

  it('do not print or close in a browser: the page does', async () => {
    const { ask } = browserDesk()
    await expect(ask('print', {})).rejects.toThrow('by itself')
    await expect(ask('leave', {})).rejects.toThrow('by itself')
  })
})

const page = { title: 'Bar', facts: [], blocks: [{ kind: 'list' as const, title: 'Cautions', lines: ['Measure.'] }] }

describe('with a window', () => {
  it('opens and saves where the person chose', async () => {
    const path = join(folder.path, 'chosen.thickset')
    const recents: string[] = []
    const { ask } = windowDesk({
      choosePlan: async () => path,
      choosePlace: async () => path,
      noteRecent: (recent) => recents.push(recent),
    })
    expect(await ask('savePlanAs', { name: 'x', text: PLAN })).toMatchObject({
      outcome: 'saved',
      plan: { name: 'chosen' },
    })
    expect(await ask('openPlan', {})).toMatchObject({ outcome: 'opened', plan: { text: PLAN } })
    expect(recents).toEqual([path, path])
    expect(await ask('listPlans', {})).toEqual({ plans: [] })
  })

  it('does nothing when the person thinks better of it', async () => {
    const { ask } = windowDesk({})
    expect(await ask('openPlan', {})).toEqual({ outcome: 'cancelled' })
    expect(await ask('savePlanAs', { name: 'x', text: PLAN })).toEqual({ outcome: 'cancelled' })
    expect(await ask('saveSheet', { name: 'x', page, paper: 'A4' })).toEqual({ outcome: 'cancelled' })
  })

  it('writes the sheet as PDF', async () => {
    const path = join(folder.path, 'sheet.pdf')
    const { ask } = windowDesk({ choosePlace: async () => path })
    const saved = { outcome: 'saved', name: 'sheet.pdf', folder: '' }
    expect(await ask('saveSheet', { name: 'x', page, paper: 'Letter' })).toEqual(saved)
    const written = await readFile(path, 'latin1')
    expect(written.startsWith('%PDF-')).toBe(true)
    expect(written).toContain('[0 0 612 792]')
  })
})
