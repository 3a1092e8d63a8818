import type { ThermalCurve } from './material.ts'

export interface LawPoint {
  /** J/m³, latent jumps left out; continuous and rising. */
  readonly enthalpy: number
  /** W/(m K); may jump at corners. */
  readonly k: number
}

/** A thermal law as functions, ready to be drawn as a polyline. */
export interface Law {
  /** Both at once, since both rest on the ice at that temperature. */
  point(T_C: number): LawPoint
  /** Temperatures where k or the slope of the enthalpy may bend or jump, °C. */
  readonly corners_C: readonly number[]
  /** Heat taken up at one temperature, J/m³. */
  readonly jumps: readonly { readonly T_C: number; readonly latent: number }[]
  /** Corners that a table of the solver must know, °C. */
  readonly kinks_C: readonly number[]
}

/** Widest piece between two points, K. */
const WIDEST = 2.5
/** Depth of halving: a piece of 2.5 K becomes 0.6 mK at the narrowest. */
const DEEPEST = 12

/**
 * The law as a polyline: pieces are halved until the chord misses the middle by less than `tolerance_K`, told in
 * kelvin, for enthalpy and for the integral of k; the middle is then kept, which divides the miss by four. The
 * integral of k is Simpson's, within pieces that never reach across a corner.
 */
export function drawCurve(law: Law, low_C: number, high_C: number, tolerance_K = 8e-4): ThermalCurve {
  const T: number[] = []
  const H: number[] = []
  const K: number[] = []
  const within = (T_C: number): boolean => T_C > low_C && T_C < high_C
  const jumpsAt = law.jumps.map((jump) => jump.T_C)
  const ends = [...new Set([low_C, ...[...law.corners_C, ...jumpsAt].filter(within), high_C])].sort((a, b) => a - b)
  let latent = law.jumps.reduce((total, jump) => total + (jump.T_C < low_C ? jump.latent : 0), 0)
  let integral = 0
  const push = (T_C: number, enthalpy: number): void => {
    T.push(T_C)
    H.push(enthalpy + latent)
    K.push(integral)
  }

  const halve = (a: number, b: number, Ha: number, Hb: number, ka: number, kb: number, depth: number): void => {
    const middle = (a + b) / 2
    const { enthalpy: Hm, k: km } = law.point(middle)
    const width = b - a
    const missH = Math.abs(Hm - (Ha + Hb) / 2) * width
    const missK = Math.abs(kb - ka) * width
    const fine = missH <= tolerance_K * (Hb - Ha) && missK <= 8 * tolerance_K * km
    if (fine || depth === DEEPEST) {
      const whole = (width / 6) * (ka + 4 * km + kb)
      const first = (width / 24) * (5 * ka + 8 * km - kb)
      integral += first
      push(middle, Hm)
      integral += whole - first
      push(b, Hb)
      return
    }
    halve(a, middle, Ha, Hm, ka, km, depth + 1)
    halve(middle, b, Hm, Hb, km, kb, depth + 1)
  }

  push(low_C, law.point(low_C).enthalpy)
  for (let i = 0; i + 1 < ends.length; i++) {
    const from = ends[i]!
    const to = ends[i + 1]!
    for (const jump of law.jumps)
      if (jump.T_C === from) {
        latent += jump.latent
        push(from, law.point(from).enthalpy)
      }
    const pieces = Math.ceil((to - from) / WIDEST)
    // k is asked just inside the corners: it may jump there.
    const inside = 1e-9 * (to - from)
    let a = from
    let Ha = law.point(a).enthalpy
    let ka = law.point(a + inside).k
    for (let j = 1; j <= pieces; j++) {
      const b = j === pieces ? to : from + ((to - from) * j) / pieces
      const at = law.point(b)
      const Hb = at.enthalpy
      const kb = j === pieces ? law.point(b - inside).k : at.k
      halve(a, b, Ha, Hb, ka, kb, 0)
      a = b
      Ha = Hb
      ka = kb
    }
  }
  return {
    T_C: Float64Array.from(T),
    enthalpy: Float64Array.from(H),
    conductivityIntegral: Float64Array.from(K),
    kinks_C: law.kinks_C.filter((T_C) => T_C > low_C && T_C < high_C),
  }
}

/**
 * Keeps the last curve drawn and hands it out again for the same range; never for another, even one inside its own:
 * a plan would get other numbers after another plan.
 */
export function keptCurve(
  draw: (low_C: number, high_C: number) => ThermalCurve,
): (low_C: number, high_C: number) => ThermalCurve {
  let kept: { readonly low_C: number; readonly high_C: number; readonly curve: ThermalCurve } | undefined
  return (low_C, high_C) => {
    if (kept === undefined || low_C !== kept.low_C || high_C !== kept.high_C)
      kept = { low_C, high_C, curve: draw(low_C, high_C) }
    return kept.curve
  }
}
