import { type Look, look, type Seen } from '../choosing/question.ts'
import type { Begin } from './work.ts'

/** Plans that are looked at for a question. */
export interface LooksWork {
  readonly start: null
  readonly part: Look
  readonly reply: Seen
}

export const beginLooks: Begin<LooksWork> = () => look
