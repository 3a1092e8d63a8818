import type { StateLaw } from '../../materials/state-law.ts'
import type { z } from '../../zod.ts'

/*
 * What a setting law is. Each law has three sets of parameters: low is the least advanced or the weakest, so the safe
 * side for "may it be unmoulded?", high the most advanced. A law advances a few values of a place along straight
 * pieces of its temperature history; what is asked of the values (set, firm enough, too warm again) are criteria with
 * a margin that passes zero.
 */

export type Level = 'low' | 'typical' | 'high'

/** Where a figure comes from and how far it can be trusted. */
export type Certainty = 'seen in the source' | 'from memory' | 'estimate' | 'choice'

/** One parameter of a law at its three levels. */
export interface Parameter {
  readonly low: number
  readonly typical: number
  readonly high: number
  readonly unit: string
  readonly source: string
  readonly certainty: Certainty
}

export const parameter = (
  [low, typical, high]: readonly [number, number, number],
  unit: string,
  certainty: Certainty,
  source: string,
): Parameter => ({ low, typical, high, unit, certainty, source })

/** What can be asked of a place's state. */
export type Mark =
  /** Holds together. */
  | 'set'
  /** Firm enough to leave its mould; strength against load comes on top. */
  | 'firm'
  /** Clean to cut. */
  | 'cut'
  /** Too warm again: what was set is lost or about to be. */
  | 'lost'
  /** Taken too far: curdled, burnt. */
  | 'overdone'

/** A question to a place's state: fulfilled where the margin is not negative. */
export interface Criterion {
  /** Any unit; passes zero where the answer changes. */
  margin(values: ArrayLike<number>, T_C: number): number
  /** Must have held for so long without a break, s; 0 when left out. */
  readonly lasting?: number
}

/** A value of the law has come so far. */
export const reached = (share: number, at = 0): Criterion => ({ margin: (values) => values[at]! - share })

/** The same, and the place is no warmer than a temperature; a hundred kelvin weigh as much as the whole value. */
export const reachedCold = (share: number, warmest_C: number, at = 0): Criterion => ({
  margin: (values, T_C) => Math.min(values[at]! - share, (warmest_C - T_C) / 100),
})

/** The frame of a law that has no clock of its own: temperature alone decides. */
export const byTemperatureAlone: Pick<SettingLaw, 'names' | 'start' | 'advance'> = {
  names: [],
  start: () => [],
  advance: () => {},
}

/** How strong a place is, for loads and slump. */
export interface Strength {
  /** Shear modulus, Pa. */
  modulus(values: ArrayLike<number>, T_C: number): number
  /** Stress at which it fails, over the modulus. */
  readonly failsAt: number
  /** Strength over load below which it counts as too warm again; absent where warming alone says it. */
  readonly alarm?: number
}

/** A law with its parameters chosen, ready to be integrated along any temperature history. */
export interface SettingLaw extends StateLaw {
  readonly id: string
  readonly title: string
  /** How far it has got, 0 to 1 (a little above 1 in the cold). */
  extent(values: ArrayLike<number>, T_C: number): number
  readonly criteria: Readonly<Partial<Record<Mark, Criterion>>>
  readonly strength?: Strength
  /** Linear shrinkage on setting, for what must come away from its mould. */
  shrink?(values: ArrayLike<number>, T_C: number): number
  /** Why a place may never get there, by its values at the end: `never dissolved`; undefined when nothing is in the way. */
  obstacle?(values: ArrayLike<number>, T_C: number): Obstacle | undefined
}

export type Obstacle = 'never-dissolved' | 'never-cooked' | 'temper-lost' | 'never-releases' | 'acid-breaks-it'

/** A family of masses: what a law is before its inputs are known. */
export interface LawKind<Shape extends z.ZodObject = z.ZodObject, Names extends string = string> {
  readonly id: string
  readonly title: string
  /** What a material must say: `by`, the id, and the law's own inputs. */
  readonly inputs: Shape
  readonly parameters: Readonly<Record<Names, Parameter>>
  /** In words, for the answer. */
  readonly source: string
  /** What the law can't know, in words. */
  readonly weak: string
  make(
    inputs: z.infer<Shape>,
    parameters: Readonly<Record<Names, number>>,
    level: Level,
  ): Omit<SettingLaw, 'id' | 'title'>
}

/** Ties a kind's inputs and parameters to its law. */
export const defineLaw = <Shape extends z.ZodObject, Names extends string>(
  kind: LawKind<Shape, Names>,
): LawKind<Shape, Names> => kind

/** Numbers of a kind's parameters at a level. */
export function valuesAt<Names extends string>(
  parameters: Readonly<Record<Names, Parameter>>,
  level: Level,
): Readonly<Record<Names, number>> {
  const entries = Object.entries<Parameter>(parameters).map(([name, one]) => [name, one[level]])
  return Object.fromEntries(entries) as Record<Names, number>
}
