import almondSponge from '../../../shared/materials/almond-sponge.json'
import butter from '../../../shared/materials/butter.json'
import buttercream from '../../../shared/materials/buttercream.json'
import chouxPaste from '../../../shared/materials/choux-paste.json'
import chouxShell from '../../../shared/materials/choux-shell.json'
import cocoaCoating from '../../../shared/materials/cocoa-coating.json'
import cocoaCrumb from '../../../shared/materials/cocoa-crumb.json'
import cocoaMousse from '../../../shared/materials/cocoa-mousse.json'
import cocoaOilBatter from '../../../shared/materials/cocoa-oil-batter.json'
import condensedMilk from '../../../shared/materials/condensed-milk.json'
import cream37 from '../../../shared/materials/cream-37.json'
import creamCheese from '../../../shared/materials/cream-cheese.json'
import creamCheeseFrosting from '../../../shared/materials/cream-cheese-frosting.json'
import darkChocolate from '../../../shared/materials/dark-chocolate.json'
import eggCustard from '../../../shared/materials/egg-custard.json'
import fondant from '../../../shared/materials/fondant.json'
import freshCheeseCream from '../../../shared/materials/fresh-cheese-cream.json'
import fruitMousse from '../../../shared/materials/fruit-mousse.json'
import fruitPuree from '../../../shared/materials/fruit-puree.json'
import ganache from '../../../shared/materials/ganache.json'
import gelatinCream from '../../../shared/materials/gelatin-cream.json'
import gelatinJelly from '../../../shared/materials/gelatin-jelly.json'
import hazelnutPaste from '../../../shared/materials/hazelnut-paste.json'
import honey from '../../../shared/materials/honey.json'
import iceCreamBase from '../../../shared/materials/ice-cream-base.json'
import jam from '../../../shared/materials/jam.json'
import lemonCream from '../../../shared/materials/lemon-cream.json'
import marzipan from '../../../shared/materials/marzipan.json'
import mascarponeCream from '../../../shared/materials/mascarpone-cream.json'
import milkChocolate from '../../../shared/materials/milk-chocolate.json'
import milkPudding from '../../../shared/materials/milk-pudding.json'
import nutSpread from '../../../shared/materials/nut-spread.json'
import pastryCream from '../../../shared/materials/pastry-cream.json'
import poundBatter from '../../../shared/materials/pound-batter.json'
import poundCrumb from '../../../shared/materials/pound-crumb.json'
import shortcrust from '../../../shared/materials/shortcrust.json'
import softCaramel from '../../../shared/materials/soft-caramel.json'
import spongeBatter from '../../../shared/materials/sponge-batter.json'
import spongeCrumb from '../../../shared/materials/sponge-crumb.json'
import waferSheet from '../../../shared/materials/wafer-sheet.json'
import water from '../../../shared/materials/water.json'
import whippedCream from '../../../shared/materials/whipped-cream.json'
import whiteBread from '../../../shared/materials/white-bread.json'
import whiteChocolate from '../../../shared/materials/white-chocolate.json'
import { type BuiltIn, builtInMaterial, builtInSchema } from './built-in.ts'
import type { Material } from './material.ts'

/** Files of shared/materials by id; a test compares this list with the folder. */
const files: Readonly<Record<string, unknown>> = {
  'almond-sponge': almondSponge,
  butter,
  buttercream,
  'choux-paste': chouxPaste,
  'choux-shell': chouxShell,
  'cocoa-coating': cocoaCoating,
  'cocoa-crumb': cocoaCrumb,
  'cocoa-mousse': cocoaMousse,
  'cocoa-oil-batter': cocoaOilBatter,
  'condensed-milk': condensedMilk,
  'cream-37': cream37,
  'cream-cheese': creamCheese,
  'cream-cheese-frosting': creamCheeseFrosting,
  'dark-chocolate': darkChocolate,
  'egg-custard': eggCustard,
  fondant,
  'fresh-cheese-cream': freshCheeseCream,
  'fruit-mousse': fruitMousse,
  'fruit-puree': fruitPuree,
  ganache,
  'gelatin-cream': gelatinCream,
  'gelatin-jelly': gelatinJelly,
  'hazelnut-paste': hazelnutPaste,
  honey,
  'ice-cream-base': iceCreamBase,
  jam,
  'lemon-cream': lemonCream,
  marzipan,
  'mascarpone-cream': mascarponeCream,
  'milk-chocolate': milkChocolate,
  'milk-pudding': milkPudding,
  'nut-spread': nutSpread,
  'pastry-cream': pastryCream,
  'pound-batter': poundBatter,
  'pound-crumb': poundCrumb,
  shortcrust,
  'soft-caramel': softCaramel,
  'sponge-batter': spongeBatter,
  'sponge-crumb': spongeCrumb,
  'wafer-sheet': waferSheet,
  water,
  'whipped-cream': whippedCream,
  'white-bread': whiteBread,
  'white-chocolate': whiteChocolate,
}

/** Ids of all built-in materials, in the order of the alphabet. */
export const materialIds: readonly string[] = Object.keys(files)

const parsed = new Map<string, BuiltIn>()
const built = new Map<string, Material>()

/** The data of a built-in material; nothing when there is none of this id. */
export function findBuiltIn(id: string): BuiltIn | undefined {
  const known = parsed.get(id)
  if (known !== undefined || !Object.hasOwn(files, id)) return known
  const data = builtInSchema.parse(files[id])
  parsed.set(id, data)
  return data
}

/** A built-in material; nothing when there is none of this id. */
export function findMaterial(id: string): Material | undefined {
  const known = built.get(id)
  if (known !== undefined) return known
  const data = findBuiltIn(id)
  if (data === undefined) return undefined
  const material = builtInMaterial(data)
  built.set(id, material)
  return material
}

/** A built-in material that is known to exist. Throws: a plain error when it doesn't. */
export function getMaterial(id: string): Material {
  const material = findMaterial(id)
  if (material === undefined) throw new Error(`no built-in material "${id}"`)
  return material
}
