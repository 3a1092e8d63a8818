import { type ApplianceState, heatWithin, restingState, type StepHeat } from '../boundary/appliance.ts'
import type { FaceCondition } from '../boundary/face.ts'
import type { FaceName } from '../geometry/body.ts'
import type { Conduction } from '../solver/conduction.ts'
import { createSurround, freshSurfaces, type Surround } from '../solver/surround.ts'
import { emptyFaceBook, type FaceBook } from '../solver/surround-books.ts'
import type { CarriedWalls } from '../solver/wall-chain.ts'
import type { Stage } from './job.ts'

/* What is around the piece through a whole journey: appliances that go on from stage to stage, and the books of heat and water. */

/** How one appliance went in one stage. */
export interface ApplianceSpan {
  /** Index of the stage. */
  readonly stage: number
  readonly name: string
  /** J, positive into the appliance; `piece` is what the piece gave. */
  readonly heat: Readonly<Record<keyof StepHeat, number>>
}

/** What is around the piece as it went. Shape of every array: samples of the course; NaN where there is none. */
export interface AroundCourse {
  readonly liner_C: Float64Array
  /** Of other goods in the appliance. */
  readonly goods_C: Float64Array
  /** W that the machine gives the air; negative when it cools. */
  readonly machine: Float64Array
  /** W/(m² K), by elementary face. */
  readonly films: Readonly<Record<FaceName, Float64Array>>
  /**
   * J of the whole piece since the start, from outside, by its way and face: of what evaporates and melts, taken by it;
   * of what mould, boards and lids store, taken by them.
   */
  readonly ways: Readonly<Record<Way, Readonly<Record<FaceName, Float64Array>>>>
  /** kg of the whole piece since the start. */
  readonly evaporated: Float64Array
  readonly condensed: Float64Array
  readonly appliances: readonly ApplianceSpan[]
  /** |what appliances and walls stored − what they got| over all heat that they moved. */
  readonly residual: number
}

export const ways = ['convected', 'radiated', 'latent', 'melting', 'stored'] as const
export type Way = (typeof ways)[number]

export interface Around {
  /** What is around the piece in a stage; undefined where all of its faces are simply given. */
  enter(stage: Stage, index: number, conduction: Conduction): Surround | undefined
  /** Books heat that passed the faces of the conduction in a step, J of the modelled body. */
  book(through: Float64Array): void
  /** Keeps the present moment. */
  keep(): void
  /** Ends the stage. */
  leave(): void
  /** kg of the whole piece that have left as vapour below boiling, less what settled. */
  waterLost(): number
  /** Nothing where no stage had anything to tell. */
  course(): AroundCourse | undefined
}

interface Column {
  /** What it holds of the moments before it was first told. */
  readonly before: number
  readonly values: number[]
}

/** Columns that grow together, each from the moment on at which it is first told. */
function createColumns() {
  const columns = new Map<string, Column>()
  let rows = 0
  const fill = ({ before, values }: Column): void => {
    while (values.length < rows) values.push(values.length === 0 || Number.isNaN(before) ? before : values.at(-1)!)
  }
  return {
    /** The column of that name, to be told from now on. */
    column(name: string, before: number): Column {
      const column = columns.get(name) ?? { before, values: [] }
      columns.set(name, column)
      return column
    },
    /** A value of the present row. */
    tell(column: Column, value: number): void {
      fill(column)
      column.values.push(value)
    },
    endRow(): void {
      rows++
    },
    read(name: string, before: number): Float64Array {
      const column = columns.get(name) ?? { before, values: [] }
      fill(column)
      return Float64Array.from(column.values)
    },
  }
}

