/*
 * The method of lines for whoever solves ordinary differential equations: the custard of the reference jobs in cells of
 * finite volume, dH/dt of each from its links, H the enthalpy. That is how heat with freezing is written best for such a
 * solver: no peak of a heat capacity that a step could miss, no heat lost. Its own code from the grid to the outputs,
 * nothing of the core.
 */

/** The custard of check 4 of the reference jobs: rho, heat and conductivity above, ice and its enthalpy below −2 °C. */
const RHO = 1080
export const FREEZES_C = -2
const ICE = 0.63
const LATENT = 333_600

/** Enthalpy at a temperature above −2 °C, J/m³; 0 at −2 °C. */
export const startEnthalpy = (T_C: number): number => RHO * 3300 * (T_C - FREEZES_C)

/** Temperature of an enthalpy: the freezing branch is a quadratic in T. */
function temperatureAt(H: number): number {
  const h = H / RHO
  if (h >= 0) return FREEZES_C + h / 3300
  const c = 1900
  const B = -FREEZES_C * c - LATENT * ICE - h
  return (-B - Math.sqrt(B * B - 4 * c * LATENT * ICE * FREEZES_C)) / (2 * c)
}

/** Integral of the conductivity from −2 °C, W/m. */
const conductedTo = (T_C: number): number =>
  T_C >= FREEZES_C ? 0.5 * (T_C - FREEZES_C) : 1.4 * (T_C - FREEZES_C) + 1.8 * Math.log(T_C / FREEZES_C)

const conductivityAt = (T_C: number): number => (T_C >= FREEZES_C ? 0.5 : 0.5 + 0.9 * (1 - FREEZES_C / T_C))

/** T and S over H by straight lines between many points, one of them at H = 0: a look-up in place of root and logarithm. */
export const STEP = RHO * 3300 * 0.1
export const BELOW = 1200
const ABOVE = 900
const POINTS = BELOW + ABOVE + 1
export const T_OF = Float64Array.from({ length: POINTS }, (_, i) => temperatureAt((i - BELOW) * STEP))
export const S_OF = T_OF.map(conductedTo)

const along = (of: Float64Array, H: number): number => {
  const q = H / STEP + BELOW
  // Steps that a solver tries and throws away may lead anywhere: the end lines go on.
  const i = Math.min(Math.max(q, 0), POINTS - 2) | 0
  return of[i]! + (q - i) * (of[i + 1]! - of[i]!)
}
export const T_of = (H: number): number => along(T_OF, H)
const S_of = (H: number): number => along(S_OF, H)

/** Cells with links between them and to the air: flow G (S_b − S_a), and (T_air − T) / (R + w/k) an area. */
export interface Lines {
  readonly volume: Float64Array
  readonly links: readonly { readonly a: number; readonly b: number; readonly G: number }[]
  readonly faces: readonly { readonly cell: number; readonly area: number; readonly w: number; readonly R: number }[]
  /** Temperatures of the outputs: in the middle, in the middle of the upper face. */
  readonly middle_C: (H: ArrayLike<number>) => number
  readonly top_C: (H: ArrayLike<number>, air_C: number) => number
}

/** Edges between 0 and a length, finer towards the far end. */
export function edgesOf(length: number, cells: number, finer: number): number[] {
  return Array.from({ length: cells + 1 }, (_, i) => {
    const s = i / cells
    return length * ((1 + finer) * s - finer * s * s)
  })
}

const middles = (edges: readonly number[]): number[] => edges.slice(1).map((edge, i) => (edge + edges[i]!) / 2)

/** Even parabola through the two cells next to a plane of symmetry. */
const atSymmetry = (T0: number, T1: number, c0: number, c1: number): number =>
  T0 < FREEZES_C !== T1 < FREEZES_C ? T0 : T0 - ((T1 - T0) * c0 * c0) / (c1 * c1 - c0 * c0)

