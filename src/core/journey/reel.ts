/**
 * Rows of equal width kept in one growing buffer: the moments of a journey. Thousands of small arrays would cost more
 * than the computation that fills them.
 */
export interface Reel {
  readonly width: number
  rows(): number
  /** A new row to be written; valid until the next call. Returns its first index in `data()`. */
  append(): number
  data(): Float64Array
  /** A view of part of a row. */
  part(row: number, from: number, to: number): Float64Array
}

const FIRST_ROWS = 64

export function createReel(width: number): Reel {
  let data = new Float64Array(width * FIRST_ROWS)
  let rows = 0
  return {
    width,
    rows: () => rows,
    append() {
      if ((rows + 1) * width > data.length) {
        const larger = new Float64Array(2 * data.length)
        larger.set(data)
        data = larger
      }
      rows++
      return (rows - 1) * width
    },
    data: () => data,
    part: (row, from, to) => data.subarray(row * width + from, row * width + to),
  }
}
