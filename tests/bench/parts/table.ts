/** What a bench has found, as a table of Markdown. */
export interface Table {
  readonly title: string
  /** What was measured and how, in sentences. */
  readonly about: string
  readonly columns: readonly string[]
  readonly rows: readonly (readonly string[])[]
}

/** Three figures are as many as a busy machine repeats. */
export const figures = (value: number): string =>
  value === 0 ? '0' : Number(value.toPrecision(3)).toLocaleString('en', { maximumSignificantDigits: 3 })

export const ms = (value: number): string => `${figures(value)} ms`
