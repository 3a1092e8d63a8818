import type { Message } from '../messages.ts'
import type { Show } from './show.ts'

type Values = Message['values']
const text = (values: Values, key: string): string => String(values[key])
const number = (values: Values, key: string): number => Number(values[key])

/** Every sentence that the core can say: code → words, with the numbers shown in the reader's units. */
export const sentences = {
  'ends-ignored': (v, show) =>
    `ends ignored: the piece is ${show.number(number(v, 'ratio'))} times as long as it is ${text(v, 'of')}`,
  'default-used': (v) => `${text(v, 'field')} not given: ${text(v, 'value')} used`,
} satisfies Record<string, (values: Values, show: Show) => string>

export type SentenceCode = keyof typeof sentences

/** The sentence for a message, in the reader's units. */
export function say(message: Message, show: Show): string {
  return sentences[message.code](message.values, show)
}
