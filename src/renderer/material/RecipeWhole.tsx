import type { ReactNode } from 'react'

import type { PlanRecipe } from '../../core/plan/schema/plan.ts'
import { writeAt } from '../edits/path.ts'
import { type AirKind, airKind, withAirKind } from '../edits/recipes.ts'
import { Choice } from '../parts/Choice.tsx'
import { QuantityField } from '../parts/QuantityField.tsx'
import { activityRange, airShareRange, densityRange, growthRange, lossRange, overrunRange } from '../parts/ranges.ts'
import { usePlan } from '../plan-store.ts'
import { density, percent, ratio } from '../units.ts'

const airs: readonly { readonly id: AirKind; readonly title: string }[] = [
  { id: 'none', title: 'No air in it' },
  { id: 'density_kg_m3', title: 'Weighed: kg per m³, grams a litre' },
  { id: 'overrun_pct', title: 'Overrun: air on top of the mass' },
  { id: 'air_pct', title: 'Share of air in the whole' },
]

/** What concerns the whole mass: water lost, air, and for those who know more, structure and rise. */
export function RecipeWhole({ id, recipe }: { readonly id: string; readonly recipe: PlanRecipe }): ReactNode {
  const edit = usePlan((state) => state.edit)
  const path = `materials.${id}`
  const air = airKind(recipe)
  return (
    <>
      <div className="field-row recipe-whole">
        <QuantityField
          path={`${path}.water_loss_pct`}
          label="Water lost in the oven or pot"
          quantity={percent}
          range={lossRange}
          change="water lost"
          optional
          placeholder="0"
        />
        <Choice
          label="Air"
          value={air}
          groups={[{ title: null, options: airs }]}
          onChoose={(kind) => edit('air', (plan) => withAirKind(plan, id, kind as AirKind))}
        />
        {air === 'overrun_pct' ? (
          <QuantityField
            path={`${path}.${air}`}
            label="Overrun"
            quantity={percent}
            range={overrunRange}
            change="overrun"
          />
        ) : null}
        {air === 'air_pct' ? (
          <QuantityField path={`${path}.${air}`} label="Air" quantity={percent} range={airShareRange} change="air" />
        ) : null}
        {air === 'density_kg_m3' ? (
          <QuantityField
            path={`${path}.${air}`}
            label="Density"
            quantity={density}
            range={densityRange}
            change="density"
          />
        ) : null}
      </div>
      <details className="recipe-more">
        <summary>For those who know more</summary>
        <div className="field-row">
          <Choice
            label="What holds together"
            value={recipe.structure ?? 'found'}
            groups={[
              {
                title: null,
                options: [
                  { id: 'found', title: 'As the composition says' },
                  { id: 'OW', title: 'The watery part' },
                  { id: 'WO', title: 'The fat' },
                ],
              },
            ]}
            onChoose={(choice) =>
              edit('structure', (plan) => writeAt(plan, `${path}.structure`, choice === 'found' ? undefined : choice))
            }
          />
          <QuantityField
            path={`${path}.rises_to`}
            label="Batter rises to, times its volume"
            quantity={ratio}
            range={growthRange}
            change="rise"
            optional
            placeholder="as its kind does"
          />
          <QuantityField
            path={`${path}.pore_aw`}
            label="Water activity in the pores"
            quantity={ratio}
            range={activityRange}
            change="water activity"
            optional
            placeholder="0.95"
          />
        </div>
      </details>
    </>
  )
}
