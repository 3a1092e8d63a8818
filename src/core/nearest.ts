/** Fewest single-letter changes (put in, left out, other, swapped with its neighbour) from one word to another. */
function changesBetween(from: string, to: string): number {
  let beforeLast: number[] = []
  let last = Array.from({ length: to.length + 1 }, (_, column) => column)
  for (let row = 1; row <= from.length; row++) {
    const current = [row]
    for (let column = 1; column <= to.length; column++) {
      const same = from[row - 1] === to[column - 1]
      let fewest = Math.min(last[column]! + 1, current[column - 1]! + 1, last[column - 1]! + (same ? 0 : 1))
      const swapped = from[row - 1] === to[column - 2] && from[row - 2] === to[column - 1]
      if (row > 1 && column > 1 && swapped) fewest = Math.min(fewest, beforeLast[column - 2]! + 1)
      current.push(fewest)
    }
    beforeLast = last
    last = current
  }
  return last[to.length]!
}

const plain = (word: string): string => word.toLowerCase().replace(/[\s._-]+/g, '-')

/** The known word that was probably meant; undefined when none is near. */
export function nearest(word: string, known: Iterable<string>): string | undefined {
  const asked = plain(word.slice(0, 80))
  let best: string | undefined
  let fewest = Number.POSITIVE_INFINITY
  const most = Math.floor(asked.length / 3)
  for (const candidate of known) {
    const name = plain(candidate)
    // A unit forgotten, a word cut short or one word of several is one change, however many letters it has.
    const cut =
      asked.length > 2 && (name.startsWith(asked) || asked.startsWith(name) || name.split('-').includes(asked))
    // Each letter more or less is a change of its own: too many make counting idle.
    if (!cut && Math.abs(asked.length - name.length) > most) continue
    const changes = cut ? Math.min(1, changesBetween(asked, name)) : changesBetween(asked, name)
    if (changes < fewest) {
      fewest = changes
      best = candidate
    }
  }
  return fewest <= most ? best : undefined
}

/** The remedy for an unknown word: the one that was probably meant, or the words there are. */
export function didYouMean(word: string, known: readonly string[]): string {
  const meant = nearest(word, known)
  if (meant !== undefined) return `did you mean "${meant}"?`
  return known.length === 0 ? 'there is none to choose from' : `known are: ${known.join(', ')}`
}
