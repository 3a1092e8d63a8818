import type { ReactNode } from 'react'

import type { Plan } from '../../core/plan/schema/plan.ts'
import { layerChoices, materialChoices, ownMaterials } from '../catalog.ts'
import { writeAt } from '../edits/path.ts'
import { Choice } from '../parts/Choice.tsx'
import { usePlan } from '../plan-store.ts'

interface MaterialChoiceProps {
  readonly plan: Plan
  /** Path of what is done. */
  readonly path: string
  readonly material: string
  /** Whether it may be air too. */
  readonly air?: boolean
}

/** What is poured or coated with. */
export function MaterialChoice({ plan, path, material, air = false }: MaterialChoiceProps): ReactNode {
  const edit = usePlan((state) => state.edit)
  return (
    <Choice
      label="Material"
      value={material}
      groups={[
        { title: 'Of this plan', options: ownMaterials(plan) },
        { title: 'Built in', options: air ? layerChoices : materialChoices },
      ].filter(({ options }) => options.length > 0)}
      onChoose={(id) => edit('material', (now) => writeAt(now, `${path}.material`, id))}
    />
  )
}
