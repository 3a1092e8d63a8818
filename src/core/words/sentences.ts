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
  'law-range': (v, show) =>
    `properties hold from ${show.temperature(number(v, 'low_C'))} to ${show.temperature(number(v, 'high_C'))}; above, boiling is left out`,
  'table-range': (v, show) =>
    `the table reaches from ${show.temperature(number(v, 'low_C'))} to ${show.temperature(number(v, 'high_C'))}; beyond, its last straight line goes on`,
  'fixed-properties': () => 'the same properties at every temperature: freezing and melting are left out',
  'fat-crystals-left-out': () => 'kind of fat not given: the heat of its melting and setting is left out',
  'fat-curve-borrowed': (v) => `melting of the fat of ${text(v, 'kinds')}: curve borrowed from a fat like it`,
  'no-freezing-point': () => 'freezing left out: little free water, or sugar crystals lie in it',
  'air-weighs': (v, show) =>
    `${show.number(number(v, 'air_pct'))} % air: weigh a known volume, since 10 % in density is 10 % in time or more`,
  'weak-point': (v) => text(v, 'words'),
  'sugars-as-sucrose': () => 'kinds of sugar not given: taken as sucrose',
  'ash-as-mixed': () => 'kind of minerals not given: taken as those of dairy with some salt',
  'composition-scaled': (v, show) => `the composition adds up to ${show.number(number(v, 'sum_pct'))} %: scaled to 100 %`,
} satisfies Record<string, (values: Values, show: Show) => string>

export type SentenceCode = keyof typeof sentences

/** The sentence for a message, in the reader's units. */
export function say(message: Message, show: Show): string {
  return sentences[message.code](message.values, show)
}
