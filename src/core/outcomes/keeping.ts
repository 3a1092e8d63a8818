import type { Keeping } from '../materials/keeping.ts'

/*
 * Which food needs no control of time and temperature, by its water activity and pH. Source: FDA Food Code
 * 1-201.10(B), tables A and B, read in Tenn. Comp. R. & Regs. 0080-04-09-.01 and 25 Tex. Admin. Code 228.2(144).
 */

/** `exempt`: grows nothing of concern as such; `assess`: controlled until somebody has shown otherwise. */
export type Control = 'exempt' | 'assess'

/** Table A: heat-treated and then packaged, so that only spores count. */
function packagedControl(aw: number, pH: number): Control {
  if (aw <= 0.92 || pH <= 4.6) return 'exempt'
  return aw <= 0.95 && pH <= 5.6 ? 'exempt' : 'assess'
}

/** Table B: not heat-treated, or heat-treated and not packaged. pH 4.2 and aw 0.88 belong to the stricter side. */
function openControl(aw: number, pH: number): Control {
  if (aw < 0.88 || pH < 4.2) return 'exempt'
  if (aw <= 0.9) return pH <= 5 ? 'exempt' : 'assess'
  if (aw <= 0.92) return pH <= 4.6 ? 'exempt' : 'assess'
  return 'assess'
}

/** Whether food of this water activity and pH needs control; as a rule a dessert is not packaged after it was heated. */
export function controlOf(aw: number, pH: number, heatTreatedAndPackaged = false): Control {
  return heatTreatedAndPackaged ? packagedControl(aw, pH) : openControl(aw, pH)
}

/** pH taken where none is known: no acid that would help. */
const NO_ACID_PH = 7

/**
 * Whether a place is exempt: by the wetter of the masses that meet there and the less acid of them, each at the upper
 * end of what is known; what is not known is not exempt.
 */
export function isExempt(meeting: readonly (Keeping | undefined)[]): boolean {
  if (meeting.length === 0 || meeting.some((one) => one === undefined)) return false
  const known = meeting as readonly Keeping[]
  const aw = Math.max(...known.map((one) => one.aw[1]))
  const pH = Math.max(...known.map((one) => one.pH?.[1] ?? NO_ACID_PH))
  return controlOf(aw, pH) === 'exempt'
}
