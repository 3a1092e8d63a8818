import type { Body, FaceName, Fit } from './body.ts'
import type { Box, Coordinates } from './coordinates/coordinates.ts'
import type { Insert, Layer } from './layer.ts'

/*
 * How a piece is made up at a moment: boxes in its own coordinates, painted one over the other. Coordinates belong to
 * the piece and stay through everything that is done to it, so that a place keeps its coordinates for life: a pour adds
 * a box above, a coat a larger box beneath all others, a cut clips them all.
 */

/** What the form must know of a layer. */
export interface FormLayer {
  /** m; null for the fill that takes what the others leave. */
  readonly thickness: number | null
}

/** A box of one material, in mesh coordinates. */
export interface Region<L extends FormLayer = Layer> {
  /** What it is made of. */
  readonly layer: L
  readonly kind: 'lining' | 'fill' | 'insert' | 'coat'
  readonly low: readonly number[]
  readonly high: readonly number[]
}

/** The faces at both ends of an axis; null: nothing passes there. */
export interface Ends {
  readonly low: FaceName | null
  readonly high: FaceName | null
}

export interface Form<L extends FormLayer = Layer> {
  readonly body: Body
  readonly coordinates: Coordinates
  readonly ends: readonly Ends[]
  readonly box: Box
  /** Outer first: the last one that holds a place owns it. */
  readonly regions: readonly Region<L>[]
  /** Pieces of this form that the whole was cut into. */
  readonly pieces: number
}

/** Name of the faces that a cut makes. */
export const CUT_FACE = 'cut'

const replaced = (values: readonly number[], index: number, value: number): number[] =>
  values.map((old, at) => (at === index ? value : old))

/** Where the fills lie when they are stacked straight on each other. */
function straightStack(body: Body, wall: number, depths: readonly (number | null)[]): (readonly [number, number])[] {
  const axis = body.axes[body.stackAxis!]!
  let at = (axis.from ?? 0) + (axis.linedLow ? wall : 0)
  return depths.map((depth) => {
    const from = at
    at += depth!
    return [from, at] as const
  })
}

/** A region of a body of several tiers: within each of them as wide as that one. */
function inTiers<L extends FormLayer>({ axes, stackAxis, tiers }: Body, region: Region<L>): Region<L>[] {
  if (tiers === undefined || stackAxis === null) return [region]
  let from = axes[stackAxis]!.from ?? 0
  return tiers.flatMap(({ reach, height }, index): Region<L>[] => {
    const low = index === 0 ? Number.NEGATIVE_INFINITY : from
    from += height
    const high = index === tiers.length - 1 ? Number.POSITIVE_INFINITY : from
    const part = {
      ...region,
      low: replaced(region.low, stackAxis, Math.max(region.low[stackAxis]!, low)),
      high: replaced(replaced(region.high, stackAxis, Math.min(region.high[stackAxis]!, high)), 0, reach),
    }
    return part.low[stackAxis]! < part.high[stackAxis]! ? [part] : []
  })
}

/** Where each fill lies on the stack axis and, where coordinates follow the layers, up to where an insert in it goes. */
interface Levels {
  readonly fit?: Fit
  readonly stack: readonly (readonly [low: number, high: number])[]
  /** By fill, in the order of the stack axis. */
  readonly insertTo: readonly (number | undefined)[]
}

/**
 * Levels of the fills, in the order of the stack axis. Where coordinates follow the layers, the upper side of an insert
 * is a level of its own.
 */
export function levelsOf(
  body: Body,
  lining: readonly FormLayer[],
  fill: readonly FormLayer[],
  inserts: readonly Insert<FormLayer>[],
): Levels {
  const wall = lining.reduce((sum, layer) => sum + layer.thickness!, 0)
  const depths = fill.map((layer) => layer.thickness)
  if (body.stackAxis === null) return { stack: [], insertTo: [] }
  if (body.fit === undefined) return { stack: straightStack(body, wall, depths), insertTo: [] }
  const flat = body.axes[body.stackAxis]!.high!
  const covers = depths.map((_, index) => {
    const place = body.invertedAtStart === true ? fill.length - 1 - index : index
    return inserts.find(({ within }) => within === place)?.margins[flat] ?? 0
  })
  const split = depths.flatMap((depth, index) => {
    const cover = covers[index]!
    return cover === 0 ? [depth] : [depth === null ? null : depth - cover, cover]
  })
  const fit = body.fit(wall, split)
  let at = 0
  const stack: (readonly [number, number])[] = []
  const insertTo: number[] = []
  for (const cover of covers) {
    const [low, high] = fit.stack[at]!
    insertTo.push(high)
    at += cover === 0 ? 1 : 2
    stack.push([low, fit.stack[at - 1]![1]])
  }
  return { fit, stack, insertTo }
}

