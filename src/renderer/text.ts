import type { TargetKind } from './edits/targets.ts'

/** What each kind of question asks, for lists and menus. */
export const questionTitles: Readonly<Record<TargetKind, string>> = {
  cooled: 'Cooled to the core?',
  frozen: 'Frozen to the core?',
  baked: 'Baked through?',
}

const words: Readonly<Record<string, string>> = { cooled: 'Cooled', frozen: 'Frozen', baked: 'Baked' }

/** The question in one word. */
export const questionWord = (target: string): string => words[target] ?? target

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
