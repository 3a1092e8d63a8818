import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import fc from 'fast-check'

/*
 * What a file or a message may have become: cut, doubled, joined with another, its letters, numbers and texts changed
 * for what breaks readers.
 */

const folder = join(import.meta.dirname, '..', '..', 'shared', 'examples')

/** The texts of all examples. */
export const examples: readonly string[] = readdirSync(folder)
  .filter((file) => file.endsWith('.thickset'))
  .map((file) => readFileSync(join(folder, file), 'utf8'))

/** Numbers on which readers stumble. */
const numbers = [
  '0',
  '-0',
  '-1',
  '1e999',
  '-1e999',
  '1e308',
  '5e-324',
  '9007199254740993',
  '0.1e-7',
  '1e5',
  '1,5',
  '.5',
  '+1',
  '01',
  'NaN',
  'Infinity',
  'null',
  'true',
  '""',
  '"12"',
  '[]',
  '{}',
  '9'.repeat(400),
]

/** Texts on which readers stumble. */
export const texts = [
  '',
  ' ',
  '__proto__',
  'constructor',
  'toString',
  'hasOwnProperty',
  'air',
  'core',
  'surface',
  'undefined',
  '../../etc/passwd',
  'C:\\nul',
  '=1+1',
  '\u0000',
  '\u202e',
  '\ud800',
  '\ufeff',
  '🍰',
  'é',
  '\r\n',
  '2027-02-30T25:61',
  '9999-12-31T23:59',
  '0000-01-01T00:00',
  'x'.repeat(5000),
]

/** Any value that JSON can hold, and a few that break readers more often than others. */
export const anyValue: fc.Arbitrary<unknown> = fc.oneof(
  { weight: 2, arbitrary: fc.constantFrom<unknown>(0, -0, -1, 1, 0.5, 1e5, 1e308, -1e308, 5e-324, 2 ** 53, 1e-7) },
  { weight: 2, arbitrary: fc.constantFrom<unknown>(...texts) },
  { weight: 1, arbitrary: fc.constantFrom<unknown>(null, true, false, [], {}, [[]], [{}], [null]) },
  { weight: 1, arbitrary: fc.double({ noNaN: true, noDefaultInfinity: true }) },
  { weight: 1, arbitrary: fc.integer({ min: -1000, max: 1000 }) },
  { weight: 1, arbitrary: fc.string({ unit: 'binary', maxLength: 30 }) },
  { weight: 1, arbitrary: fc.jsonValue({ maxDepth: 3 }) },
)

/** Where and what, as shares, so that one mutation fits every text. */
const spot = fc.record({
  at: fc.double({ min: 0, max: 1, noNaN: true }),
  length: fc.nat({ max: 40 }),
  kind: fc.constantFrom('cut', 'double', 'insert', 'letter', 'number', 'text', 'end', 'far') as fc.Arbitrary<
    'cut' | 'double' | 'insert' | 'letter' | 'number' | 'text' | 'end' | 'far'
  >,
  pick: fc.nat({ max: 10_000 }),
  junk: fc.oneof(fc.string({ unit: 'binary', maxLength: 8 }), fc.constantFrom(...'{}[]",:;\t\n\\/-.%=')),
})
type Spot = typeof spot extends fc.Arbitrary<infer T> ? T : never

/** The nth match of a pattern, counted round, replaced. */
function replaceMatch(text: string, pattern: RegExp, { at, pick }: Spot, choices: readonly string[]): string {
  const found = [...text.matchAll(pattern)]
  const match = found[Math.min(found.length - 1, Math.floor(at * found.length))]
  if (match === undefined) return text
  const put = choices[pick % choices.length] ?? ''
  return text.slice(0, match.index) + put + text.slice(match.index + match[0].length)
}

function mutated(text: string, other: string, change: Spot): string {
  const at = Math.floor(change.at * text.length)
  const end = at + change.length
  switch (change.kind) {
    case 'cut':
      return text.slice(0, at) + text.slice(end)
    case 'double':
      return text.slice(0, end) + text.slice(at)
    case 'insert':
      return text.slice(0, at) + change.junk + text.slice(at)
    case 'letter':
      return text.slice(0, at) + String.fromCharCode(change.pick % 300) + text.slice(at + 1)
    case 'number':
      return replaceMatch(text, /-?\d+(?:\.\d+)?/g, change, numbers)
    case 'text':
      return replaceMatch(
        text,
        /"[^"\n]*"/g,
        change,
        texts.map((one) => JSON.stringify(one)),
      )
    case 'end':
      return text.slice(0, at)
    case 'far':
      return text.slice(0, at) + other.slice(Math.floor((change.pick / 10_000) * other.length))
  }
}

