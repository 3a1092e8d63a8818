/**
 * A law of values that follow from the temperatures a place has been through, and change nothing else: how far a gel
 * has set, what has grown. What changes the mass itself is the solver's.
 */
export interface StateLaw {
  /** Names of its values, as the record shows them; no two laws of one place share a name. */
  readonly names: readonly string[]
  /** Values of a place when its layer is poured. Shape: names */
  start(T_C: number): readonly number[]
  /**
   * Moves the values of one place over `dt` seconds in which it goes straight from one temperature to another.
   * @param values  overwritten. Shape: names
   */
  advance(values: Float64Array, from_C: number, to_C: number, dt: number): void
}
