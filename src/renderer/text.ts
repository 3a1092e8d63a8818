import { targetWords } from '../core/outcomes/target-words.ts'
import type { TargetKind } from './edits/targets.ts'

/** What each kind of question asks, for lists and menus. */
export const questionTitles = Object.fromEntries(
  Object.entries(targetWords).map(([kind, { asks }]) => [kind, asks]),
) as Readonly<Record<TargetKind, string>>

/** The question in one word. */
export const questionWord = (target: string): string => targetWords[target as TargetKind]?.short ?? target

/** What the units are called together, in the header. */
export const unitsWords = ({
  temperature,
  length,
  mass,
}: {
  temperature: string
  length: string
  mass: string
}): string => `°${temperature} · ${length} · ${mass}`
