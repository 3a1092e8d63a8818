import { substances } from '../materials/components.ts'
import { solutionOf } from '../materials/composition.ts'
import { freezingPoint } from '../materials/freezing.ts'
import { findIngredient } from '../materials/ingredients.ts'
import { makeRecipe } from '../materials/recipe.ts'
import type { Row } from './report.ts'
import { compared, leftOut } from './vector-row.ts'

/** One line of a freezing check: what it is, in words, with the freezing point by a model and by measurement. */
export interface FreezingCheck {
  readonly case: string
  readonly model_degC: number
  readonly measured_degC: number
  readonly source?: string
}

type Shares = readonly (readonly [ingredient: string, kg: number])[]

/** What a case's words say as ingredients of the table, kg; nothing where they don't say enough. */
function ingredientsOf(words: string): Shares | undefined {
  const solution = /^sucrose (\d+) g\/100 ml$/.exec(words)
  if (solution !== null) {
    const sugar = Number(solution[1]) / 1000
    const litre = 1e-4 - sugar / substances.carbohydrate.rho(20)
    return [
      ['sugar-granulated', sugar],
      ['water', litre * substances.water.rho(20)],
    ]
  }
  const byWeight = /^sucrose (\d+) wt%$/.exec(words)
  if (byWeight !== null)
    return [
      ['sugar-granulated', Number(byWeight[1])],
      ['water', 100 - Number(byWeight[1])],
    ]
  const mix = /^ice-cream mix ([\d.]+) fat\/([\d.]+) MSNF\/([\d.]+) (?:sugar|sucrose)(?:\/([\d.]+) water)?$/.exec(words)
  if (mix !== null) {
    const [fat, solids, sugar] = [Number(mix[1]), Number(mix[2]), Number(mix[3])]
    const water = mix[4] === undefined ? 100 - fat - solids - sugar - OTHER_SOLIDS : Number(mix[4])
    // Milk solids-not-fat as skim milk powder, less the water in it.
    const powder = solids / 0.9606
    return [
      ['butter-clarified', fat],
      ['milk-powder-skim', powder],
      ['sugar-granulated', sugar],
      ['water', water - (powder - solids)],
    ]
  }
  const plain: Readonly<Record<string, Shares>> = {
    'whole milk': [['milk-whole', 1]],
    strawberry: [['strawberry-puree', 1]],
    raspberry: [['raspberry-puree', 1]],
    honey: [
      ['honey', 15],
      ['water', 85],
    ],
  }
  return Object.entries(plain).find(([name]) => words.startsWith(name))?.[1]
}

/** Stabiliser and the like in a mix whose water is not stated, %. */
const OTHER_SOLIDS = 0.3

/** How far the model's and our figure may lie apart, and both from the measured one. */
const MODEL_K = 0.06
const MEASURED_SHARE = 0.15

export function freezingCheckRows(checks: readonly FreezingCheck[]): Row[] {
  return checks.flatMap(({ case: name, model_degC, measured_degC, source }): Row[] => {
    const shares = ingredientsOf(name)
    if (shares === undefined) return [leftOut(name, 'freezing point', 'its composition is not in the file')]
    const lines = shares.flatMap(([id, mass]) => {
      const ingredient = findIngredient(id)
      return ingredient === undefined ? [] : [{ ingredient, amount: { kind: 'mass' as const, mass } }]
    })
    const { mass } = makeRecipe({ lines, waterLoss: 0, air: { kind: 'none' } })
    const solution = solutionOf(mass)
    const computed = solution === null ? null : freezingPoint(solution)
    const row = { case: name, unit: 'degC', computed, ...(source === undefined ? {} : { source }) }
    const knownMiss = Math.abs(model_degC / measured_degC - 1) > MEASURED_SHARE
    return [
      compared({ ...row, output: 'freezing point', expected: model_degC, tolerance: MODEL_K }),
      knownMiss
        ? leftOut(name, 'freezing point, measured', 'flagged in the file as a known miss')
        : compared({
            ...row,
            output: 'freezing point, measured',
            expected: measured_degC,
            tolerance: Math.max(0.01, MEASURED_SHARE * Math.abs(measured_degC)),
          }),
    ]
  })
}
