import { type Words, wordFault } from './words.ts'

/** A whole number among the words; the usual one where none is given. Throws `PlanError`. */
export function wholeOf(words: Words, option: string, usual: number, least: number, most: number): number {
  const text = words.text(option)
  if (text === undefined) return usual
  const value = Number(text)
  if (!Number.isInteger(value) || value < least || value > most)
    throw wordFault(`--${option} ${text} is out of range`, `write a whole number from ${least} to ${most}`)
  return value
}
