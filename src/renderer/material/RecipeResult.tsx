import type { ReactNode } from 'react'

import type { MaterialCard } from '../../core/materials/card.ts'
import type { IngredientMass, RecipeFacts } from '../../core/materials/material.ts'
import type { PlanRecipe } from '../../core/plan/schema/plan.ts'
import { allergenSentences } from '../../core/words/allergens.ts'
import type { Show } from '../../core/words/show.ts'
import type { Units } from '../units.ts'
import { gellingSentences } from './gelling-words.ts'
import { weightWords } from './weights.ts'

interface RecipeResultProps {
  readonly card: MaterialCard
  readonly recipe: PlanRecipe
  readonly facts: RecipeFacts
  readonly stale: boolean
  readonly show: Show
  readonly units: Units
}

/** What a recipe comes to, while it is being typed. */
export function RecipeResult({ card, recipe, facts, stale, show, units }: RecipeResultProps): ReactNode {
  const { material } = card
  const at20 = material.at(20)
  const lost = facts.massOut_kg < facts.massIn_kg
  const figures: readonly (readonly [string, string, boolean?])[] = [
    [lost ? 'Put together' : 'Mass', weightWords(facts.massIn_kg, units, show), true],
    ...(lost ? [['Mass', weightWords(facts.massOut_kg, units, show), true] as const] : []),
    ['Volume', `${show.number(facts.volume * 1000)} L`],
    ['Density', `${Math.round(material.density)} kg/m³`, true],
    ['Conductivity', `${at20.k.toFixed(3)} W/(m K)`, true],
    ['Heat capacity', `${(at20.c / 1000).toFixed(2)} kJ/(kg K)`],
    ['Begins to freeze', material.freezes_C === undefined ? 'not above −40 °C' : show.temperature(material.freezes_C)],
    ...(facts.porosity > 0.001 ? [['Air', `${(100 * facts.porosity).toFixed(0)} % of the volume`] as const] : []),
    ...(card.boils_C === undefined ? [] : [['Its water boils', show.temperature(card.boils_C)] as const]),
  ]
  return (
    <section className="recipe-result" aria-label="What it comes to" data-stale={stale}>
      <h2>What it comes to</h2>
      {stale ? <p className="second">From before your last change: mend what is marked.</p> : null}
      <dl className="figures">
        {figures.map(([name, value, first]) => (
          <div key={name} className={first === true ? 'figure figure-first' : 'figure'}>
            <dt>{name}</dt>
            <dd>{value}</dd>
          </div>
        ))}
      </dl>
      <p className="second">Conductivity and heat capacity at {show.temperature(20)}.</p>
      <h3>Ingredients</h3>
      <p className="ingredient-words">{ingredientWords(facts.lines)}</p>
      <h3>Allergens</h3>
      <Sentences sentences={allergenSentences(facts)} />
      <GellingPart sentences={gellingSentences(recipe, facts.massOut_kg)} />
    </section>
  )
}

function GellingPart({ sentences }: { readonly sentences: readonly string[] }): ReactNode {
  if (sentences.length === 0) return null
  return (
    <>
      <h3>Set with</h3>
      <Sentences sentences={sentences} />
    </>
  )
}

export function Sentences({ sentences }: { readonly sentences: readonly string[] }): ReactNode {
  return (
    <ul className="sentences">
      {sentences.map((sentence) => (
        <li key={sentence}>{sentence.charAt(0).toUpperCase() + sentence.slice(1)}.</li>
      ))}
    </ul>
  )
}

/** By falling weight with their shares, as a label lists them. */
function ingredientWords(lines: readonly IngredientMass[]): string {
  const sums = new Map<string, number>()
  for (const { title, mass_kg } of lines) sums.set(title, (sums.get(title) ?? 0) + mass_kg)
  const total = [...sums.values()].reduce((sum, kg) => sum + kg, 0)
  return [...sums]
    .sort(([, a], [, b]) => b - a)
    .map(([title, kg]) => `${title} ${share((100 * kg) / total)}`)
    .join('; ')
}

const share = (percent: number): string => `${percent.toFixed(percent < 1 ? 2 : 1)} %`
