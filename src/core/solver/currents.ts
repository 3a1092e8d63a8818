import { GRAVITY } from '../boundary/air.ts'
import { nusseltLiquidLayer } from '../boundary/natural/enclosure.ts'
import { waterAt } from '../boundary/water.ts'
import { boundingBox, cellIndices, type Mesh } from '../geometry/mesh.ts'
import type { Material } from '../materials/material.ts'
import type { CellLaw } from './cell-law.ts'
import { type Conduction, slantLinks, sumLinks } from './conduction.ts'
import { STRIDE } from './thermal-table.ts'

/*
 * Currents in a mass that still pours. Where cold lies above warm or beside it, the mass turns over and evens itself
 * out; that is told by a gain on its conductivity, the Nusselt number of a layer as deep as what still pours above the
 * lowest of its hot places. What lies below (a cold base) is stable and only conducts. The gain is the same for all
 * cells that take part, is renewed between steps, and moves no heat by itself: what a link takes from one cell it still
 * gives to the other.
 */

/** Name of the value that says whether a cell still pours, 1 or 0: a law of its material. */
export const POURS = 'pours'
/** Name of the recorded gain. */
export const GAIN = 'currents'
/** A place within this share of all that drives it is as hot as the hottest. */
const HOT_SHARE = 0.1
/** A gain that moved by less is left as it is. */
const SMALL_MOVE = 0.01
/** Heights closer than this are one row, m. */
const ROW = 1e-6
/** Temperatures between which a mass is drawn, and how closely, °C. */
const LOW_C = 0
const HIGH_C = 100
const STEP_K = 5

/**
 * What drives a layer, 1/(K m³): Ra = this times the difference in temperature times depth³. A mass with much water
 * expands as water does (assumed; with much fat or sugar up to twice that).
 */
export function drive(material: Material, T_C: number): number {
  const { pours } = material
  if (pours === undefined) return 0
  const { k, rho, c } = material.at(T_C)
  const [cold, warm] = [waterAt(T_C - 1).rho, waterAt(T_C + 1).rho]
  const expansion = Math.max(0, (cold - warm) / (cold + warm))
  return (GRAVITY * expansion * rho * rho * c) / (pours.viscosity(T_C) * k)
}

interface Pool {
  readonly cells: Int32Array
  /** Height of each cell's middle and half of its own height, m, lowest first. Shape of both: cells */
  readonly height: Float64Array
  readonly half: number
  /** Height of the piece, m, where the model has no cells above each other (a log that is told by its radius). */
  readonly whole: number | undefined
  readonly drive: Float64Array
  gain: number
  applied: number
  flowing: number
}

interface Pair {
  readonly direction: number
  readonly low: number
  readonly high: number
  readonly link: number
}

const materialOf = ({ layers }: Conduction, mesh: Mesh, cell: number): number | undefined =>
  layers[mesh.layerOf[cell]!]?.material

/** Cells of one layer, lowest first. */
function poolOf(mesh: Mesh, layer: number, material: Material): Pool {
  const up = mesh.body.invertedAtStart === true ? -1 : 1
  const heightOf = (cell: number): number => {
    const at = cellIndices(mesh.n, cell)
    const middle = mesh.axes.map((axis, index) => axis.middles[at[index]!]!)
    return up * mesh.coordinates.toSpace(middle)[1]
  }
  const found = Array.from(mesh.layerOf, (one, cell) => ({ one, cell }))
    .filter(({ one }) => one === layer)
    .map(({ cell }) => ({ cell, height: heightOf(cell) }))
    .sort((a, b) => a.height - b.height)
  const rows = new Set(found.map(({ height }) => Math.round(height / ROW))).size
  const span = found.length === 0 ? 0 : found[found.length - 1]!.height - found[0]!.height
  const steps = Math.round((HIGH_C - LOW_C) / STEP_K)
  return {
    cells: Int32Array.from(found, ({ cell }) => cell),
    height: Float64Array.from(found, ({ height }) => height),
    half: rows > 1 ? span / (rows - 1) / 2 : 0,
    whole: rows > 1 || mesh.body.stackAxis !== null ? undefined : boundingBox(mesh)[1],
    drive: Float64Array.from({ length: steps + 1 }, (_, i) => drive(material, LOW_C + i * STEP_K)),
    gain: 1,
    applied: 1,
    flowing: 0,
  }
}

/**
 * @param pours  whether each cell still pours. Shape: cells
 * @param steady  whether other laws renew links of this mesh too: slanting axes then are left alone
 */