/** Surface over a cell, with its film and what lies under it in series. */
const surfaceOf = (T_C: number, air_C: number, w: number, R: number): number =>
  T_C + ((air_C - T_C) * (w / conductivityAt(T_C))) / (R + w / conductivityAt(T_C))

/** Quarter of a bar's section: films on the far side and on top. */
export function barLines(width: number, height: number, nx: number, ny: number, finer: number, h: number): Lines {
  const [ex, ey] = [edgesOf(width / 2, nx, finer), edgesOf(height / 2, ny, finer)]
  const [cx, cy] = [middles(ex), middles(ey)]
  const at = (i: number, j: number): number => j * nx + i
  const dx = (i: number): number => ex[i + 1]! - ex[i]!
  const dy = (j: number): number => ey[j + 1]! - ey[j]!
  const volume = new Float64Array(nx * ny)
  const links: { a: number; b: number; G: number }[] = []
  const faces: { cell: number; area: number; w: number; R: number }[] = []
  for (let j = 0; j < ny; j++)
    for (let i = 0; i < nx; i++) {
      volume[at(i, j)] = dx(i) * dy(j)
      if (i + 1 < nx) links.push({ a: at(i, j), b: at(i + 1, j), G: dy(j) / (cx[i + 1]! - cx[i]!) })
      else faces.push({ cell: at(i, j), area: dy(j), w: dx(i) / 2, R: 1 / h })
      if (j + 1 < ny) links.push({ a: at(i, j), b: at(i, j + 1), G: dx(i) / (cy[j + 1]! - cy[j]!) })
      else faces.push({ cell: at(i, j), area: dx(i), w: dy(j) / 2, R: 1 / h })
    }
  const T = (H: ArrayLike<number>, i: number, j: number): number => T_of(H[at(i, j)]!)
  const row = (H: ArrayLike<number>, j: number): number => atSymmetry(T(H, 0, j), T(H, 1, j), cx[0]!, cx[1]!)
  return {
    volume,
    links,
    faces,
    middle_C: (H) => atSymmetry(row(H, 0), row(H, 1), cy[0]!, cy[1]!),
    top_C: (H, air_C) => surfaceOf(row(H, ny - 1), air_C, dy(ny - 1) / 2, 1 / h),
  }
}

/**
 * Quarter of a disc under its flat upper face: rings of sectors. Towards the pole neighbouring sectors are one, so that
 * none is thinner than a share of its ring: the same device that spares the core its tiny steps there.
 */
