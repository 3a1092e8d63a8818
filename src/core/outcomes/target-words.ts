import type { TargetKind } from './target.ts'

/** What a kind of target is called, and what its answers rest on. */
export interface TargetWords {
  readonly title: string
  /** As a question. */
  readonly asks: string
  /** In one or two words. */
  readonly short: string
  /** The rule or law behind it, with its source; laws of materials come on top. */
  readonly source: string
  /** What no answer of this kind can know. */
  readonly unknown: string
}

const CONDUCTION =
  'heat conduction with the enthalpy of each layer (checked against exact solutions: thickset verify); sources of each material: thickset material'
const ASKED = 'whether the temperature asked for is the right one is not computed'
const FIELD = 'how a probe sits, and how well mould, air and recipe are as given'
const LAWS = 'the setting laws of its materials'

/** Every kind of target. */
export const targetWords: Readonly<Record<TargetKind, TargetWords>> = {
  cooled: {
    title: 'Cooled',
    asks: 'Cooled to the core?',
    short: 'Cooled',
    source: CONDUCTION,
    unknown: `${ASKED}; ${FIELD}`,
  },
  frozen: {
    title: 'Frozen',
    asks: 'Frozen to the core?',
    short: 'Frozen',
    source: CONDUCTION,
    unknown: `${ASKED}; ${FIELD}; how large its ice crystals get`,
  },
  baked: {
    title: 'Baked',
    asks: 'Baked through?',
    short: 'Baked',
    source: `${CONDUCTION}; usual windows of core temperatures: chart at renecarter.wordpress.com 2016 (seen)`,
    unknown: `${ASKED}; ${FIELD}; how its crumb feels and springs back`,
  },
  set: {
    title: 'Set',
    asks: 'Set everywhere?',
    short: 'Set',
    source: LAWS,
    unknown: 'how this batch sets: try a cup of it beside the piece',
  },
  unmould: {
    title: 'Ready to unmould',
    asks: 'Ready to unmould?',
    short: 'To unmould',
    source: `${LAWS}; strength against load: twice the load and at most 15 % of sag (choice)`,
    unknown: 'how it clings to its mould, and how gently it is handled: try a cup of it beside the piece',
  },
  coat: {
    title: 'Ready to coat',
    asks: 'Ready to coat?',
    short: 'To coat',
    source: `${LAWS}; dew point: Magnus form, constants 17.625 and 243.04 °C (Alduchov and Eskridge 1996)`,
    unknown: 'draughts, breath and frost that lies on it already',
  },
  cut: {
    title: 'Ready to cut',
    asks: 'Ready to cut?',
    short: 'To cut',
    source: `${LAWS}; ice from 50 to 62 % of its water lets a blade through (choice)`,
    unknown: 'the blade, and how coarse its ice or crumb is',
  },
  stay: {
    title: 'Stays set',
    asks: 'Stays set?',
    short: 'Stays set',
    source: LAWS,
    unknown: 'sun, lamps and hands that the plan does not name',
  },
  edge: {
    title: 'Edge not over-baked',
    asks: 'Edge not over-baked?',
    short: 'Edge',
    source:
      'drying: a crumb stays below 100 °C while it is wet (chapter on cake batters, seen); 10 mm of crust welcome (choice)',
    unknown: 'how dry the crumb under the crust gets, and what sugar and milk do to its colour',
  },
}
