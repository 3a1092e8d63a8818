import type { SettingLaw } from './law.ts'
import { byLevels } from './pieces.ts'

/*
 * Gels that set on cooling and melt at a higher temperature: dissolved by heat first, then setting below one
 * temperature, melting above another, and nothing between the two. Between the temperatures at which its rate changes
 * every part is exact.
 */

export interface ColdSetting {
  /** Dissolved once it has been this hot for so long in all; absent: dissolved when it comes. */
  readonly dissolves?: { readonly T_C: number; readonly time: number }
  readonly sets_C: number
  /** Absent: does not melt again. */
  readonly melts_C?: number
  /** s */
  readonly setting: number
  readonly melting: number
}

/** Values of a place: seconds hot enough to dissolve, and how far it has set. */
export const coldSetNames = ['dissolving', 'gelled'] as const

export const isDissolved = ({ dissolves }: ColdSetting, values: ArrayLike<number>): boolean =>
  dissolves === undefined || values[0]! >= dissolves.time * (1 - 1e-9)

/** How a layer comes to its place. */
export type Laid = 'dissolved' | 'undissolved' | 'set'

export function coldSetStart({ dissolves }: ColdSetting, laid: Laid): number[] {
  return [laid === 'undissolved' ? 0 : (dissolves?.time ?? 0), laid === 'set' ? 1 : 0]
}

const levels = new WeakMap<ColdSetting, readonly number[]>()

/** Temperatures at which a law's rate changes, °C; made once a law. */
function levelsOf(law: ColdSetting): readonly number[] {
  const known = levels.get(law)
  if (known !== undefined) return known
  const { dissolves, sets_C, melts_C } = law
  const made = [sets_C, melts_C, dissolves?.T_C].filter((level) => level !== undefined)
  levels.set(law, made)
  return made
}

/** Moves a place along a straight piece. Shape of values: as `coldSetNames`; overwritten. */
export function coldSetAdvance(law: ColdSetting, values: Float64Array, from_C: number, to_C: number, dt: number): void {
  const { dissolves, sets_C, melts_C, setting, melting } = law
  byLevels(from_C, to_C, dt, levelsOf(law), (from, to, part) => {
    const middle = (from + to) / 2
    if (dissolves !== undefined && middle >= dissolves.T_C) values[0] = values[0]! + part
    if (!isDissolved(law, values)) return
    if (middle <= sets_C) values[1] = 1 - (1 - values[1]!) * Math.exp(-part / setting)
    else if (melts_C !== undefined && middle >= melts_C) values[1] = values[1]! * Math.exp(-part / melting)
  })
}

/** The frame of every law of this kind: its values, how it comes, how it moves, how far it is. */
export const coldSetFrame = (
  law: ColdSetting,
  laid: Laid,
): Pick<SettingLaw, 'names' | 'start' | 'advance' | 'extent'> => ({
  names: coldSetNames,
  start: () => coldSetStart(law, laid),
  advance: (values, from_C, to_C, dt) => coldSetAdvance(law, values, from_C, to_C, dt),
  extent: (values) => values[1]!,
})

/** How far a gel's strength has come at a temperature below its setting point; 1 at 20 °C. */
export function coldStrength(T_C: number, sets_C: number, width_K: number): number {
  if (T_C >= sets_C) return 0
  return (1 - Math.exp(-(sets_C - T_C) / width_K)) / (1 - Math.exp(-(sets_C - 20) / width_K))
}

/** What of a layer is said beside the law's own inputs. */
export const laidWords = 'How it comes: dissolved (boiled before), undissolved, or set already; dissolved if left out.'
export const laidKinds = ['dissolved', 'undissolved', 'set'] as const
