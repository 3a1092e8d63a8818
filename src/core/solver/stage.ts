import { STRIDE } from './thermal-table.ts'

/*
 * One stage of the stabilised explicit step over all cells, and the rate of change that it needs: flat loops over
 * padded arrays, no allocation, one function for each number of directions. Links through outer faces and between
 * materials are zero here; film.ts adds them afterwards for the few cells that have them.
 *
 * What the stages move is d, how far a cell has come since the step's start: what is little beside the place itself
 * keeps all of its digits, so that a cell at rest among neighbours at rest stays there for ever.
 *
 * Balance of a cell: dH/dt · V = sum over links of G (S_neighbour − S_cell), with S the conductivity integral.
 */

/** The fields of one run. Shape of each: padding + cells + padding; padding = largest stride. */
export interface Fields {
  readonly padding: number
  /** Directions in which a cell has links: one an active axis, one more across corners where axes slant. */
  readonly directions: 1 | 2 | 3 | 4
  /** How far the linked cell lies ahead in each direction; the first is 1. Shape: directions */
  readonly strides: readonly number[]
  /** Link coefficient area/distance [m] to the cell ahead in each direction. Shape: directions × padded */
  readonly links: readonly Float64Array[]
  /** Table places per joule: 1/(V · enthalpy step). */
  readonly weight: Float64Array
  /** Joined table of the materials. */
  readonly values: Float64Array
}

/** Weights of a stage in the order mu, nu, mt·dt, ga·dt. */
export type StageWeights = Float64Array

/** Conductivity integral of every cell. */
export function lookUp(fields: Fields, y: Float64Array, S: Float64Array): void {
  const { values, padding } = fields
  const end = y.length - padding
  for (let i = padding; i < end; i++) {
    const u = y[i]!
    const at = (u | 0) * STRIDE
    S[i] = values[at]! + values[at + 1]! * u
  }
}

/** Rate of change of every cell's table place by conduction between cells, 1/s. */
export function rate(fields: Fields, S: Float64Array, F: Float64Array): void {
  const { links, weight, strides, padding } = fields
  const gx = links[0]!
  const end = F.length - padding
  let left = 0
  for (let i = padding; i < end; i++) {
    const right = gx[i]! * (S[i + 1]! - S[i]!)
    F[i] = right - left
    left = right
  }
  for (let direction = 1; direction < fields.directions; direction++) {
    const g = links[direction]!
    const stride = strides[direction]!
    for (let i = padding; i < end; i++) {
      F[i] = F[i]! + g[i]! * (S[i + stride]! - S[i]!) - g[i - stride]! * (S[i]! - S[i - stride]!)
    }
  }
  for (let i = padding; i < end; i++) F[i] = F[i]! * weight[i]!
}

/** Conductivity integral of every cell that has come `d` from `y0`. */
export function lookUpAlong(fields: Fields, y0: Float64Array, d: Float64Array, S: Float64Array): void {
  const { values, padding } = fields
  const end = y0.length - padding
  for (let i = padding; i < end; i++) {
    const u = y0[i]! + d[i]!
    const at = (u | 0) * STRIDE
    S[i] = values[at]! + values[at + 1]! * u
  }
}

/**
 * One stage: d2 becomes mu·d1 + nu·d2 + mt·dt·F(y0 + d1) + ga·dt·F0, and S2 the conductivity integral of y0 + d2.
 */
export type Stage = (
  fields: Fields,
  weights: StageWeights,
  y0: Float64Array,
  f0: Float64Array,
  d1: Float64Array,
  S1: Float64Array,
  d2: Float64Array,
  S2: Float64Array,
) => void

const stage1: Stage = (fields, weights, y0, f0, d1, S1, d2, S2) => {
  const { weight, values, padding } = fields
  const gx = fields.links[0]!
  const mu = weights[0]!
  const nu = weights[1]!
  const now = weights[2]!
  const start = weights[3]!
  const end = y0.length - padding
  let left = 0
  let S = S1[padding]!
  for (let i = padding; i < end; i++) {
    const next = S1[i + 1]!
    const right = gx[i]! * (next - S)
    const d = mu * d1[i]! + nu * d2[i]! + start * f0[i]! + now * weight[i]! * (right - left)
    d2[i] = d
    const u = y0[i]! + d
    const at = (u | 0) * STRIDE
    S2[i] = values[at]! + values[at + 1]! * u
    left = right
    S = next
  }
}

