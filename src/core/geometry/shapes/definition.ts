import { z } from '../../zod.ts'
import type { Body } from '../body.ts'

/** A length as a plan gives it: a thousandth of a millimetre is the least that anything is thick. */
export const length_mm = z.number().min(0.001).max(10_000)

/** One size that a person types. */
export interface ShapeSize {
  readonly key: string
  readonly label: string
  readonly quantity: 'length' | 'area' | 'volume'
  /** Left out of the plan, this is what counts. */
  readonly fallback?: number
  /** Where it shows in the section: over the whole width, from the middle, of a hole, of a tier counted from below. */
  readonly drawn?: 'across' | 'radius' | 'hole' | { readonly tier: number }
}

/** Sizes of a piece of another shape, to begin from: m. */
export interface RoughSize {
  readonly across: number
  readonly along: number
}

/** A size that doesn't go with another. */
export interface SizeFault {
  readonly key: string
  readonly problem: string
  readonly remedy: string
}

type Fields<Kind extends string> = z.ZodObject<{ kind: z.ZodLiteral<Kind> } & z.core.$ZodLooseShape, z.core.$strict>

/** All that there is to know of a shape. */
export interface ShapeDefinition<Kind extends string = string, F extends Fields<Kind> = Fields<Kind>> {
  readonly kind: Kind
  /** What it is called in the window. */
  readonly title: string
  /** Its entry in a plan. */
  readonly fields: F
  /** Sizes in the order in which they are asked. */
  readonly sizes: readonly ShapeSize[]
  /** What it has several of, each with sizes of its own: one more, or one less. */
  readonly several?: {
    readonly title: string
    count(shape: z.infer<F>): number
    readonly most: number
    withOneMore(shape: z.infer<F>): z.infer<F>
    without(shape: z.infer<F>, index: number): z.infer<F>
  }
  /** Sizes of one such shape, where shapes of the kind differ in what there is to size. */
  sizesFor?(shape: z.infer<F>): readonly ShapeSize[]
  /** The whole body, with every axis that heat may go along. */
  body(shape: z.infer<F>): Body
  /** What is wrong with sizes taken together. */
  faults?(shape: z.infer<F>): readonly SizeFault[]
  /** A shape of about the given size. */
  like(size: RoughSize): z.infer<F>
}

export function defineShape<Kind extends string, F extends Fields<Kind>>(
  definition: ShapeDefinition<Kind, F>,
): ShapeDefinition<Kind, F> {
  return definition
}

/** A length of about so many m, as a person would type it. */
export const rounded_mm = (length: number): number => Math.max(1, Math.round(length * 1000))
