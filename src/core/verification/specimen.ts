import type { Body, FaceName, Place } from '../geometry/body.ts'
import type { Layer } from '../geometry/layer.ts'
import type { Material } from '../materials/material.ts'
import type { CaseGeometry, CasePosition } from './case-schema.ts'
import { NotApplicable } from './not-applicable.ts'

/** A case's body as a piece of ours, with the case's own names for faces and places turned into the piece's. */
export interface Specimen {
  readonly body: Body
  readonly lining: readonly Layer[]
  readonly fill: readonly Layer[]
  /** Elementary faces behind each face name of the case. A face in none of them is a plane of symmetry. */
  readonly faces: Readonly<Record<string, readonly FaceName[]>>
  /** m² of the whole piece, by elementary face; what fluxes are referred to. */
  readonly area: Readonly<Record<FaceName, number>>
  /** m³ of the whole piece. */
  readonly volume: number
  /** Half of the thickness, radius, or depth: the way from the exposed face to the innermost place, m. */
  readonly depth: number
  /** Length to which a heat rate is referred, where it is, m. */
  readonly length?: number
  /** Smallest thickness or diameter, for an estimate of how long things take, m. */
  readonly thickness: number
  place(position: CasePosition): Place
}

/** What a case leaves open and a run settles. */
export interface BodyChoice {
  /** Index into a list of sizes. */
  readonly size: number
  /** Depth that stands for infinity, m; the case's own when left out. */
  readonly depth?: number
  /** Part of a half-space that a front crosses, m; laid in thin courses, since temperature steps as a front passes. */
  readonly near?: number
}

/** Temperature at the start of one layer, by its index from the centre or from x0 outwards. */
export type StartOf = (layer: number) => number

export const MIDDLE: Place = { x: 0.5, y: 0.5, z: 0.5 }
/** All that a body is made from. */
export interface Recipe {
  readonly geometry: CaseGeometry
  readonly choice: BodyChoice
  readonly materials: readonly Material[]
  readonly start: StartOf
}

export const layer = (name: string, material: Material, thickness: number | null, start_C: number): Layer => ({
  name,
  material,
  thickness,
  start_C,
})

export function need<T>(value: T | undefined, what: string): T {
  if (value === undefined) throw new NotApplicable(`the case gives no ${what}`)
  return value
}

export function material(recipe: Recipe, index = 0): Material {
  return need(recipe.materials[index], `material for layer ${index + 1}`)
}

export function size(value: number | readonly number[] | undefined, choice: number, what: string): number {
  const given = need(value, what)
  return typeof given === 'number' ? given : need(given[choice], `${what} number ${choice + 1}`)
}

export function coordinate(position: CasePosition, key: 'x_m' | 'y_m' | 'z_m' | 'r_m'): number {
  return need(position[key], `coordinate ${key} of the place`)
}
