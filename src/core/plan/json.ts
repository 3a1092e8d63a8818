import type { Fault } from '../errors.ts'
import { type Path, sayPath } from './path.ts'

/*
 * JSON with faults that a person can act on. The engine's own parser says where it stopped in words that differ from
 * engine to engine, takes the last of two equal keys in silence, and recurses into what is nested; so the text is
 * walked once here, without recursion, before it is parsed.
 */

/** Deepest nesting that is read; a plan itself needs 8. */
export const DEEPEST = 32

interface Frame {
  readonly kind: 'object' | 'array'
  readonly opened: number
  /** Keys seen so far in an object. */
  readonly keys: Set<string>
  /** The key or index at which the walk is. */
  step: string | number
}

type Awaits = 'value' | 'value or end' | 'key' | 'key or end' | 'colon' | 'comma or end' | 'nothing'

/** Line and column (both from 1) of a character. */
function lineAndColumn(text: string, at: number): string {
  let line = 1
  let lineStart = 0
  for (let index = text.indexOf('\n'); index >= 0 && index < at; index = text.indexOf('\n', index + 1)) {
    line++
    lineStart = index + 1
  }
  return `line ${line}, column ${at - lineStart + 1}`
}

const isSpace = (code: number): boolean => code === 32 || code === 10 || code === 13 || code === 9
const isNumber = /^-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?$/
const endsWord = /[\s,:[\]{}"]/
const notNumbers = ['NaN', '-NaN', 'Infinity', '-Infinity', '+Infinity', 'undefined', 'None', 'nil']
const otherQuotes = ["'", '“', '”', '‘', '’', '„', '«']
const show = (word: string): string => (word.length > 24 ? `${word.slice(0, 24)}…` : word)

class Walk {
  private readonly text: string
  private at = 0
  private awaits: Awaits = 'value'
  private readonly stack: Frame[] = []
  readonly faults: Fault[] = []

  constructor(text: string) {
    this.text = text
  }

  /** True when the text is whole JSON; otherwise the last fault says why not. */
  run(): boolean {
    const { text } = this
    for (;;) {
      while (this.at < text.length && isSpace(text.charCodeAt(this.at))) this.at++
      if (this.at >= text.length) return this.end()
      if (!this.step(text[this.at]!)) return false
    }
  }

  private get path(): Path {
    return this.stack.map((frame) => frame.step)
  }

  private stop(problem: string, remedy: string, at = this.at): false {
    this.faults.push({ path: '', problem: `${lineAndColumn(this.text, at)}: ${problem}`, remedy })
    return false
  }

  private end(): boolean {
    const open = this.stack[this.stack.length - 1]
    if (open !== undefined) {
      const bracket = open.kind === 'object' ? '{' : '['
      const opened = lineAndColumn(this.text, open.opened)
      return this.stop(
        'the text ends in the middle',
        `close what "${bracket}" opened in ${opened}, or save the file again`,
      )
    }
    return this.awaits === 'nothing' || this.stop('there is no plan in it', 'begin with {"format": "thickset-plan", …}')
  }

  private step(letter: string): boolean {
    switch (this.awaits) {
      case 'nothing':
        return this.stop(
          `more text after the end: "${show(this.word())}"`,
          'leave one { … } in the file and nothing after it',
        )
      case 'colon':
        if (letter !== ':') return this.stop('no colon after a key', 'write "key": value')
        this.at++
        this.awaits = 'value'
        return true
      case 'comma or end':
        return this.comma(letter)
      case 'key':
      case 'key or end':
        return this.key(letter)
      default:
        return this.value(letter)
    }
  }

  private comma(letter: string): boolean {
    const frame = this.stack[this.stack.length - 1]!
    if (letter === ',') {
      this.at++
      this.awaits = frame.kind === 'object' ? 'key' : 'value'
      if (typeof frame.step === 'number') frame.step++
      return true
    }
    if (letter === '}' || letter === ']') return this.close(letter)
    if (letter === '/' || letter === '#') return this.comment()
    return this.stop(`"${show(this.word())}" where a comma or the end was due`, 'put a comma between two entries')
  }

  private close(letter: string): boolean {
    const frame = this.stack[this.stack.length - 1]!
    if ((frame.kind === 'object') !== (letter === '}')) {
      const opened = `"${frame.kind === 'object' ? '{' : '['}" of ${lineAndColumn(this.text, frame.opened)}`
      return this.stop(`"${letter}" closes nothing`, `close ${opened} first`)
    }
    this.stack.pop()
    this.at++
    this.done()
    return true
  }

  private done(): void {
    this.awaits = this.stack.length === 0 ? 'nothing' : 'comma or end'
  }

  private key(letter: string): boolean {
    if (letter === '}') {
      if (this.awaits === 'key') return this.stop('a comma before "}"', 'take the comma away')
      return this.close(letter)
    }
    if (letter === '/' || letter === '#') return this.comment()
    if (letter !== '"') {
      if (/\d/.test(letter) && /\d,\s*$/.test(this.text.slice(Math.max(0, this.at - 8), this.at)))
        return this.stop('a number with a comma in it', 'write decimals with a point, such as 1.5')
      const quoted = otherQuotes.includes(letter)
      const problem = quoted ? `a key in ${letter} quotes` : `a key without quotes: ${show(this.word())}`
      return this.stop(problem, 'put keys in straight double quotes')
    }
    const began = this.at
    const raw = this.string()
    if (raw === null) return false
    const key = JSON.parse(raw) as string
    const frame = this.stack[this.stack.length - 1]!
    frame.step = key
    if (key === '__proto__') return this.stop('"__proto__" as a key', 'take it out', began)
    if (frame.keys.has(key)) {
      const remedy = `keep one of the two (the second is in ${lineAndColumn(this.text, began)})`
      this.faults.push({ path: sayPath(this.path), problem: 'stands twice', remedy })
    }
    frame.keys.add(key)
    this.awaits = 'colon'
    return true
  }

  private value(letter: string): boolean {
    if (letter === '{' || letter === '[') return this.open(letter === '{' ? 'object' : 'array')
    if (letter === ']' && this.stack.length > 0) {
      if (this.awaits === 'value or end') return this.close(letter)
      return this.stop('a comma before "]"', 'take the comma away')
    }
    if (letter === '"') {
      if (this.string() === null) return false
      this.done()
      return true
    }
    if (letter === '/' || letter === '#') return this.comment()
    if (otherQuotes.includes(letter)) return this.stop(`text in ${letter} quotes`, 'put text in straight double quotes')
    return this.bare()
  }

  private open(kind: Frame['kind']): boolean {
    if (this.stack.length === DEEPEST)
      return this.stop(
        `nested more than ${DEEPEST} levels deep`,
        'a plan needs 8 levels; check the brackets before this place',
      )
    this.stack.push({ kind, opened: this.at, keys: new Set(), step: kind === 'array' ? 0 : '' })
    this.at++
    this.awaits = kind === 'object' ? 'key or end' : 'value or end'
    return true
  }

  /** The characters up to the next bracket, comma, colon, quote or space. */
  private word(): string {
    let end = this.at + 1
    while (end < this.text.length && end - this.at < 400 && !endsWord.test(this.text[end]!)) end++
    return this.text.slice(this.at, end)
  }

  private bare(): boolean {
    const word = this.word()
    if (word === 'true' || word === 'false' || word === 'null' || isNumber.test(word)) {
      this.at += word.length
      this.done()
      return true
    }
    if (notNumbers.includes(word)) return this.stop(`${word} is no number`, 'give a number, or leave the key out')
    if (/^[-+.\d]/.test(word))
      return this.stop(
        `"${show(word)}" is no number as JSON writes it`,
        'write digits with a point for decimals, such as -12.5',
      )
    return this.stop(`"${show(word)}" where a value was due`, 'give a number, a text in double quotes, [ … ] or { … }')
  }

  private comment(): false {
    return this.stop(`a comment or a stray "${this.text[this.at]}"`, 'take it out: JSON has no comments')
  }

  /** Moves past a text; gives it with its quotes, or null after noting the fault. */
  private string(): string | null {
    const { text } = this
    const began = this.at
    for (let at = began + 1; at < text.length; at++) {
      const code = text.charCodeAt(at)
      if (code === 34) {
        this.at = at + 1
        return text.slice(began, at + 1)
      }
      if (code < 32) {
        this.stop('a text that does not end in its line', 'close it with a double quote', began)
        return null
      }
      if (code === 92) {
        const escaped = /^\\(?:["\\/bfnrt]|u[0-9a-fA-F]{4})/.exec(text.slice(at, at + 6))
        if (escaped === null) {
          this.stop(`"${text.slice(at, at + 2)}" means nothing in a text`, 'write \\\\ for a backslash', at)
          return null
        }
        at += escaped[0].length - 1
      }
    }
    this.stop('a text that does not end', 'close it with a double quote', began)
    return null
  }
}

/** The value that a JSON text stands for, with every fault of its writing; no value where it can't be read. */
export function readJson(text: string): { readonly value?: unknown; readonly faults: readonly Fault[] } {
  const bare = text.startsWith('\uFEFF') ? text.slice(1) : text
  const walk = new Walk(bare)
  if (!walk.run()) return { faults: walk.faults }
  return { value: JSON.parse(bare) as unknown, faults: walk.faults }
}
