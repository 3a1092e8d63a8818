/** Words as a sentence: a capital at the start, one full stop at the end. */
export function sentence(words: string): string {
  const text = words.trim()
  const stop = /[.!?]$/.test(text) ? '' : '.'
  return text.charAt(0).toUpperCase() + text.slice(1) + stop
}
