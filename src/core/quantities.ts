import type { BakedQuantity, Forecast, LayerQuantity } from './forecast-types.ts'
import { boundingBox, type Mesh } from './geometry/mesh.ts'
import type { Course } from './journey/course.ts'
import type { Material } from './materials/material.ts'
import { ingredientsFor } from './needs.ts'

/** Coordinate systems that turn about an upright axis. */
const ROUND = ['upright-cylinder', 'sphere', 'dome']

/** Area on which the piece stands, m²: its bounding box from above, a round's own circle. */
function footprint(mesh: Mesh): number {
  const [x, , z] = boundingBox(mesh)
  return ROUND.includes(mesh.coordinates.name) ? (Math.PI / 4) * x * x : x * z
}

/** Masses and volumes by layer of the finished piece, the heat that left it, and its load on the shelf. */
export function quantitiesOf(course: Course): Forecast['quantities'] {
  const { mesh } = course.segments[course.segments.length - 1]!
  const layers = mesh.layers.flatMap((layer, index) => {
    if (layer.material.empty === true) return []
    let volume = 0
    for (let cell = 0; cell < mesh.cells; cell++) if (mesh.layerOf[cell] === index) volume += mesh.volume[cell]!
    const volume_m3 = volume * mesh.measure
    const quantity: LayerQuantity = {
      name: layer.name,
      material: layer.material.id,
      title: layer.material.title,
      thickness_m: layer.thickness,
      volume_m3,
      mass_kg: volume_m3 * layer.material.density,
      ...ingredientsOf(layer.material, volume_m3 * layer.material.density),
    }
    return [quantity]
  })
  const mass_kg = layers.reduce((sum, layer) => sum + layer.mass_kg, 0)
  const heat = course.heat[course.heat.length - 1]!
  return {
    mass_kg,
    volume_m3: layers.reduce((sum, layer) => sum + layer.volume_m3, 0),
    layers,
    heat_MJ: -heat / 1e6,
    shelf_kg_m2: mass_kg / footprint(mesh),
    ...surfaceWaterOf(course),
    ...bakedOf(course, mesh, mass_kg),
  }
}

function ingredientsOf(material: Material, mass_kg: number): Pick<LayerQuantity, 'ingredients'> {
  const ingredients = ingredientsFor(material, mass_kg)
  return ingredients === undefined ? {} : { ingredients }
}

function surfaceWaterOf({ around }: Course): { readonly evaporated_kg?: number; readonly condensed_kg?: number } {
  if (around === undefined) return {}
  const { evaporated, condensed } = around
  return { evaporated_kg: evaporated[evaporated.length - 1]!, condensed_kg: condensed[condensed.length - 1]! }
}

function bakedOf(course: Course, mesh: Mesh, poured_kg: number): { readonly baked?: BakedQuantity } {
  if (!mesh.layers.some(({ material }) => material.baking !== undefined) || course.segments.every(notBaking)) return {}
  const lost = course.waterLost[course.waterLost.length - 1]!
  const { height } = course
  return {
    baked: {
      mass_kg: poured_kg - lost,
      water_lost_kg: lost,
      water_lost_pct: (100 * lost) / poured_kg,
      ...(height === undefined ? {} : { poured_m: boundingBox(mesh)[1], risen_m: height[height.length - 1]! }),
    },
  }
}

const notBaking = ({ states }: Course['segments'][number]): boolean => states.dried === undefined
