import { answering } from '../core/pooled/answering.ts'
import { beginFit } from '../core/pooled/fit-work.ts'
import { beginLooks } from '../core/pooled/looks-work.ts'
import { beginSpread } from '../core/pooled/spread-work.ts'
import type { Begin, Work, WorkerSays } from '../core/pooled/work.ts'
import type { PartsName, PartsStart, PartsWorks } from './parts-protocol.ts'

/* One of the workers that do parts side by side: told its kind of work first, then handed the parts one by one. */

const works: { readonly [Name in PartsName]: Begin<PartsWorks[Name]> } = {
  fit: beginFit,
  looks: beginLooks,
  spread: beginSpread,
}

const scope = globalThis as unknown as {
  onmessage: (event: MessageEvent<unknown>) => void
  postMessage: (said: WorkerSays) => void
  reportError: (error: unknown) => void
}

scope.onmessage = ({ data }) => {
  const { name, start } = data as PartsStart
  // A part is of the kind that the worker was told.
  const begin = works[name] as unknown as Begin<Work>
  const answer = answering(
    () => begin,
    start,
    (said) => scope.postMessage(said),
    () => performance.now(),
  )
  scope.onmessage = (event) => {
    answer(event.data).catch((error: unknown) => scope.reportError(error))
  }
}
