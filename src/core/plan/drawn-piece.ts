import type { Body, FaceName } from '../geometry/body.ts'
import type { Box, Coordinates } from '../geometry/coordinates/coordinates.ts'
import { coated, type Form, type FormLayer, laid, type Region, startForm } from '../geometry/form.ts'
import type { Insert } from '../geometry/layer.ts'
import { wholeBody } from '../geometry/shapes/index.ts'
import { findMaterial } from '../materials/index.ts'
import { fromMm } from '../units.ts'
import { facesNamed } from './face-names.ts'
import { laysOn } from './laying.ts'
import { marginsOf } from './margins.ts'
import { drainedThickness } from './resolve-actions.ts'
import type { Plan, PlanAction } from './schema/plan.ts'
import { unrolled } from './unrolled.ts'
import { bodyAs, facesOf, startWrapping, upperEnd, wrapped } from './wrapping.ts'

/*
 * The piece as it is drawn: its form when everything has been laid on it, by the same steps as in a forecast, with its
 * mould around. A plan with faults in it is drawn as far as it goes.
 */

/** A box of a layer in mesh coordinates, and what lies in it and hides it; null: nothing does. */
export interface DrawnPart {
  readonly box: Box
  readonly hole: Box | null
}

/** A layer by the name that the plan gives it: `fill[0]`, `stages[1].start[0]`, `mould[0]`. */
export interface DrawnLayer {
  readonly name: string
  readonly kind: Region['kind'] | 'mould'
  readonly parts: readonly DrawnPart[]
}

export interface DrawnPiece {
  readonly body: Body
  readonly coordinates: Coordinates
  /** Outside first. */
  readonly layers: readonly DrawnLayer[]
  /** The piece without its mould, and as its shape alone makes it. */
  readonly whole: Box
  readonly shape: Box
  /** Whether the low end of the stack axis is up. */
  readonly upsideDown: boolean
  /** Whether the piece goes on beyond what is drawn: it has no width of its own. */
  readonly endless: boolean
  /** Where it is cut, as shares of what it spans. */
  readonly cuts: { readonly across: readonly number[]; readonly along: readonly number[] }
}

interface NamedLayer extends FormLayer {
  readonly name: string
}

/** An endless piece is drawn this many times as wide as it is high. */
const ENDLESS_ASPECT = 2.6
/** Linings leave this share of the room at least, however thick a plan makes them. */
const LEAST_ROOM = 0.02
/** Of a melt whose density isn't known, kg/m³. */
const MELT_DENSITY = 1200
/** More cuts than this are not drawn. */
const MOST_CUTS = 60

/** Thickness of a coat, m; what a melt leaves where its yield stress is given. */
function coatThickness({ thickness_mm, yield_Pa, material }: Extract<PlanAction, { do: 'coat' }>): number {
  if (thickness_mm !== undefined) return fromMm(thickness_mm)
  return drainedThickness(yield_Pa ?? 0, findMaterial(material)?.density ?? MELT_DENSITY)
}

function startOf(plan: Plan, body: Body): Form<NamedLayer> {
  const { lining = [], fill, inserts = [] } = plan.piece
  const wall_mm = lining.reduce((sum, { thickness_mm = 0 }) => sum + thickness_mm, 0)
  const room = Math.min(
    ...body.axes.flatMap(({ length, linedLow, linedHigh }, axis) =>
      axis === body.stackAxis || !(linedLow || linedHigh) ? [] : [length / (Number(linedLow) + Number(linedHigh))],
    ),
  )
  const shrunk = Math.min(1, ((1 - LEAST_ROOM) * room) / Math.max(fromMm(wall_mm), 1e-12))
  const named = (list: string, index: number, thickness: number | null): NamedLayer => ({
    name: `${list}[${index}]`,
    thickness,
  })
  const cores = inserts.map(
    ({ within = 0, margin_mm }, index): Insert<NamedLayer> => ({
      layer: named('inserts', index, null),
      within,
      margins: Object.fromEntries(Object.entries(marginsOf(body, margin_mm)).map(([face, mm]) => [face, fromMm(mm)])),
    }),
  )
  return startForm(
    body,
    lining.map(({ thickness_mm = 0 }, index) => named('lining', index, shrunk * fromMm(thickness_mm))),
    fill.map(({ thickness_mm }, index) =>
      named('fill', index, thickness_mm === undefined ? null : fromMm(thickness_mm)),
    ),
    cores,
  )
}

/** A box grown outward on some faces. */
function grown(form: Form<NamedLayer>, box: Box, faces: ReadonlySet<FaceName>, thickness: number): Box {
  const covers = (face: FaceName | null): boolean => face !== null && faces.has(face)
  return {
    low: box.low.map((at, axis) => (covers(form.ends[axis]!.low) ? at - thickness : at)),
    high: box.high.map((at, axis) => (covers(form.ends[axis]!.high) ? at + thickness : at)),
  }
}

const same = (one: Box, other: Box): boolean =>
  [0, 1].every((axis) => one.low[axis] === other.low[axis] && one.high[axis] === other.high[axis])

