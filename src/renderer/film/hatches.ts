/*
 * Steps of a state map without colour: each step has a hatch of its own, denser from step to step, so that the map can
 * be read printed in grey, by eyes that see no hue and where the system chooses the colours.
 */

export interface Hatch {
  readonly name: string
  /** Side of the square that repeats, px. */
  readonly size: number
  /** Path within the square. */
  readonly lines: string
  readonly width: number
}

const dot = (x: number, y: number): string => `M${x} ${y}h0.01`

/** As many as a scale has steps at most. */
export const hatches: readonly Hatch[] = [
  { name: 'plain', size: 8, lines: '', width: 1 },
  { name: 'few-dots', size: 12, lines: dot(3, 3) + dot(9, 9), width: 2 },
  { name: 'wide-rising', size: 12, lines: 'M-3 3L3 -3M0 12L12 0M9 15L15 9', width: 1 },
  { name: 'level', size: 8, lines: 'M0 4H8', width: 1.1 },
  { name: 'falling', size: 8, lines: 'M-2 6L2 10M0 0L8 8M6 -2L10 2', width: 1.1 },
  { name: 'grid', size: 8, lines: 'M0 4H8M4 0V8', width: 1 },
  { name: 'crossed', size: 8, lines: 'M0 0L8 8M8 0L0 8', width: 1.1 },
  { name: 'many-dots', size: 6, lines: dot(3, 3), width: 4.4 },
  { name: 'dense-rising', size: 5, lines: 'M-1 1L1 -1M0 5L5 0M4 6L6 4', width: 1.8 },
]

/** The hatch of a step; neighbours always differ. */
export const hatchOf = (step: number): Hatch => hatches[step % hatches.length]!
