import { readdir, readFile } from 'node:fs/promises'
import { join } from 'node:path'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { type Channel, contract, type Reply } from '../../src/main/contract.ts'
import { asEnvelope } from '../../src/main/envelope.ts'
import { type Ask, makeAsk, type WindowShell } from '../../src/main/handlers.ts'
import { PlanFiles } from '../../src/main/plan-files.ts'
import { Refusal } from '../../src/main/refusal.ts'
import { Store } from '../../src/main/store.ts'
import { temporaryFolder } from '../support/temporary-folder.ts'
import { expectClear } from './clear-words.ts'
import { requestsOf } from './from-schema.ts'
import { anyValue, examples, mutatedText, mutatedValue, texts } from './mutations.ts'
import { share, timeout } from './runs.ts'

// The third door: what a page asks of the program. Whatever it asks, it gets the reply that the contract promises or a
// refusal in words; files lie whole where they may, and nowhere else.

const folder = temporaryFolder()

const channels = Object.keys(contract) as Channel[]
/** Setting a PDF takes longer than all else: asked now and then. */
const usual = channels.filter((channel) => channel !== 'saveSheet')

/** The program on the test's folder, in a browser or in a window whose dialogs choose within it. */
function program(kind: 'browser' | 'window'): Ask {
  const plans = join(folder.path, 'plans')
  let chosen = 0
  const window: WindowShell = {
    program: 'window',
    choosePlan: async () =>
      [null, join(plans, 'Lemon.thickset'), join(plans, 'none.thickset'), plans][chosen++ % 4] ?? null,
    choosePlace: async (_name, ending) => [null, join(plans, `chosen${ending}`)][chosen++ % 2] ?? null,
    print: async () => undefined,
    markUnsaved: () => undefined,
    noteRecent: () => undefined,
    leave: () => undefined,
  }
  const browser = {
    program: 'browser',
    plansFolder: plans,
    plansFolderName: 'Documents/Thickset',
    markUnsaved: () => undefined,
  } as const
  let clock = 0
  return makeAsk({
    store: new Store(join(folder.path, `state-${kind}`)),
    files: new PlanFiles(),
    version: '1.2.3',
    platform: 'linux',
    now: () => ++clock,
    takeOpened: () => undefined,
    shell: kind === 'browser' ? browser : window,
  })
}

const counted = { done: 0, refused: 0 }

async function enter(ask: Ask, channel: string, request: unknown): Promise<unknown> {
  let failure: unknown
  const envelope = await asEnvelope(() =>
    ask(channel, request).catch((error: unknown) => {
      failure = error
      throw error
    }),
  )
  if (envelope.ok) {
    counted.done++
    contract[channel as Channel].reply.parse(envelope.value)
    expect(JSON.stringify(envelope.value)).not.toContain(folder.path)
    return envelope.value
  }
  if (!(failure instanceof Refusal)) throw failure
  expectClear(envelope.message)
  expect(envelope.message).not.toContain(folder.path)
  counted.refused++
  return undefined
}

/** Everything on the disk is whole, ours, and where it may lie. */
async function expectTidy(): Promise<void> {
  const files = await readdir(folder.path, { recursive: true, withFileTypes: true })
  for (const file of files) {
    if (!file.isFile()) continue
    const path = join(file.parentPath, file.name)
      .slice(folder.path.length + 1)
      .replaceAll('\\', '/')
    const ours = [
      /^plans\/[^/]+\.thickset$/,
      /^plans\/(Exports\/)?[^/]+\.(csv|png|svg|ics|pdf|json)$/,
      /^state-\w+\/(settings|recents|measured)\.json$/,
      /^state-\w+\/(drafts|put-away)\/[\w-]+\.(json|run)$/,
    ]
    expect(
      ours.some((one) => one.test(path)),
      path,
    ).toBe(true)
    if (path.startsWith('state-') && path.endsWith('.json')) JSON.parse(await readFile(join(folder.path, path), 'utf8'))
  }
}

describe.each(['browser', 'window'] as const)('any call of a page in a %s', { timeout }, (kind) => {
  /** Ids that were given out, and texts that break readers. */
  async function known(ask: Ask): Promise<string[]> {
    const saved = (await ask('savePlanAs', { name: 'Lemon', text: '{}' })) as Reply<'savePlanAs'>
    const again = (await ask('savePlanAs', { name: 'Lemon', text: '{}', replace: true })) as Reply<'savePlanAs'>
    const id = [saved, again]
      .map((one) => (one.outcome === 'saved' ? one.plan.id : 'none'))
      .find((one) => one !== 'none')
    const { draftId } = (await ask('ready', {})) as Reply<'ready'>
    return [id ?? 'none', draftId, 'honey-tiers', 'Lemon', ...texts]
  }

  it('as the contract has it, and changed', async () => {
    const ask = program(kind)
    const words = await known(ask)
    const request = fc.constantFrom(...usual).chain((channel) => {
      const asked = requestsOf(contract[channel].request, words)
      return fc.tuple(
        fc.constant(channel),
        fc.oneof(
          { weight: 3, arbitrary: asked },
          { weight: 3, arbitrary: mutatedValue(asked) },
          { weight: 1, arbitrary: anyValue },
        ),
      )
    })
    await fc.assert(
      fc.asyncProperty(request, async ([channel, what]) => {
        await enter(ask, channel, what)
      }),
      share(0.46),
    )
    await expectTidy()
  })

  it('with a plan of any contents: it comes back as it was given', async () => {
    const ask = program(kind)
    const [id, draftId] = await known(ask)
    await fc.assert(
      fc.asyncProperty(mutatedText(examples), async (text) => {
        const kept = await enter(ask, 'keepDraft', { id: draftId, name: 'Lemon', text, planId: null })
        const saved = await enter(ask, 'savePlan', { id, text, replace: true })
        if (kept !== undefined) expect(await ask('readDraft', { id: draftId })).toMatchObject({ text })
        if (saved === undefined) return
        const opened = (await ask('openPlan', { id })) as Reply<'openPlan'>
        // What is no Unicode text can't be written in UTF-8; a mark at the front is not part of the text.
        const written = Buffer.from(text)
          .toString()
          .replace(/^\ufeff/, '')
        expect(opened.outcome === 'opened' && opened.plan.text).toBe(written)
      }),
      share(0.03),
    )
    await expectTidy()
  })

  it('for a sheet, now and then', async () => {
    const ask = program(kind)
    const sheets = requestsOf(contract.saveSheet.request, texts)
    await fc.assert(
      fc.asyncProperty(fc.oneof(sheets, mutatedValue(sheets)), async (what) => {
        await enter(ask, 'saveSheet', what)
      }),
      share(0.005),
    )
    await expectTidy()
  })

  it('that there is not', async () => {
    const ask = program(kind)
    await fc.assert(
      fc.asyncProperty(fc.oneof(fc.constantFrom(...texts), fc.string()), anyValue, async (channel, what) => {
        fc.pre(!(channels as string[]).includes(channel))
        expect(await enter(ask, channel, what)).toBeUndefined()
      }),
      share(0.005),
    )
  })
})

it('calls are answered now and then, refused now and then', () => {
  console.info(`calls: ${counted.done} answered, ${counted.refused} refused`)
  expect(Math.min(counted.done, counted.refused)).toBeGreaterThan(20)
})