/** What all regions within a lining or a coat span together; what was laid on it later is not in it. */
function within(regions: readonly Region<NamedLayer>[], own: Region<NamedLayer>): Box | null {
  if (own.kind === 'fill' || own.kind === 'insert') return null
  const inner = regions
    .slice(regions.indexOf(own) + 1)
    .filter(({ low, high }) => low.every((at, axis) => at >= own.low[axis]! && high[axis]! <= own.high[axis]!))
  if (inner.length === 0) return null
  return {
    low: own.low.map((at, axis) => Math.max(at, Math.min(...inner.map(({ low }) => low[axis]!)))),
    high: own.high.map((at, axis) => Math.min(at, Math.max(...inner.map(({ high }) => high[axis]!)))),
  }
}

/** The same in tiers, where a coat goes round each part by itself: the part that it was put around. */
function partsOf({ regions, body }: Form<NamedLayer>): Map<NamedLayer, { kind: Region['kind']; parts: DrawnPart[] }> {
  const found = new Map<NamedLayer, { kind: Region['kind']; parts: DrawnPart[] }>()
  for (const region of regions) {
    const { layer, kind, low, high } = region
    const part = { box: { low, high }, hole: body.tiers === undefined ? within(regions, region) : null }
    if (part.hole !== null && same(part.box, part.hole)) continue
    const known = found.get(layer)
    if (known === undefined) found.set(layer, { kind, parts: [part] })
    else known.parts.push(part)
  }
  return found
}

function mouldOf(plan: Plan, form: Form<NamedLayer>): DrawnLayer[] {
  let inner: Box = form.box
  return (plan.piece.mould ?? [])
    .map(({ faces, thickness_mm }, index): DrawnLayer => {
      const box = grown(form, inner, new Set(facesNamed(form.body, faces)), fromMm(thickness_mm))
      const parts = same(box, inner) ? [] : [{ box, hole: inner }]
      inner = box
      return { name: `mould[${index}]`, kind: 'mould', parts }
    })
    .reverse()
}

/** Shares at which pieces part. */
const sharesOf = (pieces: number): number[] =>
  pieces > MOST_CUTS ? [] : Array.from({ length: Math.ceil(pieces) - 1 }, (_, i) => (i + 1) / pieces)

/** The piece of a plan as it is drawn. */
export function drawnPiece(plan: Plan): DrawnPiece {
  const body = wholeBody(plan.piece.shape)
  let form = startOf(plan, body)
  const shape = form.box
  let wrapping = startWrapping(false)
  let cuts: DrawnPiece['cuts'] = { across: [], along: [] }
  for (const { stage, index } of unrolled(plan.stages)) {
    for (const [at, action] of ((stage as Plan['stages'][number]).start ?? []).entries()) {
      const name = `stages[${index}].start[${at}]`
      const end = upperEnd(body, wrapping)
      if (laysOn(action) && end !== null) form = laid(form, { name, thickness: fromMm(action.thickness_mm) }, end)
      if (action.do === 'coat')
        form = coated(
          form,
          { name, thickness: coatThickness(action) },
          new Set(facesOf(action, wrapping, bodyAs(body, { ...wrapping, cut: [] }))),
        )
      if (action.do === 'cut') {
        const length = body.axes.find(({ cuts: way }) => way === 'along')?.length ?? 0
        const { across = 1, along = 1, slice_mm } = action
        cuts = { across: sharesOf(across), along: sharesOf(slice_mm === undefined ? along : length / fromMm(slice_mm)) }
      }
      wrapping = wrapped(wrapping, action, body).wrapping
    }
  }
  const byName = new Map<string, { kind: Region['kind']; parts: DrawnPart[] }>()
  for (const [{ name }, { kind, parts }] of partsOf(form)) {
    const known = byName.get(name)
    if (known === undefined) byName.set(name, { kind, parts: [...parts] })
    else known.parts.push(...parts)
  }
  const layers = [
    ...mouldOf(plan, form),
    ...[...byName].map(([name, { kind, parts }]): DrawnLayer => ({ name, kind, parts })),
  ]
  const first = body.axes[0]!
  const endless =
    first.idle === true && first.low === null && first.high === null && body.coordinates.drawn === undefined
  const piece: DrawnPiece = {
    body,
    coordinates: form.coordinates,
    layers,
    whole: form.box,
    shape,
    upsideDown: body.invertedAtStart === true,
    endless,
    cuts,
  }
  return endless ? widened(piece) : piece
}

/** An endless piece at a width that its height goes with. */
function widened(piece: DrawnPiece): DrawnPiece {
  const width = ENDLESS_ASPECT * (piece.whole.high[1]! - piece.whole.low[1]!)
  const across = ({ low, high }: Box): Box => ({ low: [0, ...low.slice(1)], high: [width, ...high.slice(1)] })
  return {
    ...piece,
    whole: across(piece.whole),
    shape: across(piece.shape),
    layers: piece.layers.map((layer) => ({
      ...layer,
      parts: layer.parts.map(({ box, hole }) => ({ box: across(box), hole: hole === null ? null : across(hole) })),
    })),
  }
}
