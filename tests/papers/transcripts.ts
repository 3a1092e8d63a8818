/*
 * Commands in the papers. A block of `console` holds commands after "$ " and, below each, lines that it prints: whole
 * ones, in their order, "…" standing for what is left out. A block of `sh` holds commands alone. " # exit 2" after a
 * command says with which code it ends when that is not 0; other words after " # " are for the reader.
 */

export interface Quoted {
  /** Line in the paper, from 0. */
  readonly line: number
  readonly text: string
}

export interface Command {
  readonly paper: string
  readonly line: number
  readonly words: string
  readonly exit: number
  readonly quoted: readonly Quoted[]
}

/** The language of every fenced block of a paper, with the line at which it begins. */
export function fencesOf(text: string): { readonly language: string; readonly line: number }[] {
  let inside = false
  return text.split('\n').flatMap((line, index) => {
    if (!line.startsWith('```')) return []
    inside = !inside
    return inside ? [{ language: line.slice(3).trim(), line: index }] : []
  })
}

/** Every command of a paper. */
export function commandsOf(paper: string, text: string): Command[] {
  const commands: (Omit<Command, 'quoted'> & { quoted: Quoted[] })[] = []
  let language: string | undefined
  for (const [line, content] of text.split('\n').entries()) {
    if (content.startsWith('```')) {
      language = language === undefined ? content.slice(3).trim() : undefined
      continue
    }
    if (language === 'sh' && content.trim() !== '') commands.push(commandAt(paper, line, content))
    if (language !== 'console') continue
    if (content.startsWith('$ ')) commands.push(commandAt(paper, line, content.slice(2)))
    else if (content.trim() !== '' && content.trim() !== '…') commands.at(-1)?.quoted.push({ line, text: content })
  }
  return commands
}

function commandAt(paper: string, line: number, content: string) {
  const [words = '', comment = ''] = content.split(/\s+# /)
  return { paper, line, words: words.trim(), exit: Number(/^exit (\d)/.exec(comment)?.[1] ?? 0), quoted: [] }
}

/** Clock times, and numbers with a true or a plain minus. */
const NUMBER = /\d\d:\d\d|[−-]?\d+(?:\.\d+)?/g
const skeleton = (line: string): string => line.replace(NUMBER, '#').replace(/\s+/g, ' ').trim()

/** A number may differ from the quoted one by this share, or by two of its last digits. */
const SHARE = 0.03
const CLOCK_MIN = 15

/** Whether two numbers say the same to a reader. */
export function sameNumber(quoted: string, said: string): boolean {
  if (quoted.includes(':') !== said.includes(':')) return false
  if (quoted.includes(':')) {
    const minutes = (clock: string): number => Number(clock.slice(0, 2)) * 60 + Number(clock.slice(3))
    return Math.abs(minutes(quoted) - minutes(said)) <= CLOCK_MIN
  }
  const value = (text: string): number => Number(text.replace('−', '-'))
  const places = quoted.split('.')[1]?.length ?? 0
  const allowed = Math.max(SHARE * Math.abs(value(quoted)), 2 * 10 ** -places)
  return Math.abs(value(quoted) - value(said)) <= allowed + 1e-12
}

const numbers = (line: string): string[] => line.match(NUMBER) ?? []

/** Whether a line says what was quoted. A quoted line that ends in "…" is the beginning of one. */
function says(line: string, quoted: string): boolean {
  if (quoted.trimEnd().endsWith('…')) {
    const begun = quoted.trimEnd().slice(0, -1).trimEnd()
    return skeleton(line).startsWith(skeleton(begun))
  }
  return skeleton(line) === skeleton(quoted)
}

/** What is printed for every quoted line: the first after the one before that says the same, undefined where none does. */
export function foundLines(quoted: readonly Quoted[], printed: string): (string | undefined)[] {
  const lines = printed.split('\n')
  let from = 0
  return quoted.map(({ text }) => {
    const at = lines.findIndex((line, index) => index >= from && says(line, text))
    if (at < 0) return undefined
    from = at + 1
    return lines[at]
  })
}

/** What is not true of a quoted line; nothing where it is. */
export function untruth({ text }: Quoted, found: string | undefined): string | undefined {
  if (found === undefined) return `nothing like "${text.trim()}" is printed there`
  const said = numbers(found)
  const wrong = numbers(text).some((number, index) => !sameNumber(number, said[index] ?? ''))
  return wrong ? `"${text.trim()}" is quoted, "${found.trim()}" is printed` : undefined
}

/** The quoted line with the numbers that are printed now. */
export function renewed({ text }: Quoted, found: string): string {
  if (!text.trimEnd().endsWith('…')) return found.trimEnd()
  const said = numbers(found)
  let index = 0
  return text.replace(NUMBER, () => said[index++] ?? '')
}
