import file from '../../shared/reference/sources.json'

const references: Readonly<Record<string, string>> = file

/** The full reference behind a key of shared/reference/sources.json; the key itself where there is none. */
export function sourceWords(key: string): string {
  return Object.hasOwn(references, key) ? (references[key] ?? key) : key
}
