import { readFileSync } from 'node:fs'
import { join, resolve } from 'node:path'
import { type BrowserWindow, findChromium, noWindow, openChromium, openWithSystem } from './browser-window.ts'
import { fetchElectron, findElectron, type Run, runElectron } from './electron-runtime.ts'
import { plansFolder, stateFolder, thisMachine } from './folders.ts'
import { type Host, startHost } from './host.ts'

/*
 * `npm start`: the program in Electron's window where its runtime is or can be had, else the same program in a browser
 * of this machine. Built by start.mjs beforehand.
 */

/** A browser that ends this soon did not show a window. */
const SOON_MS = 3000

/** Runs the program until the person ends it. Gives the exit code. */
export async function launch(root: string, words: readonly string[]): Promise<number> {
  const ending = new Ending()
  const inBrowser = words.includes('--browser')
  const plan = words.find((word) => !word.startsWith('-'))
  const run: Run = inBrowser
    ? { outcome: 'unusable', reason: 'a browser was asked for' }
    : await inElectron(root, plan, ending)
  if (run.outcome === 'ended') return run.code
  if (ending.asked) return 0
  return serve(root, plan, run.reason, ending)
}

async function inElectron(root: string, plan: string | undefined, ending: Ending): Promise<Run> {
  let program = findElectron(root)
  if (program === undefined) {
    const fetched = await Promise.race([
      fetchElectron(root, reportFetch()),
      ending.promise.then(() => ({ ok: false, reason: 'it was ended' }) as const),
    ])
    if (!fetched.ok) return { outcome: 'unusable', reason: fetched.reason }
    program = findElectron(root)
    if (program === undefined) return { outcome: 'unusable', reason: 'its runtime is not where it should be' }
  }
  return runElectron(program, plan === undefined ? [root] : [root, resolve(plan)], (stop) => ending.onAsked(stop))
}

/** Says that something large is being fetched, once it is, and how far it has come. */
function reportFetch(): (share: number) => void {
  let told = -1
  return (share) => {
    const tenth = Math.floor(share * 10)
    if (tenth === told) return
    told = tenth
    process.stderr.write(`Fetching Electron's runtime, once: ${tenth * 10} %\n`)
  }
}

async function serve(root: string, plan: string | undefined, reason: string, ending: Ending): Promise<number> {
  const machine = thisMachine()
  const plans = plansFolder(machine)
  const { version } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8')) as { version: string }
  const host = await startHost({
    pages: join(root, 'out', 'renderer'),
    stateFolder: stateFolder(machine),
    plansFolder: plans.path,
    plansFolderName: plans.name,
    version,
    ...(plan === undefined ? {} : { opened: resolve(plan) }),
  })
  process.stdout.write(
    `Electron not used: ${reason}. The same program is at ${host.address} (this machine only; Ctrl+C ends it).\n`,
  )
  const window = noWindow(machine, process.getuid?.()) === undefined ? await openWindow(host) : undefined
  const how = await Promise.race([
    ending.promise.then(() => 'asked' as const),
    host.ended,
    ...(window === undefined ? [] : [window.closed.then(() => 'window' as const)]),
  ])
  if (how === 'quiet') process.stdout.write('No page has spoken for half an hour: ended.\n')
  await window?.close()
  if (host.hasUnsaved()) process.stdout.write('There is work that was not saved: it was kept and will be offered.\n')
  await host.close()
  return 0
}

/** A window of a Chromium-family browser, or the system's browser, or nothing: then the printed address serves. */
async function openWindow(host: Host): Promise<BrowserWindow | undefined> {
  const machine = thisMachine()
  const chromium = findChromium(machine)
  if (chromium !== undefined) {
    const window = await openChromium(chromium, host.newAddress())
    const failed = await Promise.race([
      window.closed.then(() => true),
      new Promise<false>((shown) => setTimeout(shown, SOON_MS, false)),
    ])
    if (!failed || host.wasReached()) return window
    await window.close()
  }
  await openWithSystem(host.newAddress(), machine.platform)
  return undefined
}

/** The person's wish to end, by Ctrl+C or by the system. */
class Ending {
  asked = false
  readonly promise: Promise<void>
  readonly #stops: (() => void)[] = []

  constructor() {
    this.promise = new Promise((settle) => {
      const end = (): void => {
        this.asked = true
        for (const stop of this.#stops) stop()
        settle()
      }
      for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) process.on(signal, end)
    })
  }

  onAsked(stop: () => void): void {
    this.#stops.push(stop)
    if (this.asked) stop()
  }
}
