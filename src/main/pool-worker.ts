import { parentPort, workerData } from 'node:worker_threads'
import { answering } from '../core/pooled/answering.ts'
import type { Begin, Work, WorkerSays } from '../core/pooled/work.ts'
import type { WorkerStart } from './pool/work.ts'
import { works } from './pool/works.ts'

/* One worker of the pool: loads its kind of work and does the parts that it is handed. */

const { name, start } = workerData as WorkerStart
const port = parentPort
const say = (said: WorkerSays): void => port?.postMessage(said)
// A part is of the kind that the worker was started for.
const begin = async (): Promise<Begin<Work>> => (await works[name]()) as unknown as Begin<Work>

port?.on(
  'message',
  answering(begin, start, say, () => performance.now()),
)
