import type { ReactNode } from 'react'

import { shapeTitles } from '../../core/geometry/shapes/index.ts'
import { wallChoices } from '../catalog.ts'
import { addFill, addLining, addMould } from '../edits/layers.ts'
import { mouldFaces, stacks } from '../edits/shape.ts'
import { useForecast } from '../forecast-client.ts'
import { Icon } from '../icons.tsx'
import { Menu, type MenuItem } from '../parts/Menu.tsx'
import { Problem } from '../parts/Problem.tsx'
import { LayerList } from '../piece/LayerList.tsx'
import { ShapeFields } from '../piece/ShapeFields.tsx'
import { faultSentence, isFieldFault, usePlanFaults } from '../plan-faults.ts'
import { useOpenPlan, usePlan } from '../plan-store.ts'
import { SectionDrawing } from '../section/SectionDrawing.tsx'
import { useView } from '../view-store.ts'

/** The piece: its section to scale, its shape, its layers. */
export function Piece(): ReactNode {
  const core = useForecast(({ forecast }) => forecast?.core.where ?? null)
  return (
    <>
      <div className="heading-row">
        <h2 id="piece-heading">Piece and stages</h2>
        <AddLayer />
      </div>
      <SectionDrawing core={core} />
      <ShapeFields />
      <LayerList />
      <PieceFaults />
    </>
  )
}

function AddLayer(): ReactNode {
  const plan = useOpenPlan()
  const edit = usePlan((state) => state.edit)
  const choose = useView(({ chooseLayer }) => chooseLayer)
  const { shape, fill } = plan.piece
  const add = (change: string, made: ReturnType<typeof addFill>): void => {
    edit(change, () => made.plan)
    choose(made.name)
  }
  const wall = wallChoices.some(({ id }) => id === 'stainless') ? 'stainless' : (wallChoices[0]?.id ?? 'stainless')
  const items: MenuItem[] = [
    {
      id: 'fill',
      label: 'Layer on top',
      disabled: !stacks(shape),
      ...(stacks(shape) ? {} : { hint: `a ${shapeTitles[shape.kind].toLowerCase()} has one filling` }),
      onChoose: () => add('new layer', addFill(plan)),
    },
    {
      id: 'lining',
      label: 'Lining inside the others',
      onChoose: () => add('new lining', addLining(plan, fill[0]?.material ?? 'sponge-crumb')),
    },
    {
      id: 'mould',
      label: 'Mould wall',
      onChoose: () => add('new mould wall', addMould(plan, wall, mouldFaces(shape))),
    },
  ]
  return (
    <Menu label="Add a layer" items={items} className="link" named>
      <Icon name="plus" />
      Layer
    </Menu>
  )
}

/** What is wrong with the piece as a whole, or with the plan where no field can say it. */
function PieceFaults(): ReactNode {
  const faults = usePlanFaults().filter((fault) => !isFieldFault(fault) && !fault.path.startsWith('stages'))
  return faults.map((fault) => (
    <Problem key={`${fault.path} ${fault.problem}`} words={faultSentence(pieceWords(fault.path), fault)} />
  ))
}

function pieceWords(path: string): string {
  if (path.startsWith('piece.lining')) return 'The lining'
  if (path.startsWith('piece.fill')) return 'The filling'
  if (path.startsWith('piece.mould')) return 'The mould'
  if (path.startsWith('probes')) return 'A probe'
  return path === '' ? 'The plan' : path
}