const stage2: Stage = (fields, weights, y0, f0, d1, S1, d2, S2) => {
  const { weight, values, padding, strides } = fields
  const gx = fields.links[0]!
  const gy = fields.links[1]!
  const up = strides[1]!
  const mu = weights[0]!
  const nu = weights[1]!
  const now = weights[2]!
  const start = weights[3]!
  const end = y0.length - padding
  let left = 0
  let S = S1[padding]!
  for (let i = padding; i < end; i++) {
    const next = S1[i + 1]!
    const right = gx[i]! * (next - S)
    const flow = right - left + gy[i]! * (S1[i + up]! - S) - gy[i - up]! * (S - S1[i - up]!)
    const d = mu * d1[i]! + nu * d2[i]! + start * f0[i]! + now * weight[i]! * flow
    d2[i] = d
    const u = y0[i]! + d
    const at = (u | 0) * STRIDE
    S2[i] = values[at]! + values[at + 1]! * u
    left = right
    S = next
  }
}

const stage3: Stage = (fields, weights, y0, f0, d1, S1, d2, S2) => {
  const { weight, values, padding, strides } = fields
  const gx = fields.links[0]!
  const gy = fields.links[1]!
  const gz = fields.links[2]!
  const up = strides[1]!
  const back = strides[2]!
  const mu = weights[0]!
  const nu = weights[1]!
  const now = weights[2]!
  const start = weights[3]!
  const end = y0.length - padding
  let left = 0
  let S = S1[padding]!
  for (let i = padding; i < end; i++) {
    const next = S1[i + 1]!
    const right = gx[i]! * (next - S)
    const flow =
      right -
      left +
      gy[i]! * (S1[i + up]! - S) -
      gy[i - up]! * (S - S1[i - up]!) +
      gz[i]! * (S1[i + back]! - S) -
      gz[i - back]! * (S - S1[i - back]!)
    const d = mu * d1[i]! + nu * d2[i]! + start * f0[i]! + now * weight[i]! * flow
    d2[i] = d
    const u = y0[i]! + d
    const at = (u | 0) * STRIDE
    S2[i] = values[at]! + values[at + 1]! * u
    left = right
    S = next
  }
}

const stage4: Stage = (fields, weights, y0, f0, d1, S1, d2, S2) => {
  const { weight, values, padding, strides } = fields
  const gx = fields.links[0]!
  const gy = fields.links[1]!
  const gz = fields.links[2]!
  const gd = fields.links[3]!
  const up = strides[1]!
  const back = strides[2]!
  const across = strides[3]!
  const mu = weights[0]!
  const nu = weights[1]!
  const now = weights[2]!
  const start = weights[3]!
  const end = y0.length - padding
  let left = 0
  let S = S1[padding]!
  for (let i = padding; i < end; i++) {
    const next = S1[i + 1]!
    const right = gx[i]! * (next - S)
    const flow =
      right -
      left +
      gy[i]! * (S1[i + up]! - S) -
      gy[i - up]! * (S - S1[i - up]!) +
      gz[i]! * (S1[i + back]! - S) -
      gz[i - back]! * (S - S1[i - back]!) +
      gd[i]! * (S1[i + across]! - S) -
      gd[i - across]! * (S - S1[i - across]!)
    const d = mu * d1[i]! + nu * d2[i]! + start * f0[i]! + now * weight[i]! * flow
    d2[i] = d
    const u = y0[i]! + d
    const at = (u | 0) * STRIDE
    S2[i] = values[at]! + values[at + 1]! * u
    left = right
    S = next
  }
}

export const stages: Readonly<Record<1 | 2 | 3 | 4, Stage>> = { 1: stage1, 2: stage2, 3: stage3, 4: stage4 }