/** A region less what is left around an insert in it. */
function inset<L extends FormLayer>(
  body: Body,
  around: Region<L>,
  { layer, margins }: Insert<L>,
  to: number | undefined,
): Region<L> {
  const margin = (face: FaceName | null): number => (face === null ? 0 : (margins[face] ?? 0))
  const follows = (axis: number): boolean => body.fit !== undefined && axis === body.stackAxis
  return {
    layer,
    kind: 'insert',
    low: around.low.map((at, axis) => at + margin(body.axes[axis]!.low)),
    high: around.high.map((at, axis) => (follows(axis) ? to! : at - margin(body.axes[axis]!.high))),
  }
}

/** The piece as it stands at the start: fills, bottom first, within linings, and what lies within the fills. */
export function startForm<L extends FormLayer = Layer>(
  body: Body,
  lining: readonly L[],
  bottomFirst: readonly L[],
  inserts: readonly Insert<L>[] = [],
): Form<L> {
  const inverted = body.invertedAtStart === true
  const fill = inverted ? bottomFirst.toReversed() : bottomFirst
  const wall = lining.reduce((sum, layer) => sum + layer.thickness!, 0)
  const { fit, stack, insertTo } = levelsOf(body, lining, fill, inserts)
  const inside = (index: number): readonly [number, number] => {
    if (index === body.stackAxis) return [stack[0]![0], stack[stack.length - 1]![1]]
    const { from = 0, length, linedLow, linedHigh } = body.axes[index]!
    return [from + (linedLow ? wall : 0), from + length - (linedHigh ? wall : 0)]
  }
  const inner: Box = {
    low: body.axes.map((_, index) => inside(index)[0]),
    high: body.axes.map((_, index) => inside(index)[1]),
  }
  let left = wall
  const grown = (): Box => ({
    low: inner.low.map((at, index) => (body.axes[index]!.linedLow ? at - left : at)),
    high: inner.high.map((at, index) => (body.axes[index]!.linedHigh ? at + left : at)),
  })
  const box = grown()
  const regions: Region<L>[] = lining.map((layer) => {
    const region: Region<L> = { layer, kind: 'lining', ...grown() }
    left -= layer.thickness!
    return region
  })
  for (const [index, layer] of fill.entries()) {
    const [low, high] = stack[index] ?? [undefined, undefined]
    const region: Region<L> = {
      layer,
      kind: 'fill',
      low: low === undefined ? inner.low : replaced(inner.low, body.stackAxis!, low),
      high: high === undefined ? inner.high : replaced(inner.high, body.stackAxis!, high),
    }
    const parts = inTiers(body, region)
    regions.push(...parts)
    const place = inverted ? fill.length - 1 - index : index
    for (const insert of inserts)
      if (insert.within === place) regions.push(inset(body, parts[0]!, insert, insertTo[index]))
  }
  const ends = body.axes.map(({ low, high, idle }) => (idle === true ? { low: null, high: null } : { low, high }))
  return { body, coordinates: fit?.coordinates ?? body.coordinates, ends, box, regions, pieces: 1 }
}

/** Axis along which layers are laid. Throws where a shape has none. */
function stackOf({ body }: Form<FormLayer>): number {
  if (body.stackAxis === null) throw new Error(`nothing can be laid on a ${body.kind}`)
  return body.stackAxis
}

/**
 * One more layer at an end of the stack. Within an open lining it lies between the linings, which go up with it; on a
 * closed end it lies on everything there is.
 */
