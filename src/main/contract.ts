import { z } from 'zod'
import { keptSchema } from '../core/plan/kept-schema.ts'

/*
 * Every call that the page may make of the program around it: name → request and reply. Both doors (Electron's messages
 * and the loopback host's requests) go through this table, and the page takes its types from here. The page never sees
 * or sends a path: it holds ids, which the program resolves.
 */

/** Largest plan that is opened or saved, in bytes of its file. */
export const PLAN_BYTES = 5_000_000
/** Largest exported file, in bytes. */
export const EXPORT_BYTES = 15_000_000

const id = z.string().regex(/^[A-Za-z0-9_-]{1,64}$/)
const name = z.string().min(1).max(300)
const moment_ms = z.number().int().nonnegative()
const planText = z.string().max(PLAN_BYTES, 'a plan may have 5 MB at most')
const none = z.strictObject({})

/** A plan read from a file; `name` is the file's name without its ending. */
const openedPlan = z.strictObject({ id, name: z.string(), text: z.string(), changedAt_ms: moment_ms })
const listedPlan = z.strictObject({ id, name: z.string(), changedAt_ms: moment_ms })
const listedDraft = z.strictObject({ id, name: z.string(), keptAt_ms: moment_ms })

const opening = z.discriminatedUnion('outcome', [
  z.strictObject({ outcome: z.literal('opened'), plan: openedPlan }),
  z.strictObject({ outcome: z.literal('cancelled') }),
])
const saving = z.discriminatedUnion('outcome', [
  z.strictObject({ outcome: z.literal('saved'), plan: listedPlan }),
  z.strictObject({ outcome: z.literal('cancelled') }),
  /** The file was written elsewhere since it was opened here; ask the person, then save with `replace`. */
  z.strictObject({ outcome: z.literal('changed-elsewhere'), name: z.string() }),
  /** The file was moved, renamed or deleted since; ask the person, then save with `replace`. */
  z.strictObject({ outcome: z.literal('gone'), name: z.string() }),
  /** A plan of this name is there already; ask the person, then save with `replace`. */
  z.strictObject({ outcome: z.literal('name-taken'), name: z.string() }),
])
const exporting = z.discriminatedUnion('outcome', [
  /** `folder` is for the eye only, empty where the person chose the place. */
  z.strictObject({ outcome: z.literal('saved'), name: z.string(), folder: z.string() }),
  z.strictObject({ outcome: z.literal('cancelled') }),
])

const paper = z.enum(['A4', 'Letter'])

const words = z.string().max(4000)
/** A page of the sheet, as the core sets it. */
const sheetPage = z.strictObject({
  title: words,
  facts: z.array(z.tuple([words, words])).max(20),
  blocks: z
    .array(
      z.discriminatedUnion('kind', [
        z.strictObject({
          kind: z.literal('table'),
          title: words,
          columns: z
            .array(
              z.strictObject({ title: words, share: z.number().positive(), blank: z.literal(true).exactOptional() }),
            )
            .min(1)
            .max(20),
          rows: z.array(z.array(words).max(20)).max(2000),
          note: words.exactOptional(),
        }),
        z.strictObject({ kind: z.literal('list'), title: words, lines: z.array(words).max(2000) }),
      ]),
    )
    .max(40),
})

/** What a person sets once; kept between starts. */
export const settingsSchema = z.strictObject({
  temperature: z.enum(['C', 'F']).default('C'),
  length: z.enum(['mm', 'cm', 'in']).default('mm'),
  mass: z.enum(['kg', 'lb']).default('kg'),
  theme: z.enum(['system', 'light', 'dark']).default('system'),
  paper: paper.default('A4'),
  /** Hours of the clock that moments are told by. */
  clock: z.enum(['24', '12']).default('24'),
})

const measured = z.strictObject({ kept: keptSchema })

const call = <Request extends z.ZodType, Reply extends z.ZodType>(request: Request, reply: Reply) => ({
  request,
  reply,
})

