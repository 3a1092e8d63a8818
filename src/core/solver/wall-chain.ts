import { endWeight, type HeldHeat } from '../boundary/held-heat.ts'

/*
 * Layers outside one cell that hold heat. Their nodes are taken out of a step before it is made: each node's mean over
 * the step follows from its neighbours' means, so that the cell sees one conductance and one temperature, as of any
 * film, whatever the step and however thin the layer. When the heat that passed into the cell is known, the nodes take
 * what is left; what was drawn from outside is what they kept and what they passed on, to round-off.
 */

/** What a chain lies between at a moment. */
export interface Sides {
  /** °C of the cell within, and m² K/W between its middle and the piece's surface. */
  cell_C: number
  within: number
  /** From the last node outward: W/(m² K), and what it pulls towards, °C. */
  outward: number
  outside_C: number
}

const noSides = (): Sides => ({ cell_C: 0, within: 0, outward: 0, outside_C: 0 })

/** The nodes outside one outer link. Shape of the arrays: nodes */
export interface WallChain {
  readonly held: HeldHeat
  /** m² of the piece's own face. */
  area: number
  /** °C at the step's start and at the end of the tried one. */
  T: Float64Array
  tried: Float64Array
  /** K/s over the last accepted step; NaN where there is none. */
  readonly trend: Float64Array
  /** What lies on both sides at the step's start and at the end of the tried one. */
  start: Sides
  end: Sides
  /** What the last node is pulled towards in the mean of the tried step, °C. */
  mean_C: number
  /** What the cell sees in the tried step: W/(m² K) and °C in the mean, and K that this moves by from mean to end. */
  seen: number
  seen_C: number
  drift_C: number
  /** J/m² drawn from outside in the tried step. */
  drawn: number
  /** What each node sees from outside, W/(m² K) and °C; with its own heat; weight of the step's end in its mean. */
  readonly pull: Float64Array
  readonly pull_C: Float64Array
  readonly whole: Float64Array
  readonly whole_C: Float64Array
  readonly weight: Float64Array
}

/** @param air_C  of what lies in the surroundings from the start */
export function startChain(held: HeldHeat, area: number, air_C: number): WallChain {
  const nodes = () => new Float64Array(held.nodes.length)
  const T = Float64Array.from(held.nodes, ({ start_C }) => start_C ?? air_C)
  return {
    held,
    area,
    T,
    tried: T.slice(),
    trend: nodes().fill(Number.NaN),
    start: noSides(),
    end: noSides(),
    mean_C: 0,
    seen: 0,
    seen_C: 0,
    drift_C: 0,
    drawn: 0,
    pull: nodes(),
    pull_C: nodes(),
    whole: nodes(),
    whole_C: nodes(),
    weight: nodes(),
  }
}

/** Heat in the nodes above 0 °C, J. */
export function heldIn({ held, area, T }: WallChain): number {
  return area * held.nodes.reduce((sum, { heat }, node) => sum + heat * T[node]!, 0)
}

/**
 * Takes the nodes out of a step of `dt` s, from outside in.
 * @param extra  m² K/W that the layer of air adds to its place in the chain
 */