export function discLines(
  radius: number,
  rings: number,
  sectors: number,
  finer: number,
  flat: { readonly h: number },
  arc: { readonly R: number },
): Lines {
  const er = edgesOf(radius, rings, finer)
  const cr = middles(er)
  // Angles from below up to the flat, finer towards it.
  const whole = edgesOf(Math.PI / 2, sectors, finer)
  const anglesOf = (ring: number): number[] => {
    let edges = whole
    const thin = (): boolean =>
      cr[ring]! * Math.min(...edges.slice(1).map((edge, i) => edge - edges[i]!)) < 0.25 * (er[ring + 1]! - er[ring]!)
    while (edges.length > 2 && edges.length % 2 === 1 && thin()) edges = edges.filter((_, i) => i % 2 === 0)
    return edges
  }
  const angles = er.slice(1).map((_, ring) => anglesOf(ring))
  const first: number[] = []
  let cells = 0
  for (const edges of angles) {
    first.push(cells)
    cells += edges.length - 1
  }
  const volume = new Float64Array(cells)
  const links: { a: number; b: number; G: number }[] = []
  const faces: { cell: number; area: number; w: number; R: number }[] = []
  for (const [ring, edges] of angles.entries()) {
    const [r, dr, own] = [cr[ring]!, er[ring + 1]! - er[ring]!, middles(edges)]
    const outer = angles[ring + 1]
    for (let k = 0; k < own.length; k++) {
      const cell = first[ring]! + k
      const dphi = edges[k + 1]! - edges[k]!
      volume[cell] = r * dr * dphi
      if (k + 1 < own.length) links.push({ a: cell, b: cell + 1, G: dr / (r * (own[k + 1]! - own[k]!)) })
      else faces.push({ cell, area: dr, w: (r * dphi) / 2, R: 1 / flat.h })
      if (outer === undefined) faces.push({ cell, area: er[ring + 1]! * dphi, w: dr / 2, R: arc.R })
    }
    if (outer === undefined) continue
    for (let k = 0; k + 1 < outer.length; k++) {
      const inside = edges.findLastIndex((edge) => edge <= outer[k]! + 1e-12)
      const G = (er[ring + 1]! * (outer[k + 1]! - outer[k]!)) / (cr[ring + 1]! - r)
      links.push({ a: first[ring]! + inside, b: first[ring + 1]! + k, G })
    }
  }
  const lowest = (H: ArrayLike<number>, ring: number): number => {
    const c = middles(angles[ring]!)
    const T0 = T_of(H[first[ring]!]!)
    return c.length < 2 ? T0 : atSymmetry(T0, T_of(H[first[ring]! + 1]!), c[0]!, c[1]!)
  }
  const onFlat = (H: ArrayLike<number>, air_C: number, ring: number): number => {
    const edges = angles[ring]!
    const last = edges.length - 2
    return surfaceOf(
      T_of(H[first[ring]! + last]!),
      air_C,
      (cr[ring]! * (edges[last + 1]! - edges[last]!)) / 2,
      1 / flat.h,
    )
  }
  return {
    volume,
    links,
    faces,
    middle_C: (H) => {
      const above = cr.findIndex((r) => r > radius / 2)
      const share = (radius / 2 - cr[above - 1]!) / (cr[above]! - cr[above - 1]!)
      return (1 - share) * lowest(H, above - 1) + share * lowest(H, above)
    },
    top_C: (H, air_C) => atSymmetry(onFlat(H, air_C, 0), onFlat(H, air_C, 1), cr[0]!, cr[1]!),
  }
}

/** Volume mean of the temperature. */
export function mean_C({ volume }: Lines, H: ArrayLike<number>): number {
  let [sum, all] = [0, 0]
  for (const [cell, V] of volume.entries()) {
    sum += V * T_of(H[cell]!)
    all += V
  }
  return sum / all
}

/** dH/dt of all cells in air of a temperature, W/m³; the answer is overwritten by the next call. */
export function derivativeOf(
  { volume, links, faces }: Lines,
  air_C: () => number,
): (t: number, H: number[]) => number[] {
  const cells = volume.length
  const S = new Float64Array(cells)
  const T = new Float64Array(cells)
  const rate = new Array<number>(cells).fill(0)
  const a = Int32Array.from(links, (link) => link.a)
  const b = Int32Array.from(links, (link) => link.b)
  const G = Float64Array.from(links, (link) => link.G)
  const cell = Int32Array.from(faces, (face) => face.cell)
  const area = Float64Array.from(faces, (face) => face.area)
  const w = Float64Array.from(faces, (face) => face.w)
  const R = Float64Array.from(faces, (face) => face.R)
  return (_, H) => {
    for (let i = 0; i < cells; i++) {
      S[i] = S_of(H[i]!)
      rate[i] = 0
    }
    for (let l = 0; l < a.length; l++) {
      const q = G[l]! * (S[b[l]!]! - S[a[l]!]!)
      rate[a[l]!]! += q
      rate[b[l]!]! -= q
    }
    const air = air_C()
    for (let f = 0; f < cell.length; f++) {
      const i = cell[f]!
      T[i] = T_of(H[i]!)
      rate[i]! += (area[f]! * (air - T[i]!)) / (R[f]! + w[f]! / conductivityAt(T[i]!))
    }
    for (let i = 0; i < cells; i++) rate[i]! /= volume[i]!
    return rate
  }
}