export function startAround(): Around {
  const columns = createColumns()
  const spans: ApplianceSpan[] = []
  const totals = new Map<FaceName, FaceBook>()
  const water = new WeakMap<Conduction, ReturnType<typeof freshSurfaces>>()
  let surround: Surround | undefined
  let conduction: Conduction | undefined
  let stage: Stage | undefined
  let index = 0
  let last: { readonly name: string; readonly state: ApplianceState } | undefined
  let startHeat = 0
  /** Mould, boards and lids by face, as the stage before left them, and the heat in them at the start of this one. */
  const walls = new Map<FaceName, CarriedWalls>()
  let held = 0
  /** Heat that entered the piece from within the appliance, J of the whole piece. */
  let entered = 0
  let moved = 0
  let worst = 0
  let turnover = 0
  /** Whether any stage so far had something to tell. */
  let begun = false

  const conditionOf = (face: FaceName): FaceCondition | undefined => stage?.faces[face]
  const facesIn = (): readonly FaceName[] => conduction?.faces ?? []
  /** What a face's book says together with the stages before. */
  const sinceStart = (face: FaceName, position: number, key: keyof FaceBook): number => {
    const measure = conduction?.mesh.measure ?? 1
    return (totals.get(face)?.[key] ?? 0) + measure * (surround?.faceBooks[position]?.[key] ?? 0)
  }
  const allFaces = (): readonly FaceName[] => [...new Set([...totals.keys(), ...facesIn()])]
  const sumOf = (key: keyof FaceBook): number => {
    let sum = 0
    for (const total of totals.values()) sum += total[key]
    const measure = conduction?.mesh.measure ?? 1
    for (const own of surround?.faceBooks ?? []) sum += measure * own[key]
    return sum
  }
  /** What a moment of the present stage tells: the column, and what goes into it. */
  let told: { readonly column: Column; readonly read: () => number }[] = []
  const tellings = (): typeof told => {
    const tell = (name: string, before: number, read: () => number) => ({ column: columns.column(name, before), read })
    const stores = surround === undefined ? [] : (stage?.appliance?.appliance.stores ?? [])
    return [
      tell('evaporated', 0, () => sumOf('evaporated')),
      tell('condensed', 0, () => sumOf('condensed')),
      ...allFaces().flatMap((face) => {
        const position = facesIn().indexOf(face)
        return ways.map((way) => tell(`${way} ${face}`, 0, () => sinceStart(face, position, way)))
      }),
      ...(surround === undefined
        ? []
        : facesIn().map((face, at) => tell(`film ${face}`, Number.NaN, () => surround!.films()[at]!))),
      ...(surround?.state() === undefined
        ? []
        : [tell('machine', Number.NaN, () => surround?.state()?.machine ?? Number.NaN)]),
      ...stores.map(({ name }, at) => tell(name, Number.NaN, () => surround?.state()?.stores_C[at] ?? Number.NaN)),
    ]
  }

  return {
    enter(next, at, conducts) {
      stage = next
      index = at
      conduction = conducts
      const surfaces = water.get(conducts) ?? freshSurfaces(conducts)
      water.set(conducts, surfaces)
      const inside = next.appliance
      const goesOn = inside !== undefined && last?.name === inside.appliance.name
      const state =
        inside === undefined ? undefined : goesOn ? last?.state : restingState(inside.appliance, inside.start_C)
      surround = createSurround(
        conducts,
        conducts.faces.map((face) => next.faces[face]!),
        inside === undefined || state === undefined ? undefined : { stage: inside, state },
        surfaces,
        (face) => walls.get(conducts.faces[face]!),
      )
      held = surround?.heldWithin() ?? 0
      begun ||= surround !== undefined
      told = begun ? tellings() : []
      if (inside === undefined) last = undefined
      startHeat = inside === undefined || state === undefined ? 0 : heatWithin(inside.appliance, state)
      entered = 0
      moved = 0
      return surround
    },
    book(through) {
      if (surround === undefined || conduction === undefined) return
      for (const [position, face] of conduction.faces.entries()) {
        const condition = conditionOf(face)
        if (condition?.kind !== 'law' || condition.ambient !== undefined) continue
        entered += through[position]! * conduction.mesh.measure
        moved += Math.abs(through[position]!) * conduction.mesh.measure
      }
    },
    keep() {
      for (const { column, read } of told) columns.tell(column, read())
      columns.endRow()
    },
    leave() {
      if (surround === undefined || conduction === undefined) {
        walls.clear()
        return
      }
      const measure = conduction.mesh.measure
      for (const [position, face] of conduction.faces.entries()) {
        const own = surround.faceBooks[position]!
        const total = totals.get(face) ?? emptyFaceBook()
        for (const key of Object.keys(own) as (keyof FaceBook)[]) total[key] += measure * own[key]
        totals.set(face, total)
      }
      walls.clear()
      for (const [position, face] of conduction.faces.entries()) {
        const carried = surround.carried(position)
        if (carried !== undefined) walls.set(face, carried)
      }
      // What mould, boards and lids hold now, against what they drew less what they passed on.
      const taken = surround.faceBooks.reduce((sum, own) => sum + own.stored + own.joined, 0)
      worst += measure * Math.abs(surround.heldWithin() - held - taken)
      turnover += measure * surround.faceBooks.reduce((sum, own) => sum + Math.abs(own.stored), 0)
      const state = surround.state()
      if (state !== undefined && stage?.appliance !== undefined) {
        const { appliance } = stage.appliance
        const { latent: coil, ...heat } = surround.book()
        last = { name: appliance.name, state }
        spans.push({ stage: index, name: appliance.name, heat })
        // What the appliance holds now, against what the piece took and what machine, room and vapour brought.
        const inside = surround.faceBooks.filter((_, position) => {
          const condition = conditionOf(conduction!.faces[position]!)
          return condition?.kind === 'law' && condition.ambient === undefined
        })
        const pieces = stage.appliance.pieces ?? 1
        const vapour = pieces * measure * inside.reduce((sum, own) => sum + own.latent + own.melting, 0) - coil
        const stored = measure * inside.reduce((sum, own) => sum + own.stored, 0)
        const got = heat.machine + heat.room + heat.fan - pieces * (entered + stored) - vapour
        worst += Math.abs(heatWithin(appliance, state) - startHeat - got)
        turnover += pieces * moved + Math.abs(heat.machine) + Math.abs(heat.room)
      }
      surround = undefined
    },
    waterLost: () => (begun ? sumOf('evaporated') - sumOf('condensed') : 0),
    course() {
      if (!begun) return undefined
      const faces = allFaces()
      const byFace = (what: string, before: number) =>
        Object.fromEntries(faces.map((face) => [face, columns.read(`${what} ${face}`, before)]))
      return {
        liner_C: columns.read('liner', Number.NaN),
        goods_C: columns.read('goods', Number.NaN),
        machine: columns.read('machine', Number.NaN),
        films: byFace('film', Number.NaN),
        ways: {
          convected: byFace('convected', 0),
          radiated: byFace('radiated', 0),
          latent: byFace('latent', 0),
          melting: byFace('melting', 0),
          stored: byFace('stored', 0),
        },
        evaporated: columns.read('evaporated', 0),
        condensed: columns.read('condensed', 0),
        appliances: spans,
        residual: turnover === 0 ? 0 : worst / turnover,
      }
    },
  }
}