export const contract = {
  /** What the page needs to begin. Asked once a page, after it listens to events: from then on they are told. */
  ready: call(
    none,
    z.strictObject({
      /** `window`: own window with dialogs; `browser`: page of the loopback host, plans in one folder. */
      program: z.enum(['window', 'browser']),
      version: z.string(),
      /** Which keys shortcuts are written with. */
      keys: z.enum(['mac', 'other']),
      settings: settingsSchema,
      /** Name under which this page keeps its unsaved work. */
      draftId: id,
      /** Work of earlier starts, or of this page before a reload, that was never saved; newest first. */
      drafts: z.array(listedDraft),
      /** The plan that the program was started with, if any. */
      opened: openedPlan.nullable(),
      /** Where plans lie, in words; empty where dialogs ask. */
      plansFolder: z.string(),
      /** What a person should know at once, such as a file that had to be set aside. */
      notices: z.array(z.string()),
    }),
  ),
  /** The page is still there. */
  beat: call(none, none),

  /** Plans of the plans folder, newest first; empty where dialogs ask. */
  listPlans: call(none, z.strictObject({ plans: z.array(listedPlan) })),
  /** Without an id a dialog asks which. */
  openPlan: call(z.strictObject({ id: id.exactOptional() }), opening),
  /** `knownAt_ms`: last change of the file as this page knows it. Another page may have saved since. */
  savePlan: call(
    z.strictObject({
      id,
      text: planText,
      knownAt_ms: moment_ms.exactOptional(),
      replace: z.boolean().exactOptional(),
    }),
    saving,
  ),
  savePlanAs: call(z.strictObject({ name, text: planText, replace: z.boolean().exactOptional() }), saving),
  listRecents: call(none, z.strictObject({ plans: z.array(listedPlan) })),
  forgetRecent: call(z.strictObject({ id }), none),

  listExamples: call(none, z.strictObject({ examples: z.array(z.strictObject({ id, title: z.string() })) })),
  readExample: call(z.strictObject({ id }), z.strictObject({ title: z.string(), text: z.string() })),

  /** Keeps this page's unsaved work, under the `draftId` that `ready` gave; replaced each time. */
  keepDraft: call(z.strictObject({ id, name, text: planText, planId: id.nullable() }), none),
  /** This page's work is saved or given up. */
  dropDraft: call(z.strictObject({ id }), none),
  /** A draft out of `ready`'s list. `planId` is the plan that it belongs to, if that is still there. */
  readDraft: call(
    z.strictObject({ id }),
    z.strictObject({ name: z.string(), text: z.string(), planId: id.nullable(), keptAt_ms: moment_ms }),
  ),
  /** Takes a draft out of the list; the last few stay on disk. */
  putAwayDraft: call(z.strictObject({ id }), none),

  readSettings: call(none, z.strictObject({ settings: settingsSchema })),
  writeSettings: call(z.strictObject({ settings: settingsSchema }), none),

  /** What fits have found of surroundings and materials, kept for every plan. */
  readMeasured: call(none, measured),
  /** Puts this beside what is kept, the newer in place of the older of the same thing. */
  keepMeasured: call(measured, measured),
  /** Takes what is told out of what is kept. */
  forgetMeasured: call(measured, measured),

  exportFile: call(
    z.strictObject({
      name,
      ending: z.enum(['csv', 'png', 'svg', 'ics', 'pdf', 'json']),
      encoding: z.enum(['utf8', 'base64']),
      data: z.string().max(EXPORT_BYTES * 1.4, 'a file to export may have 15 MB at most'),
    }),
    exporting,
  ),
  /** Opens the print dialog of the program's window; in a browser the page prints by itself. */
  print: call(none, none),
  /** The sheet's page as a PDF file. */
  saveSheet: call(z.strictObject({ name, page: sheetPage, paper }), exporting),

  /** Unsaved work or not: for the window's title and for the question on closing. */
  markUnsaved: call(z.strictObject({ unsaved: z.boolean(), name }), none),
  /** Closes the window, after the page has saved what a `save-asked` event asked for. */
  leave: call(none, none),
} as const

export type Channel = keyof typeof contract
export type Request<C extends Channel> = z.input<(typeof contract)[C]['request']>
export type Reply<C extends Channel> = z.output<(typeof contract)[C]['reply']>
export type Settings = z.output<typeof settingsSchema>
export type OpenedPlan = z.output<typeof openedPlan>
export type ListedPlan = z.output<typeof listedPlan>
export type ListedDraft = z.output<typeof listedDraft>

/** A reply as it crosses a process: errors travel as data. */
export type Envelope<T> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly message: string }

/** What the program tells the page unasked (own window only). */
export type HostEvent =
  /** A plan was opened from outside, by a double click for one. */
  | { readonly kind: 'plan-opened'; readonly plan: OpenedPlan }
  /** The person chose to save on closing: save, then ask `leave`. */
  | { readonly kind: 'save-asked' }
  | { readonly kind: 'failed'; readonly message: string }

/** What the preload puts on `window.thickset`. */
export interface Preloaded {
  readonly ask: (channel: Channel, request: unknown) => Promise<Envelope<unknown>>
  /** A file dropped on the window; the file's path goes to the program, never to the page. */
  readonly openDropped: (file: File) => Promise<Envelope<OpenedPlan>>
  /** Gives back the function that stops listening. */
  readonly listen: (hear: (event: HostEvent) => void) => () => void
}
