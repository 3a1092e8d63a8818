import { PlanError } from '../../core/errors.ts'
import { findCard, findCardMaterial, tableTemperatures } from '../../core/materials/card.ts'
import { materialIds } from '../../core/materials/index.ts'
import { wallIds } from '../../core/materials/wall.ts'
import { didYouMean } from '../../core/nearest.ts'
import { PLAN_LIMIT } from '../../core/plan/schema/plan.ts'
import { materialDocument } from '../../core/words/material-document.ts'
import { readText } from './input.ts'
import { readPlan } from './read-plan.ts'
import { tellMaterial } from './tell-material.ts'
import { type Words, wordFault } from './words.ts'

/** Temperatures that a plan may have, °C. */
const LOWEST_C = -60
const HIGHEST_C = 350
const MOST_TEMPERATURES = 10_000

function temperaturesOf(text: string): number[] {
  const values = text.split(',').map((part) => (part.trim() === '' ? Number.NaN : Number(part.replace('−', '-'))))
  const wrong = values.findIndex((value) => !(value >= LOWEST_C && value <= HIGHEST_C))
  if (wrong >= 0)
    throw wordFault(
      `--at has "${text.split(',')[wrong]}"`,
      `write temperatures from ${LOWEST_C} to ${HIGHEST_C} °C with commas between, such as --at -18,20,60`,
    )
  if (values.length > MOST_TEMPERATURES)
    throw wordFault(`--at has ${values.length} temperatures`, `write ${MOST_TEMPERATURES} at most`)
  return values
}

/** `thickset material ID`. */
export async function carryMaterial(words: Words): Promise<number> {
  const id = words.operands[0] ?? ''
  const at = words.text('at')
  const asked = at === undefined ? undefined : temperaturesOf(at)
  const path = words.text('plan')
  const plan = path === undefined ? undefined : readPlan(await readText(path, PLAN_LIMIT))
  const own = plan?.materials !== undefined && Object.hasOwn(plan.materials, id) ? plan.materials[id] : undefined
  const material = findCardMaterial(id, own)
  if (material === undefined) {
    const known = [...Object.keys(plan?.materials ?? {}), ...materialIds, ...wallIds]
    throw new PlanError([
      { path: 'command line', problem: `no material is called "${id}"`, remedy: didYouMean(id, known) },
    ])
  }
  const json = words.has('json')
  const card = findCard(id, own, asked ?? (json ? undefined : tableTemperatures(material)))
  if (card === undefined) return 2
  const [low_C, high_C] = material.validity_C
  const outside = (asked ?? []).filter((T_C) => T_C < low_C || T_C > high_C)
  if (outside.length > 0)
    process.stderr.write(
      `outside ${low_C} to ${Math.round(high_C * 10) / 10} °C, where its properties hold: ${outside.join(', ')} °C\n`,
    )
  process.stdout.write(json ? `${JSON.stringify(materialDocument(card))}\n` : tellMaterial(card))
  return 0
}
