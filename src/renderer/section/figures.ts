/** Millimetres, x to the right and y upward from the lower left corner of the piece. */
export interface Box {
  readonly left: number
  readonly bottom: number
  readonly right: number
  readonly top: number
}

/** Centre of a half-round's arc, and which way its flat side faces. */
export interface Arc {
  readonly x: number
  readonly y: number
  /** 1: the flat side is up, −1: down. */
  readonly up: 1 | -1
}

export interface BoxFigure {
  readonly kind: 'box'
  readonly box: Box
}

/** A cup open at its top: outer less inner. */
export interface CupFigure {
  readonly kind: 'cup'
  readonly outer: Box
  readonly inner: Box
}

/** A ring, or a disc when inner is 0. */
export interface RingFigure {
  readonly kind: 'ring'
  readonly x: number
  readonly y: number
  readonly outer: number
  readonly inner: number
}

/** Between two arcs, from the crown to both sides, and on as upright walls where the arc has ended. */
export interface ShellFigure {
  readonly kind: 'shell'
  readonly arc: Arc
  readonly outer: number
  readonly inner: number
  /** How far it goes to either side from the crown, radians, π/2 at most. */
  readonly reach: number
  /** Height of the upright walls. */
  readonly rise: number
}

/** Between two levels within an arc; beyond its centre as wide as the arc. */
export interface BandFigure {
  readonly kind: 'band'
  readonly arc: Arc
  readonly radius: number
  /** Levels counted from the centre towards the flat side. */
  readonly low: number
  readonly high: number
}

/** One layer that is cut in several places. */
export interface JoinedFigure {
  readonly kind: 'joined'
  readonly parts: readonly [PlainFigure, ...PlainFigure[]]
}

export type PlainFigure = BoxFigure | CupFigure | RingFigure | ShellFigure | BandFigure

/** The outline of one cut layer. */
export type Figure = PlainFigure | JoinedFigure

/** Half the width of an arc at a level counted from its centre towards the flat side. */
export function halfWidthAt(radius: number, level: number): number {
  return level >= 0 ? radius : Math.sqrt(Math.max(0, radius * radius - level * level))
}

/** Lower and upper edge of a layer that lies level, mm; null for walls, linings along an arc and rings. */
export function edgesOf(figure: Figure): { readonly bottom: number; readonly top: number } | null {
  switch (figure.kind) {
    case 'box':
      return figure.box
    case 'band': {
      const { arc, low, high } = figure
      return arc.up === 1 ? { bottom: arc.y + low, top: arc.y + high } : { bottom: arc.y - high, top: arc.y - low }
    }
    case 'joined': {
      const edges = figure.parts.map(edgesOf).filter((edge) => edge !== null)
      if (edges.length < figure.parts.length) return null
      return {
        bottom: Math.min(...edges.map(({ bottom }) => bottom)),
        top: Math.max(...edges.map(({ top }) => top)),
      }
    }
    case 'cup':
    case 'shell':
    case 'ring':
      return null
  }
}

/** The same box on the other side of an upright line. */
export const mirrored = (box: Box, axis: number): Box => ({
  ...box,
  left: 2 * axis - box.right,
  right: 2 * axis - box.left,
})
