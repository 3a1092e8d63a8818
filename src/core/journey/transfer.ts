import { cellIndices, type Mesh, NOTHING } from '../geometry/mesh.ts'

/** What each new cell has from the old ones, as one list over all of them. */
interface Overlaps {
  /** Where a cell's part of the list begins; one more entry at the end. Shape: cells of the new mesh + 1 */
  readonly first: Int32Array
  /** Old cells, and m³ that each shares with the new one. */
  readonly cell: Int32Array
  readonly volume: Float64Array
}

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
 * Overlap of cells within the same layer.
 * @param known  index in `from` of each layer of `to`, or −1
 */
function overlapsOf(from: Mesh, to: Mesh, known: readonly number[]): Overlaps {
  const first = new Int32Array(to.cells + 1)
  const cells: number[] = []
  const volumes: number[] = []
  const { coordinates } = to
  for (let cell = 0; cell < to.cells; cell++) {
    first[cell] = cells.length
    const layer = to.layerOf[cell]!
    const oldLayer = layer === NOTHING ? -1 : known[layer]!
    if (oldLayer < 0) continue
    const at = cellIndices(to.n, cell)
    const low = to.axes.map((axis, index) => axis.borders[at[index]!]!)
    const high = to.axes.map((axis, index) => axis.borders[at[index]! + 1]!)
    const boxLow = low.slice()
    const boxHigh = high.slice()
    const visit = (axis: number, index: number, stride: number): void => {
      if (axis === from.axes.length) {
        if (from.layerOf[index] !== oldLayer) return
        cells.push(index)
        volumes.push(coordinates.volume({ low: boxLow, high: boxHigh }))
        return
      }
      const { borders } = from.axes[axis]!
      for (let i = cellAbove(borders, low[axis]!); i < borders.length - 1 && borders[i]! < high[axis]!; i++) {
        boxLow[axis] = Math.max(low[axis]!, borders[i]!)
        boxHigh[axis] = Math.min(high[axis]!, borders[i + 1]!)
        if (boxHigh[axis]! > boxLow[axis]!) visit(axis + 1, index + i * stride, stride * from.n[axis as 0 | 1 | 2])
      }
    }
    visit(0, 0, 1)
  }
  first[to.cells] = cells.length
  return { first, cell: Int32Array.from(cells), volume: Float64Array.from(volumes) }
}

/** Overlaps by the cells of both meshes, which runs of one job with other materials share. */
const made = new WeakMap<Float64Array, WeakMap<Float64Array, { readonly known: string; readonly overlaps: Overlaps }>>()

function overlapsOnce(from: Mesh, to: Mesh, known: readonly number[]): Overlaps {
  const ofOld = made.get(from.volume) ?? new WeakMap()
  made.set(from.volume, ofOld)
  const key = known.join()
  const before = ofOld.get(to.volume)
  if (before?.known === key) return before.overlaps
  const overlaps = overlapsOf(from, to, known)
  ofOld.set(to.volume, { known: key, overlaps })
  return overlaps
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
  const { first, cell: source, volume } = overlapsOnce(from, to, known)
  const result = new Float64Array(to.cells)
  for (let cell = 0; cell < to.cells; cell++) {
    const layer = to.layerOf[cell]!
    if (layer === NOTHING) continue
    if (known[layer]! < 0) {
      result[cell] = fresh(layer)
      continue
    }
    let content = 0
    let covered = 0
    for (let i = first[cell]!; i < first[cell + 1]!; i++) {
      content += volume[i]! * old[source[i]!]!
      covered += volume[i]!
    }
    result[cell] = content / covered
  }
  return result
}
