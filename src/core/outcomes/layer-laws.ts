import type { Course } from '../journey/course.ts'
import type { Material } from '../materials/material.ts'
import { frozenLaw } from './frozen.ts'
import { type SetsBy, setsBySchema, settingLaw } from './kinetics/index.ts'
import type { Level, SettingLaw } from './kinetics/law.ts'

/** What makes a layer hold: the laws that its material names, and the ice in it. */
export interface LayerLaws {
  readonly name: string
  readonly material: Material
  readonly laws: readonly SettingLaw[]
  /** Absent where nothing freezes. */
  readonly ice?: SettingLaw
  /** Whether the mass holds by itself as it comes: baked, crisp. */
  readonly solid: boolean
}

/** Looks of masses that hold as they come, where no law is named. */
const SOLID_LOOKS: ReadonlySet<Material['look']> = new Set(['sponge', 'biscuit', 'chocolate'])

/** The laws that a material names, parsed. Throws: when they are of another form, which plans are checked for before. */
export const setsOf = ({ sets = [] }: Material): SetsBy[] => sets.map((one) => setsBySchema.parse(one))

type OfMaterial = Omit<LayerLaws, 'name' | 'material'>

const ofMaterials = new WeakMap<Material, Map<Level, OfMaterial>>()

/** What makes a material hold at a level; made once, however many courses and layers it is in. */
function materialLaws(given: Material, level: Level): OfMaterial {
  const material = given.scaledFrom ?? given
  const levels = ofMaterials.get(material) ?? new Map<Level, OfMaterial>()
  ofMaterials.set(material, levels)
  const made = levels.get(level)
  if (made !== undefined) return made
  // What the material says of ice is kept apart: ice holds whatever it freezes.
  const laws = setsOf(material)
    .filter((one) => one.by !== 'ice')
    .map((one) => settingLaw(one, level))
  const ice = frozenLaw(material, level)
  const solid = laws.length === 0 && SOLID_LOOKS.has(material.look)
  const found = { laws, solid, ...(ice === undefined ? {} : { ice }) }
  levels.set(level, found)
  return found
}

const known = new WeakMap<Course, Map<Level, ReadonlyMap<string, LayerLaws>>>()

/** Every layer of a course with its laws at a level, by the layer's name in the plan; made once. */
export function layerLaws(course: Course, level: Level): ReadonlyMap<string, LayerLaws> {
  const levels = known.get(course) ?? new Map<Level, ReadonlyMap<string, LayerLaws>>()
  known.set(course, levels)
  const made = levels.get(level) ?? lawsOf(course, level)
  levels.set(level, made)
  return made
}

function lawsOf(course: Course, level: Level): ReadonlyMap<string, LayerLaws> {
  const layers = course.segments[course.segments.length - 1]?.mesh.layers ?? []
  return new Map(layers.map(({ name, material }) => [name, { name, material, ...materialLaws(material, level) }]))
}
