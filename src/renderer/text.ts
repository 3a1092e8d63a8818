import type { TargetKind } from './edits/targets.ts'

/** What each kind of question asks, for lists and menus. */
export const questionTitles: Readonly<Record<TargetKind, string>> = {
  cooled: 'Cooled to the core?',
  frozen: 'Frozen to the core?',
  baked: 'Baked through?',
  set: 'Set everywhere?',
  unmould: 'Ready to unmould?',
  coat: 'Ready to coat?',
  cut: 'Ready to cut?',
  stay: 'Stays set?',
  edge: 'Edge not over-baked?',
}

const words: Readonly<Record<string, string>> = {
  cooled: 'Cooled',
  frozen: 'Frozen',
  baked: 'Baked',
  set: 'Set',
  unmould: 'To unmould',
  coat: 'To coat',
  cut: 'To cut',
  stay: 'Stays set',
  edge: 'Edge',
}

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
