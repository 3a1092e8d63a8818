/** What the caller hands to a long computation; core itself has no clock and no randomness. */
export interface Control {
  /** Share done, 0 to 1, and the name of what is being done. Called a few times a second at most. */
  readonly report?: (share: number, doing: string) => void
  /** Asked once a step; true stops the computation with `Cancelled`. */
  readonly stopped?: () => boolean
  /** Milliseconds of some steady clock, for `wall_ms`; left out, `wall_ms` is 0. */
  readonly now?: () => number
}
