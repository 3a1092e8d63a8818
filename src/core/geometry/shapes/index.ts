import type { z } from '../../zod.ts'
import type { Body } from '../body.ts'
import type { RoughSize, ShapeDefinition, ShapeSize, SizeFault } from './definition.ts'
import { keepAxes } from './keep-axes.ts'
import { shapes } from './registry.ts'

/** Length of a shape that has none, m. */
const USUAL_LENGTH = 0.6

type Definition = (typeof shapes)[number]

/** A shape as a plan gives it. */
export type Shape = z.infer<Definition['fields']>
export type ShapeKind = Shape['kind']

const byKind = new Map<string, ShapeDefinition>(
  shapes.map((shape) => [shape.kind, shape as unknown as ShapeDefinition]),
)

function definitionOf(kind: string): ShapeDefinition {
  const found = byKind.get(kind)
  if (found === undefined) throw new Error(`no shape is called ${kind}`)
  return found
}

type FieldsOf<Shapes extends readonly { readonly fields: unknown }[]> = {
  [Index in keyof Shapes]: Shapes[Index]['fields']
}

/** Parts that a shape has several of. */
export interface Several {
  readonly title: string
  readonly count: number
  readonly most: number
  withOneMore(): Shape
  without(index: number): Shape
}

/** The plan's entries of all shapes. */
export const shapeFields = shapes.map((shape) => shape.fields) as unknown as FieldsOf<typeof shapes>

/** What the window and the plan's messages call each shape. */
export const shapeTitles = Object.fromEntries(shapes.map(({ kind, title }) => [kind, title])) as Readonly<
  Record<ShapeKind, string>
>

/** The sizes of a shape, in the order in which they are asked. */
export const sizesOfShape = (kind: ShapeKind): readonly ShapeSize[] => definitionOf(kind).sizes

/** The sizes of this very shape, in the order in which they are asked. */
export function sizesOf(shape: Shape): readonly ShapeSize[] {
  const definition = definitionOf(shape.kind)
  return definition.sizesFor?.(shape as never) ?? definition.sizes
}

/** What a shape has several of, where it does. */
export function severalOf(shape: Shape): Several | undefined {
  const { several } = definitionOf(shape.kind)
  if (several === undefined) return undefined
  return {
    title: several.title,
    count: several.count(shape as never),
    most: several.most,
    withOneMore: () => several.withOneMore(shape as never) as Shape,
    without: (index) => several.without(shape as never, index) as Shape,
  }
}

/** A shape of a kind, of about the given size (m). */
export const shapeLike = (kind: ShapeKind, size: RoughSize): Shape => definitionOf(kind).like(size) as Shape

/** What is wrong with the sizes of a shape taken together. */
export const shapeFaults = (shape: Shape): readonly SizeFault[] =>
  definitionOf(shape.kind).faults?.(shape as never) ?? []

/** The whole body of a plan's shape, in SI, with every axis that heat may go along. */
export const wholeBody = (shape: Shape): Body => definitionOf(shape.kind).body(shape as never)

/** About how large a shape is, m: what another one begins from. */
export function roughSizeOf(shape: Shape): RoughSize {
  const { axes, coordinates } = wholeBody(shape)
  const { low, high } = coordinates.bounds({
    low: axes.map(({ from = 0 }) => from),
    high: axes.map(({ from = 0, length }) => from + Math.max(length, 0)),
  })
  const along = axes.find(({ carries, cuts }) => carries === 'z' && cuts === 'along')
  return { across: high[0] - low[0], along: along?.length ?? USUAL_LENGTH }
}

/** The body of a plan's shape as it is modelled when its length is great: without what may be left out then. */
export function buildBody(shape: Shape): Body {
  const body = wholeBody(shape)
  return keepAxes(body, (index) => body.axes[index]!.long !== true)
}
