import type { Begin, WorkName, Works } from './work.ts'

/** How each kind of work is done; a worker loads what it needs. One more is one line. */
export const works: { readonly [Name in WorkName]: () => Promise<Begin<Works[Name]>> } = {
  fit: async () => (await import('../cli/fit-work.ts')).beginFit,
  forecasts: async () => (await import('../cli/forecasts-work.ts')).beginForecasts,
  looks: async () => (await import('../cli/looks-work.ts')).beginLooks,
  spread: async () => (await import('../spread/spread-work.ts')).beginSpread,
}
