/** A computed time in words: the likely one, then its band where it has one. */

/** Ends of a band, h; a side is absent where it is not known, or lies beyond the plan. */
export interface TimeBand {
  readonly early_h?: number
  readonly late_h?: number
}

/** What stands before a moment in a sentence does not stand within a band. */
const bare = (words: string): string => words.replace(/^at /, '')

/**
 * "Sat 02:55 (01:40 to 04:10)"; one time where all three read the same.
 * @param word  a moment or a duration in words
 * @param open  what an open end is called: "later" for moments, "longer" for durations
 */
export function bandedWords(
  word: (h: number) => string,
  likely_h: number,
  { early_h, late_h }: TimeBand,
  open: 'later' | 'longer',
): string {
  const likely = word(likely_h)
  if (early_h === undefined) return late_h === undefined ? likely : `${likely} (${bare(word(late_h))} at most)`
  if (late_h === undefined) return `${likely} (${bare(word(early_h))} or ${open})`
  const [early, late] = [word(early_h), word(late_h)]
  return early === likely && late === likely ? likely : `${likely} (${bare(early)} to ${bare(late)})`
}

/** Key of one end of the band of a value: `at_h` has `at_early_h` and `at_late_h`. */
export const bandKey = (key: string, end: 'early' | 'late'): string => key.replace(/_h$/, `_${end}_h`)

/** The band of a value as further values of the same message. */
export function bandValues(key: string, { early_h, late_h }: TimeBand): Record<string, number> {
  return {
    ...(early_h === undefined ? {} : { [bandKey(key, 'early')]: early_h }),
    ...(late_h === undefined ? {} : { [bandKey(key, 'late')]: late_h }),
  }
}
