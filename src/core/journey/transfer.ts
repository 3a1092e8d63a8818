import { cellIndices, type Mesh, NOTHING } from '../geometry/mesh.ts'

/** Index of the first cell whose upper border lies above `at`. */
function cellAbove(borders: Float64Array, at: number): number {
  let low = 0
  let high = borders.length - 2
  while (low < high) {
    const middle = (low + high) >> 1
    if (borders[middle + 1]! > at) high = middle
    else low = middle + 1
  }
  return low
}

/**
 * Carries a quantity per volume from one mesh to another by overlap of cells within the same layer; its integral is
 * kept to round-off, and where the cells are the same, so is every value.
 * @param old  Shape: cells of `from`
 * @param fresh  value for a cell of a layer that `from` doesn't have, by layer index of `to`
 * @returns Shape: cells of `to`
 */
export function transfer(from: Mesh, to: Mesh, old: Float64Array, fresh: (layer: number) => number): Float64Array {
  const known = to.layers.map((layer) => from.layers.indexOf(layer))
  const result = new Float64Array(to.cells)
  const { coordinates } = to
  for (let cell = 0; cell < to.cells; cell++) {
    const layer = to.layerOf[cell]!
    if (layer === NOTHING) continue
    const oldLayer = known[layer]!
    if (oldLayer < 0) {
      result[cell] = fresh(layer)
      continue
    }
    const at = cellIndices(to.n, cell)
    const low = to.axes.map((axis, index) => axis.borders[at[index]!]!)
    const high = to.axes.map((axis, index) => axis.borders[at[index]! + 1]!)
    const first = from.axes.map((axis, index) => cellAbove(axis.borders, low[index]!))
    let content = 0
    let covered = 0
    const visit = (axis: number, index: number, stride: number, boxLow: number[], boxHigh: number[]): void => {
      if (axis === from.axes.length) {
        if (from.layerOf[index] !== oldLayer) return
        const volume = coordinates.volume({ low: boxLow, high: boxHigh })
        content += volume * old[index]!
        covered += volume
        return
      }
      const { borders } = from.axes[axis]!
      for (let i = first[axis]!; i < borders.length - 1 && borders[i]! < high[axis]!; i++) {
        const overlapLow = Math.max(low[axis]!, borders[i]!)
        const overlapHigh = Math.min(high[axis]!, borders[i + 1]!)
        if (overlapHigh <= overlapLow) continue
        visit(
          axis + 1,
          index + i * stride,
          stride * from.n[axis as 0 | 1 | 2],
          [...boxLow, overlapLow],
          [...boxHigh, overlapHigh],
        )
      }
    }
    visit(0, 0, 1, [], [])
    result[cell] = content / covered
  }
  return result
}