export function reduceChain(chain: WallChain, dt: number, extra: number): void {
  const { held, start, T, pull, pull_C, whole, whole_C, weight } = chain
  const { nodes, R, gapAt } = held
  const between = (index: number): number => R[index]! + (index === gapAt ? extra : 0)
  let from = start.outward
  let from_C = chain.mean_C
  let low_C = Math.min(start.cell_C, chain.mean_C)
  let high_C = Math.max(start.cell_C, chain.mean_C)
  for (let node = nodes.length - 1; node >= 0; node--) {
    const { heat } = nodes[node]!
    const inner = between(node) + (node === 0 ? start.within : 0)
    const outer = node === nodes.length - 1 ? start.outward : 1 / between(node + 1)
    const w = endWeight((dt * (1 / inner + outer)) / heat)
    const own = heat / (w * dt)
    pull[node] = from
    pull_C[node] = from_C
    weight[node] = w
    whole[node] = own + from
    whole_C[node] = (own * T[node]! + from * from_C) / whole[node]!
    from = 1 / (inner + 1 / whole[node]!)
    from_C = whole_C[node]!
    low_C = Math.min(low_C, T[node]!)
    high_C = Math.max(high_C, T[node]!)
  }
  chain.seen = from
  chain.seen_C = from_C
  // The nearest node goes on moving as it did: what passes is then smooth from step to step. But never past all that it
  // lies between.
  const speed = chain.trend[0]!
  const room_C = Math.max(0, Math.min(chain.seen_C - low_C, high_C - chain.seen_C))
  chain.drift_C = Number.isNaN(speed) ? 0 : Math.min(Math.max((speed * dt) / 2, -room_C), room_C)
}

/** What the nodes come to in the step when `q` W/m² in the mean pass into the cell. */
export function settleChain(chain: WallChain, dt: number, q: number): void {
  const { held, T, tried, pull, pull_C, whole, whole_C, weight } = chain
  let flow = q
  for (let node = 0; node < held.nodes.length; node++) {
    const mean_C = whole_C[node]! - flow / whole[node]!
    tried[node] = T[node]! + (mean_C - T[node]!) / weight[node]!
    flow = pull[node]! * (pull_C[node]! - mean_C)
  }
  chain.drawn = dt * flow
}

/** What a node errs by is taken to be this share of how far it came from where its last trend led. */
const ASTRAY_SHARE = 0.2

/** How far the nodes may err in the tried step, K: a share of how far they came from where their last trend led. */
export function chainAstray({ T, tried, trend }: WallChain, dt: number): number {
  let most = 0
  for (let node = 0; node < T.length; node++) {
    const off = Math.abs(tried[node]! - T[node]! - dt * trend[node]!)
    if (off > most) most = off
  }
  return ASTRAY_SHARE * most
}

/** Makes the tried step the start of the next. */
export function acceptChain(chain: WallChain, dt: number): void {
  const { T, tried, trend } = chain
  for (let node = 0; node < T.length; node++) trend[node] = (tried[node]! - T[node]!) / dt
  chain.T = tried
  chain.tried = T
  const { start } = chain
  chain.start = chain.end
  chain.end = start
}

/** °C by layer, mean over the links of a face, and the m² that they stand for: what goes on to another mesh or stage. */
export interface CarriedWalls {
  readonly area: number
  /** Slices from the piece outward. */
  readonly layers: ReadonlyMap<string, readonly number[]>
}

/** What the layers of a face take along. */
export function carriedFrom(chains: readonly WallChain[]): CarriedWalls | undefined {
  const first = chains[0]
  if (first === undefined) return undefined
  const area = chains.reduce((sum, chain) => sum + chain.area, 0)
  const layers = new Map<string, number[]>()
  for (const [node, { layer }] of first.held.nodes.entries()) {
    const slices = layers.get(layer) ?? []
    layers.set(layer, slices)
    slices.push(chains.reduce((sum, chain) => sum + chain.area * chain.T[node]!, 0) / area)
  }
  return { area, layers }
}

/**
 * Puts what layers took along into the chains of a face; what is new keeps its start. Where the face has grown, the new
 * part of a layer comes with its start temperature.
 */
export function carryInto(chains: readonly WallChain[], carried: CarriedWalls): void {
  const area = chains.reduce((sum, chain) => sum + chain.area, 0)
  const old = Math.min(1, carried.area / area)
  for (const chain of chains) {
    const at = new Map<string, number>()
    for (const [node, { layer }] of chain.held.nodes.entries()) {
      const slice = at.get(layer) ?? 0
      at.set(layer, slice + 1)
      const T_C = carried.layers.get(layer)?.[slice]
      if (T_C !== undefined) chain.T[node] = old * T_C + (1 - old) * chain.T[node]!
    }
  }
}
