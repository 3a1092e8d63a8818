import { laysOn } from '../../core/plan/laying.ts'
import type { Plan, PlanLayer } from '../../core/plan/schema/plan.ts'
import { writeAt } from './path.ts'

export type LayerList = 'coat' | 'fill' | 'insert' | 'lining' | 'mould' | 'pour'

/** A layer as list and drawing show it. */
export interface LayerRow {
  /** The layer's name, as the core gives it: `fill[0]`, `lining[1]`, `mould[0]`, `stages[1].start[0]`. */
  readonly name: string
  readonly list: LayerList
  readonly index: number
  /** Where its fields stand in the plan. */
  readonly path: string
  readonly material: string
  readonly thickness_mm: number | undefined
  readonly start_C: number | undefined
  /** The stage at whose start it is poured. */
  readonly stage: number | null
  readonly canRise: boolean
  readonly canSink: boolean
}

/** Every layer from the top of the piece to its outside: poured and filled from above, lining from within, coats, mould. */
export function layerRows(plan: Plan): LayerRow[] {
  const { fill, inserts = [], lining = [], mould = [] } = plan.piece
  const poured = plan.stages.flatMap((stage, s) =>
    (stage.start ?? []).flatMap((action, a) =>
      laysOn(action)
        ? [row(`stages[${s}].start[${a}]`, `stages[${s}].start[${a}]`, 'pour', a, action, { stage: s })]
        : [],
    ),
  )
  const coats = plan.stages.flatMap((stage, s) =>
    (stage.start ?? []).flatMap((action, a) =>
      action.do === 'coat'
        ? [row(`stages[${s}].start[${a}]`, `stages[${s}].start[${a}]`, 'coat', a, action, { stage: s })]
        : [],
    ),
  )
  const listed = (list: 'fill' | 'lining', layers: readonly PlanLayer[]): LayerRow[] =>
    layers.map((layer, i) =>
      row(`${list}[${i}]`, `piece.${list}[${i}]`, list, i, layer, { canRise: i < layers.length - 1, canSink: i > 0 }),
    )
  const walls = mould.map((wall, i) =>
    row(`mould[${i}]`, `piece.mould[${i}]`, 'mould', i, wall, { canRise: i > 0, canSink: i < mould.length - 1 }),
  )
  const cores = inserts.map((insert, i) => row(`inserts[${i}]`, `piece.inserts[${i}]`, 'insert', i, insert, {}))
  return [
    ...poured.reverse(),
    ...listed('fill', fill).reverse(),
    ...cores,
    ...listed('lining', lining).reverse(),
    ...coats,
    ...walls,
  ]
}

function row(
  name: string,
  path: string,
  list: LayerList,
  index: number,
  layer: { material: string; thickness_mm?: number; start_C?: number },
  more: Partial<LayerRow>,
): LayerRow {
  const { material, thickness_mm, start_C } = layer
  return {
    name,
    path,
    list,
    index,
    material,
    thickness_mm,
    start_C,
    stage: null,
    canRise: false,
    canSink: false,
    ...more,
  }
}

/** A fill layer on top of the others, like the one below it. */
export function addFill(plan: Plan): { plan: Plan; name: string } {
  const { fill } = plan.piece
  const top = fill.at(-1)
  const layer: PlanLayer = { material: top?.material ?? 'egg-custard', thickness_mm: 20, start_C: top?.start_C ?? 20 }
  return { plan: writeAt(plan, 'piece.fill', [...fill, layer]), name: `fill[${fill.length}]` }
}

/** A lining inside the others. */
export function addLining(plan: Plan, material: string): { plan: Plan; name: string } {
  const lining = plan.piece.lining ?? []
  const layer: PlanLayer = { material, thickness_mm: 10, start_C: 20 }
  return { plan: writeAt(plan, 'piece.lining', [...lining, layer]), name: `lining[${lining.length}]` }
}

/** A mould wall outside the others. */
export function addMould(plan: Plan, material: string, faces: string[]): { plan: Plan; name: string } {
  const mould = plan.piece.mould ?? []
  const wall = { faces, material, thickness_mm: 2 }
  return { plan: writeAt(plan, 'piece.mould', [...mould, wall]), name: `mould[${mould.length}]` }
}

/** Without one layer; the last fill stays, as a piece needs one. */
export function removeLayer(plan: Plan, row: LayerRow): Plan {
  if (row.list === 'fill' && plan.piece.fill.length === 1) return plan
  const list = listPath(row)
  const left = listOf(plan, row).filter((_, i) => i !== row.index)
  return writeAt(plan, list, left.length === 0 && row.list !== 'fill' ? undefined : left)
}

/** One place up or down as the list shows it: a fill rises, a lining moves inward, a wall too. */
export function moveLayer(plan: Plan, row: LayerRow, up: boolean): { plan: Plan; name: string } {
  const step = (row.list === 'mould') === up ? -1 : 1
  const to = row.index + step
  const list = [...listOf(plan, row)]
  if (to < 0 || to >= list.length || inStage(row) || row.list === 'insert') return { plan, name: row.name }
  const [moved] = list.splice(row.index, 1)
  list.splice(to, 0, moved)
  return { plan: writeAt(plan, listPath(row), list), name: `${row.list}[${to}]` }
}

/** Whether it comes on at a stage's start. */
const inStage = ({ list }: LayerRow): boolean => list === 'pour' || list === 'coat'

function listPath(row: LayerRow): string {
  if (row.list === 'insert') return 'piece.inserts'
  return inStage(row) ? `stages[${row.stage}].start` : `piece.${row.list}`
}

function listOf(plan: Plan, row: LayerRow): readonly unknown[] {
  if (row.list === 'pour' || row.list === 'coat') return plan.stages[row.stage ?? -1]?.start ?? []
  return (row.list === 'insert' ? plan.piece.inserts : plan.piece[row.list]) ?? []
}
