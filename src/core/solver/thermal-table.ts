import type { ThermalCurve } from '../materials/material.ts'

/*
 * The unknown of every cell is its place in its material's table: u = offset + (H − H0) / dH, with all tables of a
 * piece joined into one. One look-up then serves any number of materials: i = u | 0, T = T0[i] + dT[i] * u, and the
 * conductivity integral S likewise. Enthalpy is stored exactly (H is linear in u), so the tables define the material
 * and nothing drifts.
 */

/** Values a stored interval holds: S = v[0] + v[1] u, T = v[2] + v[3] u. */
export const STRIDE = 4

/** What one part of the table is made from. */
export interface TableSource {
  curve(low_C: number, high_C: number): ThermalCurve
  /** Change of phase whose both ends must fall on nodes, °C; left out, the curve's first corner falls on one. */
  readonly plateau_C?: number
  /**
   * Whether S is the temperature itself. Cells whose conductivity follows from more than their temperature conduct by
   * links in W/K that are renewed with their state.
   */
  readonly byTemperature?: boolean
}

export interface ThermalTable {
  /** Shape: intervals × STRIDE, all materials joined. */
  readonly values: Float64Array
  readonly parts: readonly TablePart[]
}

/** One source's stretch of the table. */
export interface TablePart {
  /** First u of the part; its intervals are [offset, offset + intervals). */
  readonly offset: number
  readonly intervals: number
  /** J/m³ an interval. */
  readonly enthalpyStep: number
  /** J/m³ at u = offset. */
  readonly enthalpyAtOffset: number
  readonly kinks_C: readonly number[]
  /** Conductivity integral over temperature on equal steps, for outer surfaces. */
  readonly overT: { readonly low_C: number; readonly perK: number; readonly S: Float64Array }
}

const INTERVALS = 1500
const SURFACE_STEPS = 3000

/** Value at `x` on the polyline (xs rising or level, ys), continued straight beyond its ends. */
function walk(xs: Float64Array, ys: Float64Array) {
  const last = xs.length - 1
  let i = 0
  return (x: number): number => {
    while (i < last - 1 && xs[i + 1]! < x) i++
    while (i > 0 && xs[i]! > x) i--
    const span = xs[i + 1]! - xs[i]!
    return span === 0 ? ys[i + 1]! : ys[i]! + ((ys[i + 1]! - ys[i]!) * (x - xs[i]!)) / span
  }
}

/** Enthalpy at a temperature on the curve; of a change of phase at that very temperature the upper end. */
function enthalpyAt(curve: ThermalCurve, T_C: number): number {
  const { T_C: temperatures, enthalpy } = curve
  let i = 0
  const last = temperatures.length - 1
  while (i < last - 1 && temperatures[i + 1]! <= T_C) i++
  const span = temperatures[i + 1]! - temperatures[i]!
  if (span === 0) return enthalpy[i + 1]!
  return enthalpy[i]! + ((enthalpy[i + 1]! - enthalpy[i]!) * (T_C - temperatures[i]!)) / span
}

/** Where the part begins and how wide its intervals are, J/m³. */
function stepsOf(curve: ThermalCurve, low_C: number, high_C: number, plateau_C: number | undefined) {
  const bottom = enthalpyAt(curve, low_C)
  const top = enthalpyAt(curve, high_C)
  if (plateau_C !== undefined && plateau_C > low_C && plateau_C < high_C) {
    const start = curve.enthalpy[curve.T_C.indexOf(plateau_C)]!
    const latent = enthalpyAt(curve, plateau_C) - start
    const enthalpyStep = latent / Math.max(1, Math.floor((latent * (INTERVALS - 1)) / (top - bottom)))
    // A little below the asked end, so that whole intervals lie under the plateau.
    return { bottom: start - Math.ceil((start - bottom) / enthalpyStep) * enthalpyStep, enthalpyStep }
  }
  const enthalpyStep = (top - bottom) / INTERVALS
  const kink = curve.kinks_C.find((T_C) => T_C > low_C && T_C < high_C)
  if (kink === undefined) return { bottom, enthalpyStep }
  // A node exactly on the first corner: stretch the step so that a whole number of them lies below it.
  const corner = enthalpyAt(curve, kink)
  const below = corner - bottom
  if (below >= enthalpyStep) return { bottom, enthalpyStep: below / Math.floor(below / enthalpyStep) }
  // Less than a step lies below it: one that begins a little under the asked end.
  const wider = (top - bottom) / (INTERVALS - 1)
  return { bottom: corner - wider, enthalpyStep: wider }
}

