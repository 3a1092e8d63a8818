/*
 * Times in a text that stand there without a band. A band follows its time in brackets ("Sat 02:55 (01:40 to 04:10)"),
 * or is told as "between … and …", or as two ends joined by "to". What is left over must be given, not computed.
 */

const clock = String.raw`\d{1,2}:\d\d(?: [ap]m)?`
const day = String.raw`(?:Mon|Tue|Wed|Thu|Fri|Sat|Sun)(?: \d{1,2} [A-Z][a-z]{2},?)?`
const moment = String.raw`(?:at ${clock} on ${day}|${clock} on ${day}|${day} ${clock}|[\d.]+ h after the start)`
const stretch = String.raw`−?(?:\d+(?:\.\d+)?½? h(?: \d+ min)?|\d+(?:\.\d+)? min|under 5 min)`
const time = `(?:${moment}|${stretch})`
/** An end of a band may leave out what both ends share: the day, or the unit. */
const end = String.raw`(?:${time}|${clock}|\d+(?:\.\d+)?½?|0)(?: (?:too late|to spare|ahead|behind|less|more|lost))?`
const open = `(?:after the end of the plan)`
const range = `(?:${end} to (?:${end}|${open})|${end} or (?:later|longer|more)|${end} at (?:most|best))`

const bands = [
  new RegExp(String.raw`${time}(?: [a-z ]{0,24})?\s*\(${range}\)`, 'g'),
  new RegExp(String.raw`(?:${time}(?: found)?[,;]?\s*)?between ${end} and (?:${end}|${open})`, 'g'),
  new RegExp(String.raw`${time}\s+(?:early to late\s+)?${range}`, 'g'),
  new RegExp(range, 'g'),
  // the ends of a band told one by one
  /at the (?:late|early) end[^.;)]*/g,
]

/** Every time in a text that has no band and is none of those given. */
export function unbandedTimes(text: string, given: readonly string[]): string[] {
  const plain = text.replaceAll(' ', ' ')
  const left = bands.reduce((rest, band) => rest.replace(band, ' '), plain)
  const known = new Set(given)
  return [...left.matchAll(new RegExp(time, 'g'))]
    .map(([found]) => found.replace(/,$/, ''))
    .filter((found) => !known.has(found))
}
