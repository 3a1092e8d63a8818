import { type Quantity, shownQuantity, toStored, type Unit } from './units.ts'

/** What was typed, read as a stored value, or why it can't be read and what could be typed instead. */
export type Typed = { readonly ok: true; readonly value: number } | { readonly ok: false; readonly problem: string }

/** Stored values that a field takes; the ends belong to it unless `above` says that the lower one does not. */
export interface Range {
  readonly low: number
  readonly high: number
  readonly above?: boolean
}

const fractions: Readonly<Record<string, string>> = {
  '½': '1/2',
  '¼': '1/4',
  '¾': '3/4',
  '⅓': '1/3',
  '⅔': '2/3',
  '⅛': '1/8',
}

/** Reads a typed quantity: "4 in", "41 F", "4 1/2", "90 min", "1 d 6 h"; without a unit it is in `shown`. */
export function readTyped(text: string, quantity: Quantity, shown: Unit, range: Range): Typed {
  const plain = tidy(text)
  if (plain === '') return refuse(`Type a number, like ${example(quantity, shown, range)}`)
  const clock = quantity.name === 'duration' ? /^(\d{1,3}):([0-5]\d)$/.exec(plain) : null
  if (clock) return inRange(Number(clock[1]) + Number(clock[2]) / 60, shown, range)

  const pieces = plain.match(/[-+]?[\d.,/]+(?: \d+\/\d+)?|[^\d\s.,+-][^\d\s.,+]*/g) ?? []
  if (pieces.join('').replace(/\s/g, '') !== plain.replace(/\s/g, '')) return unreadable(text, quantity, shown, range)
  return readPieces(pieces, text, quantity, shown, range)
}

function readPieces(pieces: string[], text: string, quantity: Quantity, shown: Unit, range: Range): Typed {
  let total: number | null = null
  for (let i = 0; i < pieces.length; ) {
    const number = readNumber(pieces[i] ?? '')
    if (!number.ok) return number.problem === '' ? unreadable(text, quantity, shown, range) : number
    const word = pieces[i + 1]
    const follows = word !== undefined && !/^[-+\d.,]/.test(word)
    const one = follows ? findUnit(word, quantity) : shown
    if (one === undefined) return refuse(`“${word}” is no unit here; ${unitsOf(quantity)} can be typed`)
    // several parts add up ("1 d 6 h"), only where each says its unit and none is a temperature
    if (total !== null && (!follows || quantity.name === 'temperature')) return unreadable(text, quantity, shown, range)
    total = (total ?? 0) + toStored(number.value, one)
    i += follows ? 2 : 1
  }
  return total === null ? unreadable(text, quantity, shown, range) : inRange(total, shown, range)
}

function tidy(text: string): string {
  return text
    .trim()
    .replace(/[−–]/g, '-')
    .replace(
      /(\d)?([½¼¾⅓⅔⅛])/g,
      (_, whole: string | undefined, part: string) => (whole ? `${whole} ` : '') + fractions[part],
    )
    .replace(/\s+/g, ' ')
    .toLowerCase()
}

function readNumber(text: string): Typed {
  const mixed = /^([-+]?)(?:(\d+) )?(\d+)\/(\d+)$/.exec(text)
  if (mixed) {
    const value = Number(mixed[2] ?? 0) + Number(mixed[3]) / Number(mixed[4])
    return Number.isFinite(value) ? { ok: true, value: mixed[1] === '-' ? -value : value } : refuse('')
  }
  if (/^[-+]?[1-9]\d{0,2}(,\d{3})+$/.test(text)) {
    const without = text.replaceAll(',', '')
    return refuse(
      `“${text}” could be ${without} or ${text.replace(',', '.')}; write it without the comma, or with a point`,
    )
  }
  if (!/^[-+]?(\d+([.,]\d*)?|[.,]\d+)$/.test(text)) return refuse('')
  return { ok: true, value: Number(text.replace(',', '.')) }
}

function findUnit(word: string, quantity: Quantity): Unit | undefined {
  const bare = word.replace(/^°\s*/, '')
  return quantity.units.find((one) => {
    const name = one.name.toLowerCase()
    return name === word || name.replace('°', '') === bare || one.spelled.includes(word) || one.spelled.includes(bare)
  })
}

function inRange(value: number, shown: Unit, range: Range): Typed {
  const low = shownQuantity(range.low, shown)
  const high = shownQuantity(range.high, shown)
  if (value < range.low || (range.above === true && value <= range.low)) {
    return refuse(
      `${shownQuantity(value, shown)} is too little; ${range.above ? 'more than' : 'at least'} ${low} would do`,
    )
  }
  if (value > range.high) return refuse(`${shownQuantity(value, shown)} is too much; ${high} at most`)
  return { ok: true, value }
}

const refuse = (problem: string): Typed => ({ ok: false, problem })

const unreadable = (text: string, quantity: Quantity, shown: Unit, range: Range): Typed =>
  refuse(`“${text.trim()}” can't be read; type a number, like ${example(quantity, shown, range)}`)

function example(quantity: Quantity, shown: Unit, range: Range): string {
  const usual: Record<Quantity['name'], number> = {
    length: 80,
    temperature: 4,
    duration: 12,
    area: 0.4,
    film: 8,
    mass: 2,
    volume: 5,
    share: 0.5,
    count: 4,
    stress: 10,
    conductance: 1,
    difference: 2,
    percent: 10,
    density: 500,
    'piece weight': 50,
    speed: 0.5,
    power: 150,
  }
  return shownQuantity(Math.min(Math.max(usual[quantity.name], range.low), range.high), shown)
}

function unitsOf(quantity: Quantity): string {
  const names = quantity.units.map((one) => one.name).filter((name) => name !== '')
  return names.length > 1 ? `${names.slice(0, -1).join(', ')} or ${names.at(-1)}` : (names[0] ?? 'only numbers')
}
