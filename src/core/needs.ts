/*
 * How much of each mass and of each ingredient a piece needs. Volumes are those of the bodies that are computed, as
 * poured: what rises later rises from there.
 */

import type { Layer } from './geometry/layer.ts'
import { buildMesh, type Mesh } from './geometry/mesh.ts'
import { formsOf, referenceOf } from './journey/forms.ts'
import type { Job } from './journey/job.ts'
import type { IngredientMass, Material } from './materials/material.ts'
import { resolvePlan } from './plan/resolve.ts'
import type { Plan } from './plan/schema/plan.ts'

/** A layer's share of the piece. */
export interface LayerNeed {
  /** As the plan names it: `fill[0]`, `lining[1]`, `stages[1].start[0]`. */
  readonly name: string
  readonly material: string
  readonly title: string
  /** m; null where the layer takes what the others leave. */
  readonly thickness: number | null
  /** m³ */
  readonly volume: number
  /** kg of the mass as it is poured or laid. */
  readonly mass_kg: number
  /** kg to put together for it; more than `mass_kg` where water is lost before. Only for a recipe. */
  readonly batch_kg?: number
  /** What goes into it, in the recipe's order. Only for a recipe. */
  readonly ingredients?: readonly IngredientMass[]
}

/** What a whole piece is made of. */
export interface PieceNeeds {
  readonly layers: readonly LayerNeed[]
  readonly mass_kg: number
  /** Over all layers with a recipe, in the order in which they come. */
  readonly ingredients: readonly IngredientMass[]
  /** Titles of layers that are no recipe: what goes into them isn't known. */
  readonly unknown: readonly string[]
}

/** Volumes of cells add up exactly whatever their number. */
const FEW_CELLS = 2

/** The finished piece in few cells. */
export function meshOf(job: Job): Mesh {
  const forms = formsOf(job)
  return buildMesh(forms[forms.length - 1]!, {
    perHalf: FEW_CELLS,
    halved: false,
    mirrored: job.body.axes.map(() => false),
    insulated: new Set(),
    reference: referenceOf(forms),
  })
}

/** m³ of each layer of the finished piece, with the layer. */
export function volumesOf(mesh: Mesh): readonly { readonly layer: Layer; readonly volume: number }[] {
  const volumes = new Float64Array(mesh.layers.length)
  for (let cell = 0; cell < mesh.cells; cell++) {
    const layer = mesh.layerOf[cell]!
    if (layer >= 0) volumes[layer] = volumes[layer]! + mesh.volume[cell]!
  }
  return mesh.layers.flatMap((layer, index) =>
    layer.material.empty === true ? [] : [{ layer, volume: volumes[index]! * mesh.measure }],
  )
}

/** What `mass_kg` of a material takes of each ingredient; nothing when it is no recipe. */
export function ingredientsFor({ recipe }: Material, mass_kg: number): readonly IngredientMass[] | undefined {
  if (recipe === undefined) return undefined
  const factor = mass_kg / recipe.massOut_kg
  return merged(
    recipe.lines.map((line) => ({
      ...line,
      mass_kg: line.mass_kg * factor,
      ...(line.count === undefined ? {} : { count: line.count * factor }),
    })),
  )
}

/** The same ingredients once each; counted while all of it is counted in one unit. */
function merged(lines: readonly IngredientMass[]): readonly IngredientMass[] {
  const sums = new Map<string, IngredientMass>()
  for (const line of lines) {
    const before = sums.get(line.ingredient)
    sums.set(line.ingredient, before === undefined ? line : added(before, line))
  }
  return [...sums.values()]
}

function added(one: IngredientMass, other: IngredientMass): IngredientMass {
  const { ingredient, title, unit } = one
  const mass_kg = one.mass_kg + other.mass_kg
  if (one.count === undefined || other.count === undefined || unit === undefined || unit !== other.unit)
    return { ingredient, title, mass_kg }
  return { ingredient, title, mass_kg, count: one.count + other.count, unit }
}

/** Masses by layer and ingredient. The plan is without faults. */
export function pieceNeeds(plan: Plan): PieceNeeds {
  const layers = volumesOf(meshOf(resolvePlan(plan).job)).map(({ layer, volume }): LayerNeed => {
    const { material, name, thickness } = layer
    const mass_kg = volume * material.density
    const ingredients = ingredientsFor(material, mass_kg)
    const { recipe } = material
    return {
      name,
      material: material.id,
      title: material.title,
      thickness,
      volume,
      mass_kg,
      ...(recipe === undefined ? {} : { batch_kg: (mass_kg * recipe.massIn_kg) / recipe.massOut_kg }),
      ...(ingredients === undefined ? {} : { ingredients }),
    }
  })
  return {
    layers,
    mass_kg: layers.reduce((sum, layer) => sum + layer.mass_kg, 0),
    ingredients: merged(layers.flatMap(({ ingredients = [] }) => ingredients)),
    unknown: [...new Set(layers.flatMap(({ title, ingredients }) => (ingredients === undefined ? [title] : [])))],
  }
}
