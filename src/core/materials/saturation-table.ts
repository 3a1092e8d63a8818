import { saturationPressure } from './vapour.ts'

/*
 * Saturation pressure as the solver asks for it, hundreds of thousands of times a forecast: a cubic between nodes, with
 * the slopes that the formula has there. Within 1e-8 of the formula, and as smooth.
 */

const LOW_C = -60
const HIGH_C = 150
/** Nodes a kelvin. One falls on 0 °C, where water becomes ice and the slope jumps. */
const PER_K = 4
/** Distance over which a slope at a node is taken, K. */
const NUDGE_K = 1e-3

const STRIDE = 4

/** Of every piece: pressure and slope at its low end, pressure and slope at its high end; slopes by piece. */
function draw(): Float64Array {
  const pieces = (HIGH_C - LOW_C) * PER_K
  const values = new Float64Array(pieces * STRIDE)
  for (let i = 0; i < pieces; i++) {
    const low = LOW_C + i / PER_K
    const high = LOW_C + (i + 1) / PER_K
    // From within the piece: beyond its end another formula may hold.
    const slope = (at: number, inward: number): number => {
      const [one, two] = [saturationPressure(at + inward * NUDGE_K), saturationPressure(at + 2 * inward * NUDGE_K)]
      return (inward * (4 * one - 3 * saturationPressure(inward > 0 ? at : at - 1e-12) - two)) / (2 * NUDGE_K)
    }
    values[i * STRIDE] = saturationPressure(low)
    values[i * STRIDE + 1] = slope(low, 1) / PER_K
    values[i * STRIDE + 2] = saturationPressure(high - 1e-12)
    values[i * STRIDE + 3] = slope(high, -1) / PER_K
  }
  return values
}

let drawn: Float64Array | undefined

/**
 * Saturation pressure over water (from 0 °C up) or ice (below), Pa.
 * Valid: −100 to 200 °C, by the table from −60 to 150 °C. Source: as `saturationPressure`.
 */
export function saturationAt(T_C: number): number {
  if (!(T_C >= LOW_C && T_C <= HIGH_C)) return saturationPressure(T_C)
  drawn ??= draw()
  const x = (T_C - LOW_C) * PER_K
  const i = Math.min(Math.trunc(x), (HIGH_C - LOW_C) * PER_K - 1)
  const s = x - i
  const r = 1 - s
  const at = i * STRIDE
  return (
    drawn[at]! * r * r * (1 + 2 * s) +
    drawn[at + 2]! * s * s * (1 + 2 * r) +
    s * r * (drawn[at + 1]! * r - drawn[at + 3]! * s)
  )
}
