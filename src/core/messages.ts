import type { Place } from './geometry/body.ts'
import type { SentenceCode } from './words/sentences.ts'

/** A value of a message; its key carries the unit (`core_C`, `thickness_m`, `within_h`), so that words can convert it. */
export type MessageValue = number | string

/** Something to tell a person, as a code with values; `words/sentences.ts` makes the sentence in the asked units. */
export interface Message {
  readonly code: SentenceCode
  readonly values: Readonly<Record<string, MessageValue>>
  readonly where?: Place
}

export function message(code: SentenceCode, values: Message['values'] = {}, where?: Place): Message {
  return where === undefined ? { code, values } : { code, values, where }
}
