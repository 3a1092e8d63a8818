/*
 * Formulas written as text in a file of cases: `25 + 0.1*t`, `exp(-((T-28)/3)^2/2)`, and laws in pieces
 * `T >= a: …;  T < a: …`. Text is parsed to closures here; nothing is ever handed to the language's own evaluator.
 */

/** Values of the names in a formula, by name. */
export type Values = Readonly<Record<string, number>>

/** A formula of one argument that others may call by name, such as an ice share `phi(T)`. */
export interface Definition {
  readonly name: string
  readonly of: (argument: number, values: Values) => number
}

/** A parsed formula. */
export interface Formula {
  readonly text: string
  /** Names that must be given a value, π left out. */
  readonly names: ReadonlySet<string>
  /** Angular frequencies (per unit of `t`) of the sines and cosines in it, for finding its period. */
  readonly frequencies: readonly number[]
  evaluate(values: Values): number
}

/** Text that is no formula: where it stops making sense, and what was expected there. */
export class FormulaError extends Error {
  constructor(text: string, at: number, expected: string) {
    super(`"${text}" at character ${at + 1}: ${expected}`)
    this.name = 'FormulaError'
  }
}

type Evaluate = (values: Values) => number

const FUNCTIONS: Readonly<Record<string, (x: number) => number>> = {
  exp: Math.exp,
  sqrt: Math.sqrt,
  abs: Math.abs,
  sin: Math.sin,
  cos: Math.cos,
  tan: Math.tan,
  log: Math.log,
  ln: Math.log,
}
const WAVES = new Set(['sin', 'cos'])
const TOKEN = /\s*(?:(\d+\.?\d*(?:[eE][+-]?\d+)?|\.\d+(?:[eE][+-]?\d+)?)|([A-Za-z_]\w*)|(>=|<=|[-+*/^()<>:;,=]))/y
/** A unit named in passing, as after a condition. */
const UNIT_REMARK = /\(\s*(?:degC|°C|K)\s*\)/g
/** A formula is a line of a file, not a program. */
const LONGEST = 2_000
const DEEPEST = 60

interface Token {
  readonly kind: 'number' | 'name' | 'sign' | 'end'
  readonly text: string
  readonly at: number
}

function tokenize(text: string): readonly Token[] {
  const tokens: Token[] = []
  TOKEN.lastIndex = 0
  while (text.slice(TOKEN.lastIndex).trim() !== '') {
    const at = TOKEN.lastIndex
    const match = TOKEN.exec(text)
    if (match === null) throw new FormulaError(text, at, 'a number, a name or one of + - * / ^ ( )')
    const [, digits, name, sign] = match
    if (digits !== undefined) tokens.push({ kind: 'number', text: digits, at })
    else if (name !== undefined) tokens.push({ kind: 'name', text: name, at })
    else tokens.push({ kind: 'sign', text: sign ?? '', at })
  }
  tokens.push({ kind: 'end', text: '', at: text.length })
  return tokens
}

class Parser {
  readonly names = new Set<string>()
  /** Arguments of sines and cosines, looked at once the whole is parsed. */
  readonly waves: Evaluate[] = []
  private readonly tokens: readonly Token[]
  private next = 0
  private depth = 0
  private readonly text: string
  private readonly definitions: ReadonlyMap<string, Definition>

  constructor(text: string, definitions: readonly Definition[]) {
    if (text.length > LONGEST) throw new FormulaError(`${text.slice(0, 40)}…`, LONGEST, 'a shorter formula')
    this.text = text
    this.tokens = tokenize(text)
    this.definitions = new Map(definitions.map((definition) => [definition.name, definition]))
  }

  get done(): boolean {
    return this.peek().kind === 'end'
  }

  peek(ahead = 0): Token {
    return this.tokens[Math.min(this.next + ahead, this.tokens.length - 1)] as Token
  }

  fail(expected: string): never {
    throw new FormulaError(this.text, this.peek().at, expected)
  }

  takes(sign: string): boolean {
    const token = this.peek()
    if (token.kind !== 'sign' || token.text !== sign) return false
    this.next += 1
    return true
  }

  takesWord(word: string): boolean {
    const token = this.peek()
    if (token.kind !== 'name' || token.text !== word) return false
    this.next += 1
    return true
  }

  needs(sign: string): void {
    if (!this.takes(sign)) this.fail(`"${sign}"`)
  }

  name(): string {
    const token = this.peek()
    if (token.kind !== 'name') this.fail('a name')
    this.next += 1
    return token.text
  }

  sum(): Evaluate {
    this.depth += 1
    if (this.depth > DEEPEST) this.fail('fewer parentheses in each other')
    let left = this.product()
    for (;;) {
      const a = left
      if (this.takes('+')) {
        const b = this.product()
        left = (v) => a(v) + b(v)
      } else if (this.takes('-')) {
        const b = this.product()
        left = (v) => a(v) - b(v)
      } else {
        this.depth -= 1
        return left
      }
    }
  }