export function createCurrents(
  mesh: Mesh,
  padding: number,
  values: Float64Array,
  pours: Float64Array,
  steady: boolean,
  conduction: () => Conduction,
): CellLaw | undefined {
  if (steady && mesh.slant !== undefined) return undefined
  const pools = mesh.layers.flatMap((layer, index) =>
    layer.material.pours === undefined ? [] : [poolOf(mesh, index, layer.material)],
  )
  if (pools.every(({ cells }) => cells.length === 0)) return undefined
  const gains = new Float64Array(mesh.cells).fill(Number.NaN)
  for (const { cells } of pools) for (const cell of cells) gains[cell] = 1
  let pairs: readonly Pair[] | undefined
  const tried = new Uint8Array(mesh.cells)

  const temperature = (y: Float64Array, cell: number): number => {
    const u = y[padding + cell]!
    const at = (u | 0) * STRIDE
    return values[at + 2]! + values[at + 3]! * u
  }

  /** Links between two cells that may both have a gain, as they were without. */
  const findPairs = (): Pair[] => {
    const { fields } = conduction()
    const used = [0, 1, 2].filter((axis) => (mesh.n[axis] ?? 1) > 1)
    return used.flatMap((axis, direction): Pair[] => {
      const stride = fields.strides[direction]!
      return Array.from({ length: Math.max(0, mesh.cells - stride) }, (_, low) => low).flatMap((low): Pair[] => {
        const area = mesh.area[axis]?.[low] ?? 0
        const high = low + stride
        if (area === 0 || mesh.layerOf[low] !== mesh.layerOf[high] || Number.isNaN(gains[low]!)) return []
        return [{ direction, low, high, link: area / (mesh.toFace[axis]![low]! + mesh.fromFace[axis]![low]!) }]
      })
    })
  }

  /** Writes the links of all pairs with their gains. */
  const write = (): void => {
    const made = conduction()
    pairs ??= findPairs()
    for (const { direction, low, high, link } of pairs)
      made.fields.links[direction]![padding + low] = (link * 2) / (1 / gains[low]! + 1 / gains[high]!)
    // Corners between cells of other gains take the least, so that no link along an axis turns negative by it.
    const gainAt = (cell: number): number => (Number.isNaN(gains[cell]!) ? 1 : (gains[cell] ?? 1))
    if (mesh.slant !== undefined) {
      const row = mesh.n[0]
      restoreStraight(made)
      slantLinks(
        mesh.slant,
        (cell) => Math.min(gainAt(cell), gainAt(cell + 1), gainAt(cell + row), gainAt(cell + row + 1)),
        row,
        padding,
        made.fields.links,
      )
    }
    for (const { cells } of pools) for (const cell of cells) made.gain[padding + cell] = gains[cell]!
    sumLinks(made)
  }

  /** Links of cells that have no gain, without what slants: `slantLinks` takes its share off anew. */
  const restoreStraight = (made: Conduction): void => {
    const used = [0, 1, 2].filter((axis) => (mesh.n[axis] ?? 1) > 1)
    for (const [direction, axis] of used.entries()) {
      const stride = made.fields.strides[direction]!
      for (let low = 0; low + stride < mesh.cells; low++) {
        const area = mesh.area[axis]?.[low] ?? 0
        const own = !Number.isNaN(gains[low]!) && mesh.layerOf[low] === mesh.layerOf[low + stride]
        if (own) continue
        const joined = area > 0 && materialOf(made, mesh, low) === materialOf(made, mesh, low + stride)
        made.fields.links[direction]![padding + low] = joined
          ? area / (mesh.toFace[axis]![low]! + mesh.fromFace[axis]![low]!)
          : 0
      }
    }
  }

  /** What drives a pool, and how deep it turns over. Marks the cells that take part in `tried`. */
  const look = (pool: Pool, y: Float64Array): number => {
    const { cells, height, half, whole } = pool
    let hottest = Number.NEGATIVE_INFINITY
    let driven = 0
    let sum = 0
    let count = 0
    let top = Number.NEGATIVE_INFINITY
    for (let first = 0; first < cells.length; ) {
      let next = first
      while (next < cells.length && height[next]! - height[first]! < ROW) {
        const cell = cells[next]!
        tried[cell] = 0
        if (pours[cell]! > 0.5) hottest = Math.max(hottest, temperature(y, cell))
        next++
      }
      for (let i = first; i < next; i++) {
        const cell = cells[i]!
        if (!(pours[cell]! > 0.5)) continue
        const T_C = temperature(y, cell)
        driven = Math.max(driven, hottest - T_C)
        top = height[i]!
        sum += T_C
        count++
      }
      first = next
    }
    pool.flowing = count
    if (count === 0 || driven <= 0) return 1
    let bottom = top
    for (let i = 0; i < cells.length; i++) {
      const cell = cells[i]!
      if (!(pours[cell]! > 0.5) || temperature(y, cell) < hottest - HOT_SHARE * driven) continue
      bottom = height[i]!
      break
    }
    for (let i = 0; i < cells.length; i++)
      if (pours[cells[i]!]! > 0.5 && height[i]! >= bottom - ROW) tried[cells[i]!] = 1
    const depth = whole === undefined ? top - bottom + 2 * half : (whole * count) / cells.length
    const x = Math.min(Math.max((sum / count - LOW_C) / STEP_K, 0), pool.drive.length - 1)
    const at = Math.min(Math.floor(x), pool.drive.length - 2)
    const strength = pool.drive[at]! + (pool.drive[at + 1]! - pool.drive[at]!) * (x - at)
    return nusseltLiquidLayer(strength * driven * depth ** 3)
  }

  const renew = (y: Float64Array, fresh: boolean): boolean => {
    let changed = false
    for (const pool of pools) {
      const sought = look(pool, y)
      // Halfway in proportion: currents even out what drives them.
      pool.gain = fresh ? sought : Math.sqrt(pool.gain * sought)
      const moved = Math.abs(pool.gain / pool.applied - 1) > SMALL_MOVE
      if (moved) pool.applied = pool.gain
      for (const cell of pool.cells) {
        const own = tried[cell] === 1 ? pool.applied : 1
        if (own === gains[cell]) continue
        gains[cell] = own
        changed = true
      }
    }
    if (changed) write()
    return changed
  }

  return {
    names: [GAIN],
    values: [gains],
    advance: (y) => renew(y, false),
    hidden: () => 0,
    settle(y) {
      for (const pool of pools) {
        pool.applied = 1
        for (const cell of pool.cells) gains[cell] = 1
      }
      renew(y, true)
    },
  }
}
