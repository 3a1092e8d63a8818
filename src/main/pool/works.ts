import type { Begin } from '../../core/pooled/work.ts'
import type { WorkName, Works } from './work.ts'

/** How each kind of work is done; a worker loads what it needs. One more is one line. */
export const works: { readonly [Name in WorkName]: () => Promise<Begin<Works[Name]>> } = {
  fit: async () => (await import('../../core/pooled/fit-work.ts')).beginFit,
  forecasts: async () => (await import('../cli/forecasts-work.ts')).beginForecasts,
  looks: async () => (await import('../../core/pooled/looks-work.ts')).beginLooks,
  spread: async () => (await import('../../core/pooled/spread-work.ts')).beginSpread,
}