  condition(): Evaluate {
    const a = this.sum()
    if (this.takes('>=')) return compare(a, this.sum(), (x, y) => x >= y)
    if (this.takes('<=')) return compare(a, this.sum(), (x, y) => x <= y)
    if (this.takes('>')) return compare(a, this.sum(), (x, y) => x > y)
    if (this.takes('<')) return compare(a, this.sum(), (x, y) => x < y)
    return this.fail('a comparison: >= > <= or <')
  }

  private product(): Evaluate {
    let left = this.signed()
    for (;;) {
      const a = left
      if (this.takes('*')) {
        const b = this.signed()
        left = (v) => a(v) * b(v)
      } else if (this.takes('/')) {
        const b = this.signed()
        left = (v) => a(v) / b(v)
      } else return left
    }
  }

  /** A minus sign binds weaker than a power: −x² is −(x²). */
  private signed(): Evaluate {
    let minus = false
    while (this.peek().kind === 'sign') {
      if (this.takes('-')) minus = !minus
      else if (!this.takes('+')) break
    }
    const a = this.power()
    return minus ? (v) => -a(v) : a
  }

  private power(): Evaluate {
    const base = this.atom()
    if (!this.takes('^')) return base
    const exponent = this.signed()
    return (v) => base(v) ** exponent(v)
  }

  private atom(): Evaluate {
    const token = this.peek()
    if (token.kind === 'number') {
      this.next += 1
      const value = Number(token.text)
      return () => value
    }
    if (this.takes('(')) {
      const inside = this.sum()
      this.needs(')')
      return inside
    }
    if (token.kind !== 'name') this.fail('a number, a name or "("')
    const name = this.name()
    if (this.takes('(')) return this.call(name)
    if (name === 'pi') return () => Math.PI
    this.names.add(name)
    return (v) => v[name] ?? Number.NaN
  }

  private call(name: string): Evaluate {
    const inside = this.sum()
    this.needs(')')
    const definition = this.definitions.get(name)
    if (definition !== undefined) return (v) => definition.of(inside(v), v)
    const known = Object.hasOwn(FUNCTIONS, name) ? FUNCTIONS[name] : undefined
    if (known === undefined) {
      const all = [...Object.keys(FUNCTIONS), ...this.definitions.keys()]
      throw new FormulaError(this.text, this.peek().at, `"${name}" is no function; known are ${all.join(', ')}`)
    }
    if (WAVES.has(name)) this.waves.push(inside)
    return (v) => known(inside(v))
  }
}

const compare =
  (a: Evaluate, b: Evaluate, holds: (x: number, y: number) => boolean): Evaluate =>
  (v) =>
    holds(a(v), b(v)) ? 1 : 0

/** How fast the argument of a wave turns with `t`; zero where it does not depend on it. */
function frequency(argument: Evaluate): number {
  return argument({ t: 1 }) - argument({ t: 0 })
}

/**
 * The formula in a text: one expression, or pieces `condition: expression; condition: expression`, the first that
 * holds counting.
 * Throws `FormulaError`.
 */
export function parseFormula(text: string, definitions: readonly Definition[] = []): Formula {
  const parser = new Parser(text, definitions)
  const pieces: { readonly when: Evaluate; readonly give: Evaluate }[] = []
  const inPieces = text.includes(':')
  do {
    if (parser.done) break
    const when = inPieces ? parser.condition() : () => 1
    if (inPieces) parser.needs(':')
    pieces.push({ when, give: parser.sum() })
  } while (inPieces && parser.takes(';'))
  if (!parser.done || pieces.length === 0) parser.fail(pieces.length === 0 ? 'an expression' : 'the end of the formula')
  return {
    text,
    names: parser.names,
    frequencies: parser.waves.map(frequency).filter((turn) => Number.isFinite(turn) && turn !== 0),
    evaluate: (values) => pieces.find((piece) => piece.when(values) !== 0)?.give(values) ?? Number.NaN,
  }
}

/**
 * A function written as `phi(T) = expression for condition (remark), else expression`; the part from `for` on may
 * be missing.
 * Throws `FormulaError`.
 */
export function parseDefinition(text: string): Definition {
  const parser = new Parser(text.replaceAll(UNIT_REMARK, ' '), [])
  const name = parser.name()
  parser.needs('(')
  const argument = parser.name()
  parser.needs(')')
  parser.needs('=')
  const own = parser.sum()
  let when: Evaluate = () => 1
  let otherwise: Evaluate = () => Number.NaN
  if (parser.takesWord('for')) {
    when = parser.condition()
    parser.takes(',')
    if (!parser.takesWord('else')) parser.fail('"else"')
    otherwise = parser.sum()
  }
  if (!parser.done) parser.fail('the end of the definition')
  return {
    name,
    of: (value, values) => {
      const inside = { ...values, [argument]: value }
      return when(inside) !== 0 ? own(inside) : otherwise(inside)
    },
  }
}
