import type { Channel, Envelope, HostEvent, OpenedPlan, Preloaded, Reply, Request } from '../main/contract.ts'

declare global {
  interface Window {
    /** There in the program's own window only; put there by its preload. */
    readonly thickset?: Preloaded
  }
}

/** What the program around the page answered instead of doing it, in words for the person. */
export class BridgeError extends Error {
  constructor(message: string) {
    super(message)
    this.name = 'BridgeError'
  }
}

/** The page's only way to files, settings and printing; the same in the own window and in a browser. */
export interface Bridge {
  /** Rejects with `BridgeError` when the program refuses or is gone. */
  ask<C extends Channel>(channel: C, request: Request<C>): Promise<Reply<C>>
  /** A plan file that was dropped or picked. Its `id` is null where only the contents are known. */
  openFile(file: File): Promise<Omit<OpenedPlan, 'id'> & { readonly id: string | null }>
  /** Hears what the program says unasked; gives back the function that stops it. */
  listen(hear: (event: HostEvent) => void): () => void
  /** Opens the print dialog. */
  print(): Promise<void>
}

const GONE = 'The program behind this page has ended. Start it again; unsaved work was kept and will be offered.'
const LARGEST_PLAN_BYTES = 5_000_000

function unwrap<T>(envelope: Envelope<T>): T {
  if (envelope.ok) return envelope.value
  throw new BridgeError(envelope.message)
}

/** Through the preload, in the program's own window. */
function windowBridge(preloaded: Preloaded): Bridge {
  const ask: Bridge['ask'] = async (channel, request) =>
    unwrap(await preloaded.ask(channel, request)) as Reply<typeof channel>
  return {
    ask,
    openFile: async (file) => unwrap(await preloaded.openDropped(file)),
    listen: preloaded.listen,
    print: async () => {
      await ask('print', {})
    },
  }
}

/** Through requests to the loopback host, in a browser. */
function hostBridge(): Bridge {
  let token: Promise<string> | undefined

  const post = async (path: string, headers: Record<string, string>, body: unknown): Promise<unknown> => {
    const asked = { method: 'POST', headers: { 'content-type': 'application/json', ...headers } }
    const envelope: Envelope<unknown> = await fetch(path, { ...asked, body: JSON.stringify(body) })
      .then((response) => response.json())
      .catch(() => {
        throw new BridgeError(GONE)
      })
    return unwrap(envelope)
  }

  const ask: Bridge['ask'] = async (channel, request) => {
    token ??= findToken(post)
    return (await post(`/ask/${channel}`, { authorization: `Bearer ${await token}` }, request)) as Reply<typeof channel>
  }
  return {
    ask,
    openFile: async (file) => {
      if (file.size > LARGEST_PLAN_BYTES) throw new BridgeError(`"${file.name}" is larger than 5 MB: not a plan.`)
      const name = file.name.replace(/\.(thickset|json)$/i, '')
      return { id: null, name, text: await file.text(), changedAt_ms: file.lastModified }
    },
    listen: () => () => undefined,
    print: async () => window.print(),
  }
}

/** The token of an earlier load, or the one for the key behind the address's `#`, which works once. */
async function findToken(
  post: (path: string, headers: Record<string, string>, body: unknown) => Promise<unknown>,
): Promise<string> {
  const kept = sessionStorage.getItem('thickset-token')
  const key = location.hash.slice(1)
  if (key === '') {
    if (kept !== null) return kept
    throw new BridgeError('This address has been used already. Start the program again for a new one.')
  }
  history.replaceState(null, '', location.pathname)
  try {
    const { token } = (await post('/key', {}, { key })) as { token: string }
    sessionStorage.setItem('thickset-token', token)
    return token
  } catch (error) {
    // The same address once more in a tab that is in already.
    if (kept !== null) return kept
    throw error
  }
}

export const bridge: Bridge = window.thickset === undefined ? hostBridge() : windowBridge(window.thickset)
