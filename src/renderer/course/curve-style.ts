/** How a curve is told apart, in colour and without: width, dash, marker. */
export interface CurveStyle {
  /** CSS colour. */
  readonly colour: string
  readonly width: number
  readonly dash?: string
  readonly marker?: ProbeMarker
  /** Strength of the early-to-late tint, per cent. */
  readonly tint: number
}

export type ProbeMarker = 'ring' | 'square' | 'triangle' | 'lozenge'

const named: Readonly<Record<string, CurveStyle>> = {
  core: { colour: 'var(--ink)', width: 3.2, tint: 22 },
  mean: { colour: 'var(--slate)', width: 2.2, dash: '12 4 2 4', tint: 20 },
  surface: { colour: 'var(--caramel)', width: 2.2, dash: '9 4', tint: 16 },
  air: { colour: 'var(--teal)', width: 2.2, dash: '2 3.5', tint: 16 },
}

const probeDashes = ['6 3', '6 3 2 3', '3 3', '14 4'] as const
const probeMarkers = ['ring', 'square', 'triangle', 'lozenge'] as const

/** The markers as paths around their middle, px. */
export const markerPaths: Readonly<Record<ProbeMarker, string>> = {
  ring: 'M-3.5 0a3.5 3.5 0 1 0 7 0a3.5 3.5 0 1 0 -7 0z',
  square: 'M-3 -3h6v6h-6z',
  triangle: 'M0 -4l4 7h-8z',
  lozenge: 'M0 -4.5l4.5 4.5l-4.5 4.5l-4.5 -4.5z',
}

export const isProbe = (key: string): boolean => key.startsWith('probe:')

/** The curve's place among the probes, from 0. */
export const probeNumber = (keys: readonly string[], key: string): number =>
  keys.slice(0, keys.indexOf(key)).filter(isProbe).length

/** The style of a curve of the forecast; `probe` counts the probes from 0, after four they begin anew. */
export function curveStyle(key: string, probe = 0): CurveStyle {
  const style = named[key]
  if (style) return style
  return {
    colour: 'var(--ink)',
    width: 2,
    dash: probeDashes[probe % probeDashes.length]!,
    marker: probeMarkers[probe % probeMarkers.length]!,
    tint: 16,
  }
}

/** What the curve is called in the window: probes go by the name that the plan gives them. */
export const curveName = (key: string): string => (isProbe(key) ? key.slice('probe:'.length) : key)

/** Drawn from the back to the front: the core lies on top. */
const backToFront = ['air', 'surface', 'mean']

/** Keys in the order of reading (core, mean, surface, air, probes) and their place among the probes. */
export function readingOrder(keys: readonly string[]): readonly string[] {
  const known = ['core', 'mean', 'surface', 'air'].filter((key) => keys.includes(key))
  return [...known, ...keys.filter((key) => !known.includes(key))]
}

export function drawingOrder(keys: readonly string[]): readonly string[] {
  const back = backToFront.filter((key) => keys.includes(key))
  const others = keys.filter((key) => !back.includes(key) && key !== 'core')
  return [...back, ...others, ...(keys.includes('core') ? ['core'] : [])]
}