/** A curve on equal steps of enthalpy, wherever it comes to lie in a joined table. */
interface Drawn {
  readonly bottom: number
  readonly enthalpyStep: number
  /** Shape of both: INTERVALS + 1 */
  readonly T_C: Float64Array
  readonly S: Float64Array
  readonly overT: TablePart['overT']
}

function draw(curve: ThermalCurve, low_C: number, high_C: number, source: TableSource): Drawn {
  const { bottom, enthalpyStep } = stepsOf(curve, low_C, high_C, source.plateau_C)
  const T = walk(curve.enthalpy, curve.T_C)
  const S = walk(curve.enthalpy, curve.conductivityIntegral)
  const T_C = new Float64Array(INTERVALS + 1)
  for (let i = 0; i <= INTERVALS; i++) T_C[i] = T(bottom + i * enthalpyStep)
  const integral = source.byTemperature === true ? T_C : T_C.map((_, i) => S(bottom + i * enthalpyStep))
  const SOfT = walk(curve.T_C, curve.conductivityIntegral)
  const perK = SURFACE_STEPS / (high_C - low_C)
  const S_T = new Float64Array(SURFACE_STEPS + 1)
  for (let i = 0; i <= SURFACE_STEPS; i++) S_T[i] = SOfT(low_C + i / perK)
  return { bottom, enthalpyStep, T_C, S: integral, overT: { low_C, perK, S: S_T } }
}

/** The last drawing of every curve: runs of one job on two grids and with varied inputs ask for the same again. */
const drawings = new WeakMap<ThermalCurve, { readonly key: string; readonly drawn: Drawn }>()

function drawOnce(curve: ThermalCurve, low_C: number, high_C: number, source: TableSource): Drawn {
  const key = `${low_C} ${high_C} ${source.plateau_C} ${source.byTemperature}`
  const known = drawings.get(curve)
  if (known !== undefined && known.key === key) return known.drawn
  const { scaledFrom } = curve
  const drawn =
    scaledFrom === undefined ? draw(curve, low_C, high_C, source) : scaleDrawn(scaledFrom, low_C, high_C, source)
  drawings.set(curve, { key, drawn })
  return drawn
}

/** A plain loop: a callback for each of thousands of values costs more than the run that asks for them. */
function times(values: Float64Array, factor: number): Float64Array {
  if (factor === 1) return values
  const scaled = new Float64Array(values.length)
  for (let i = 0; i < scaled.length; i++) scaled[i] = values[i]! * factor
  return scaled
}

function scaleDrawn(
  { curve, k, heat }: NonNullable<ThermalCurve['scaledFrom']>,
  low_C: number,
  high_C: number,
  source: TableSource,
): Drawn {
  const base = drawOnce(curve, low_C, high_C, source)
  return {
    bottom: base.bottom * heat,
    enthalpyStep: base.enthalpyStep * heat,
    T_C: base.T_C,
    S: source.byTemperature === true ? base.S : times(base.S, k),
    overT: { ...base.overT, S: times(base.overT.S, k) },
  }
}