/** A real text of these, changed in one to four places. */
export const mutatedText = (originals: readonly string[]): fc.Arbitrary<string> =>
  fc
    .tuple(fc.constantFrom(...originals), fc.constantFrom(...originals), fc.array(spot, { minLength: 1, maxLength: 4 }))
    .map(([text, other, changes]) => changes.reduce((now, change) => mutated(now, other, change), text))

/** A real text of these with bytes changed, so that it may no longer be text. */
export const mutatedBytes = (originals: readonly string[]): fc.Arbitrary<Uint8Array> =>
  fc
    .tuple(
      fc.constantFrom(...originals),
      fc.array(fc.tuple(fc.double({ min: 0, max: 1, noNaN: true }), fc.nat({ max: 255 })), {
        minLength: 1,
        maxLength: 6,
      }),
    )
    .map(([text, changes]) => {
      const bytes = new Uint8Array(Buffer.from(text))
      for (const [at, byte] of changes) bytes[Math.min(bytes.length - 1, Math.floor(at * bytes.length))] = byte
      return bytes
    })

const edit = fc.record({
  at: fc.nat({ max: 100_000 }),
  from: fc.nat({ max: 100_000 }),
  kind: fc.constantFrom('put', 'put', 'take', 'copy', 'key', 'times', 'times', 'times', 'times') as fc.Arbitrary<
    'put' | 'take' | 'copy' | 'key' | 'times'
  >,
  value: anyValue,
  key: fc.constantFrom(...texts),
  factor: fc.constantFrom(-1, 0, 1e-9, 0.01, 0.1, 0.5, 0.9, 1.1, 2, 10, 100, 1e6, 1e300),
})
type Edit = typeof edit extends fc.Arbitrary<infer T> ? T : never

interface Place {
  readonly holder: Record<string, unknown>
  readonly key: string
}

/** Every place of a value at which something lies. */
function placesIn(value: unknown): Place[] {
  if (typeof value !== 'object' || value === null) return []
  const holder = value as Record<string, unknown>
  return Object.keys(holder).flatMap((key) => [{ holder, key }, ...placesIn(holder[key])])
}

function edited(root: unknown, { kind, ...how }: Edit): void {
  const all = placesIn(root)
  const places = kind === 'times' ? all.filter(({ holder, key }) => typeof holder[key] === 'number') : all
  const place = places[how.at % Math.max(1, places.length)]
  if (place === undefined) return
  const { holder, key } = place
  const from = places[how.from % places.length]
  if (kind === 'put') holder[key] = structuredClone(how.value)
  if (kind === 'take') {
    if (Array.isArray(holder)) holder.splice(Number(key), 1)
    else delete holder[key]
  }
  if (kind === 'copy' && from !== undefined) holder[key] = structuredClone(from.holder[from.key])
  if (kind === 'times') holder[key] = Number(holder[key]) * how.factor
  if (kind === 'key') {
    if (Array.isArray(holder)) holder.push(structuredClone(holder[Number(key)]))
    else
      Object.defineProperty(holder, how.key, {
        value: holder[key],
        enumerable: true,
        configurable: true,
        writable: true,
      })
  }
}

/** A value changed in one to three places: well written, but maybe of another form. */
export const mutatedValue = (originals: fc.Arbitrary<unknown>): fc.Arbitrary<unknown> =>
  fc.tuple(originals, fc.array(edit, { minLength: 1, maxLength: 3 })).map(([original, edits]) => {
    const root = { is: structuredClone(original) }
    for (const one of edits) edited(root, one)
    return root.is
  })

const mild = fc.record({
  at: fc.nat({ max: 100_000 }),
  factor: fc.constantFrom(0.3, 0.7, 0.9, 1.1, 1.5, 3),
})

/** A value whose numbers were changed a little: most of these still mean something. */
export const nudgedValue = (originals: fc.Arbitrary<unknown>): fc.Arbitrary<unknown> =>
  fc.tuple(originals, fc.array(mild, { minLength: 1, maxLength: 3 })).map(([original, nudges]) => {
    const root = structuredClone(original)
    const numbered = placesIn(root).filter(({ holder, key }) => typeof holder[key] === 'number' && key !== 'version')
    for (const { at, factor } of nudges) {
      const place = numbered[at % Math.max(1, numbered.length)]
      if (place !== undefined) place.holder[place.key] = Number(place.holder[place.key]) * factor
    }
    return root
  })
