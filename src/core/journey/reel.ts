/**
 * Rows of equal width kept in one growing buffer: the moments of a journey. Thousands of small arrays would cost more
 * than the computation that fills them.
 */
export interface Reel {
  readonly width: number
  rows(): number
  /** Whether it holds as much as it may. */
  full(): boolean
  /** A new row to be written; valid until the next call. Returns its first index in `data()`. */
  append(): number
  data(): Float64Array
  /** A view of part of a row. */
  part(row: number, from: number, to: number): Float64Array
}

const FIRST_ROWS = 64
/** Most numbers of one reel: a gigabyte. */
const MOST_NUMBERS = 2 ** 27

export function createReel(width: number, most = MOST_NUMBERS): Reel {
  let data = new Float64Array(width * FIRST_ROWS)
  let rows = 0
  return {
    width,
    rows: () => rows,
    full: () => (rows + 1) * width > most,
    append() {
      if ((rows + 1) * width > data.length) {
        const larger = new Float64Array(Math.min(2 * data.length, Math.max(most, (rows + 1) * width)))
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