/** Writes what was drawn into the joined table, from its place `offset` on. */
function layPart({ kinks_C }: ThermalCurve, drawn: Drawn, offset: number, values: Float64Array): TablePart {
  const { bottom, enthalpyStep, T_C, S, overT } = drawn
  for (let i = 0; i < INTERVALS; i++) {
    const u = offset + i
    const at = u * STRIDE
    const SStep = S[i + 1]! - S[i]!
    const TStep = T_C[i + 1]! - T_C[i]!
    values[at] = S[i]! - SStep * u
    values[at + 1] = SStep
    values[at + 2] = T_C[i]! - TStep * u
    values[at + 3] = TStep
  }
  return { offset, intervals: INTERVALS, enthalpyStep, enthalpyAtOffset: bottom, kinks_C, overT }
}

/** The last table that began with a drawing: runs of one job on two grids ask for the same again. */
const tables = new WeakMap<Drawn, { readonly drawings: readonly Drawn[]; readonly table: ThermalTable }>()

/**
 * The joined table of several sources between two temperatures; both ends must lie outside everything that can
 * happen, since a cell beyond its table has no meaning (the solver tests for it). Never to be written to.
 */
export function buildThermalTable(sources: readonly TableSource[], low_C: number, high_C: number): ThermalTable {
  const curves = sources.map((source) => source.curve(low_C, high_C))
  const drawings = curves.map((curve, index) => drawOnce(curve, low_C, high_C, sources[index]!))
  const known = drawings[0] === undefined ? undefined : tables.get(drawings[0])
  if (known?.drawings.length === drawings.length && known.drawings.every((drawn, i) => drawn === drawings[i]))
    return known.table
  const values = new Float64Array(sources.length * INTERVALS * STRIDE)
  const parts = drawings.map((drawn, index) => layPart(curves[index]!, drawn, index * INTERVALS, values))
  const table = { values, parts }
  if (drawings[0] !== undefined) tables.set(drawings[0], { drawings, table })
  return table
}

/** Temperature of a table place, °C. */
export function temperatureAt(table: ThermalTable, u: number): number {
  const at = Math.trunc(u) * STRIDE
  return table.values[at + 2]! + table.values[at + 3]! * u
}

/** Table place of a temperature; at a change of phase its upper end. */
export function placeInTable(table: ThermalTable, partIndex: number, T_C: number): number {
  const part = table.parts[partIndex]!
  let low = part.offset
  let high = part.offset + part.intervals - 1
  while (low < high) {
    const middle = (low + high + 1) >> 1
    if (temperatureAt(table, middle) <= T_C) low = middle
    else high = middle - 1
  }
  return placeWithin(table, low, T_C)
}

/** Place of a temperature within one interval, which begins at `u`; of a change of phase there its upper end. */
function placeWithin({ values }: ThermalTable, u: number, T_C: number): number {
  const at = u * STRIDE
  const slope = values[at + 3]!
  return slope === 0 ? u + 1 : Math.min((T_C - values[at + 2]!) / slope, u + 1 - 1e-12)
}

/** Table places of temperatures asked for rising, without a search for each. */
export function placesRising(table: ThermalTable, partIndex: number): (T_C: number) => number {
  const { offset, intervals } = table.parts[partIndex]!
  let u = offset
  return (T_C) => {
    while (u < offset + intervals - 1 && temperatureAt(table, u + 1) <= T_C) u++
    return placeWithin(table, u, T_C)
  }
}

/** Conductivity integral of a material at a surface temperature, W/m; straight beyond the table's ends. */
export function integralAt(part: TablePart, T_C: number): number {
  const { low_C, perK, S } = part.overT
  const x = (T_C - low_C) * perK
  const i = Math.min(Math.max(Math.floor(x), 0), S.length - 2)
  return S[i]! + (S[i + 1]! - S[i]!) * (x - i)
}

/** Enthalpy of a table place, J/m³. */
export function enthalpyOf(part: TablePart, u: number): number {
  return part.enthalpyAtOffset + (u - part.offset) * part.enthalpyStep
}