export function laid<L extends FormLayer>(form: Form<L>, layer: L, end: 'low' | 'high'): Form<L> {
  const axis = stackOf(form)
  const surface = form.box[end][axis]!
  const sign = end === 'high' ? 1 : -1
  const reaches = (region: Region<L>): boolean => region[end][axis] === surface
  const fills = form.regions.filter((region) => region.kind === 'fill' && reaches(region))
  const column = form.regions.some((region) => region.kind === 'coat') ? undefined : fills[fills.length - 1]
  const beyond = surface + sign * layer.thickness!
  const there = form.regions.filter(reaches)
  /** What is up there spans so much; less than the whole where the outline has steps. */
  const span: Box = {
    low: form.box.low.map((_, other) => Math.min(...there.map((region) => region.low[other]!))),
    high: form.box.high.map((_, other) => Math.max(...there.map((region) => region.high[other]!))),
  }
  const bounds = (low: readonly number[], high: readonly number[]): Box =>
    end === 'high'
      ? { low: replaced(low, axis, surface), high: replaced(high, axis, beyond) }
      : { low: replaced(low, axis, beyond), high: replaced(high, axis, surface) }
  const poured: Region<L> = {
    layer,
    kind: 'fill',
    ...(column === undefined ? bounds(span.low, span.high) : bounds(column.low, column.high)),
  }
  const regions = form.regions.map((region) =>
    column !== undefined && region.kind === 'lining' && reaches(region)
      ? { ...region, [end]: replaced(region[end], axis, beyond) }
      : region,
  )
  return { ...form, regions: [...regions, poured], box: { ...form.box, [end]: replaced(form.box[end], axis, beyond) } }
}

/** A layer all over the given faces, outside everything that is there. */
export function coated<L extends FormLayer>(form: Form<L>, layer: L, faces: ReadonlySet<FaceName>): Form<L> {
  const thickness = layer.thickness!
  const covers = (face: FaceName | null): boolean => face !== null && faces.has(face)
  const around = ({ low, high }: Box): Box => ({
    low: low.map((at, axis) => (covers(form.ends[axis]!.low) ? at - thickness : at)),
    high: high.map((at, axis) => (covers(form.ends[axis]!.high) ? at + thickness : at)),
  })
  const box = around(form.box)
  // Where the outline has steps, the coat follows it: around every part, beneath all of them.
  const coats = (form.body.tiers === undefined ? [form.box] : form.regions).map(
    (one): Region<L> => ({ layer, kind: 'coat', ...around(one) }),
  )
  return { ...form, box, regions: [...coats, ...form.regions] }
}

/** Where a piece is cut along one axis, in mesh coordinates. */
export interface Cut {
  readonly axis: number
  readonly low: number
  readonly high: number
}

/** One of several pieces alike, whose new faces are all called `cut`. */
export function cutOut(form: Form, cuts: readonly Cut[], pieces: number): Form {
  let { low, high, ends } = { low: form.box.low, high: form.box.high, ends: form.ends }
  for (const cut of cuts) {
    const end = ends[cut.axis]!
    ends = ends.map((old, axis) =>
      axis === cut.axis
        ? {
            low: cut.low > low[axis]! ? CUT_FACE : end.low,
            high: cut.high < high[axis]! ? CUT_FACE : end.high,
          }
        : old,
    )
    low = replaced(low, cut.axis, Math.max(low[cut.axis]!, cut.low))
    high = replaced(high, cut.axis, Math.min(high[cut.axis]!, cut.high))
  }
  const regions = form.regions
    .map((region) => ({
      ...region,
      low: region.low.map((at, axis) => Math.max(at, low[axis]!)),
      high: region.high.map((at, axis) => Math.min(at, high[axis]!)),
    }))
    .filter((region) => region.low.every((at, axis) => at < region.high[axis]!))
  return { ...form, ends, box: { low, high }, regions, pieces: form.pieces * pieces }
}

/** Layers of a form, each once: linings outside in, fills bottom up, inserts, coats inside out. */
export function layersOf(form: Form): Layer[] {
  const of = (kind: Region['kind']): Layer[] =>
    form.regions.flatMap((region) => (region.kind === kind ? [region.layer] : []))
  return [...new Set([...of('lining'), ...of('fill'), ...of('insert'), ...of('coat').reverse()])]
}
