/** A law that changes the cells of its layers between steps, at equal heat. One object for one mesh. */
export interface CellLaw {
  /** Names of the values that it keeps, and the values themselves; NaN for cells of other layers. Shape: names × cells */
  readonly names: readonly string[]
  readonly values: readonly Float64Array[]
  /**
   * Takes in the end of an accepted step and may move cells to other places and parts of the table.
   * @param y  table places, padded; overwritten
   * @returns whether anything has changed on which conduction rests
   */
  advance(y: Float64Array, dt: number): boolean
  /** Heat of a cell that its table place does not tell, J/m³. */
  hidden(cell: number): number
  /** Takes `y` as the state from which `advance` goes on. */
  settle(y: Float64Array): void
}
