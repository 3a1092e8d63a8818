import { type BatchFit, fitBatch } from '../../core/batch.ts'
import { didYouMean } from '../../core/nearest.ts'
import { type LayerNeed, type PieceNeeds, pieceNeeds } from '../../core/needs.ts'
import { PLAN_LIMIT } from '../../core/plan/schema/plan.ts'
import { metric } from '../../core/words/show.ts'
import { readText } from './input.ts'
import { readPlan } from './read-plan.ts'
import { textSection, textTable } from './text-table.ts'
import { ingredientRow } from './weight.ts'
import { type Words, wordFault } from './words.ts'

/** `thickset batch PLAN`: what the piece needs; with `--layer`, the thickness that a batch gives. */
export async function carryBatch(words: Words): Promise<number> {
  const asked = words.text('layer')
  const kg = kgOf(words.text('kg'))
  if (kg !== undefined && asked === undefined) throw wordFault('--kg is given without a layer', 'write --layer NAME')
  const plan = readPlan(await readText(words.operands[0] ?? '-', PLAN_LIMIT))
  const needs = pieceNeeds(plan)
  const json = words.has('json')
  if (asked === undefined) {
    process.stdout.write(json ? `${JSON.stringify(needsDocument(plan.title, needs))}\n` : tellNeeds(plan.title, needs))
    return 0
  }
  const layer = layerOf(needs, asked)
  if (kg === undefined && layer.batch_kg === undefined)
    throw wordFault(`"${layer.title}" is no recipe, so its batch isn't known`, 'write --kg N, kg of the mass')
  const fit = fitBatch(plan, layer.name, kg)
  process.stdout.write(
    json ? `${JSON.stringify({ format: 'thickset-batch', version: 1, ...fitDocument(fit) })}\n` : tellFit(layer, fit),
  )
  return 0
}

function kgOf(text: string | undefined): number | undefined {
  if (text === undefined) return undefined
  const kg = Number(text)
  if (!(kg > 0 && kg <= 1e6)) throw wordFault(`--kg ${text} is no weight`, 'write kg put together, such as --kg 24.5')
  return kg
}

/** Without the addition that a repeated stage makes to the name. */
const baseName = (name: string): string => name.replace(/ \(\d+\)$/, '')

/** A layer by its name in the plan, or by its material where that is in one layer only. */
function layerOf({ layers }: PieceNeeds, asked: string): LayerNeed {
  const named = layers.find(({ name }) => name === asked)
  if (named !== undefined && baseName(named.name) === named.name) return named
  const ofMaterial = layers.filter(
    ({ name, material, title }) => baseName(name) === name && (material === asked || title === asked),
  )
  if (ofMaterial.length === 1 && ofMaterial[0] !== undefined) return ofMaterial[0]
  const names = layers.map(({ name }) => name).filter((name) => baseName(name) === name)
  if (ofMaterial.length > 1)
    throw wordFault(`${ofMaterial.length} layers are of "${asked}"`, `write one of ${names.join(', ')}`)
  throw wordFault(
    `no layer is called "${asked}"`,
    didYouMean(asked, [...names, ...layers.map(({ material }) => material)]),
  )
}

function needsDocument(title: string, { layers, mass_kg, ingredients, unknown }: PieceNeeds) {
  return {
    format: 'thickset-needs',
    version: 1,
    title,
    mass_kg,
    layers: layers.map(({ thickness, volume, ...layer }) => ({ ...layer, thickness_m: thickness, volume_m3: volume })),
    ingredients,
    unknown,
  }
}

const fitDocument = ({ thickness, least, ...fit }: BatchFit) => ({
  ...fit,
  ...(thickness === undefined ? {} : { thickness_m: thickness }),
  ...(least === undefined ? {} : { least_m: least }),
})

function tellNeeds(title: string, { layers, mass_kg, ingredients, unknown }: PieceNeeds): string {
  const ofLayer = ({ name, title: material, thickness, mass_kg: mass, batch_kg, ingredients: own }: LayerNeed) => [
    `${material} (${name})${thickness === null ? '' : `, ${metric.length(thickness)}`}: ${metric.mass(mass)}${
      batch_kg === undefined || batch_kg === mass ? '' : ` out of ${metric.mass(batch_kg)} put together`
    }`,
    ...textTable((own ?? []).map(ingredientRow)).map((line) => `  ${line}`),
  ]
  return [
    `${title}\n`,
    textSection('Layers', layers.flatMap(ofLayer)),
    textSection('Ingredients in all', textTable(ingredients.map(ingredientRow))),
    textSection('In all', [
      metric.mass(mass_kg),
      ...(unknown.length === 0 ? [] : [`no recipe, so counted as bought: ${unknown.join(', ')}`]),
      'as it stays in the piece: add what clings to bowls and what is trimmed off',
    ]),
  ].join('')
}

/** A thickness is worth half a millimetre, a thin coat more. */
const thicknessWords = (thickness: number): string => `${Number((thickness * 1000).toPrecision(3))} mm`

function tellFit(layer: LayerNeed, { batch_kg, mass_kg, asked_kg, thickness, over_kg, least }: BatchFit): string {
  const put = batch_kg === mass_kg ? '' : `${metric.mass(batch_kg)} put together, `
  const result =
    least !== undefined
      ? `too little: the shape takes this layer from ${thicknessWords(least)} on`
      : thickness === undefined
        ? over_kg === undefined
          ? `fills ${metric.number((100 * mass_kg) / asked_kg)} % of what the others leave`
          : `fills what the others leave, ${metric.mass(over_kg)} are left over`
        : over_kg === undefined
          ? `${thicknessWords(thickness)} thick`
          : `${thicknessWords(thickness)} thick, as much as the shape takes, and ${metric.mass(over_kg)} left over`
  return `${layer.title} (${layer.name})\n  ${put}${metric.mass(mass_kg)} of mass: ${result}\n  the plan asks for ${metric.mass(asked_kg)}${
    layer.thickness === null ? '' : ` at ${thicknessWords(layer.thickness)}`
  }\n`
}
