import { elementaryFaces, type FaceName } from '../geometry/body.ts'
import { CUT_FACE, type Form } from '../geometry/form.ts'
import { buildMesh, type Mesh, NOTHING, type Reference } from '../geometry/mesh.ts'
import type { Material } from '../materials/material.ts'
import { type Conduction, prepare } from '../solver/conduction.ts'
import { createStepper, type Stepper } from '../solver/stepper.ts'
import { enthalpyOf, placeInTable, type ThermalTable } from '../solver/thermal-table.ts'
import { formAfter, formsOf, referenceOf } from './forms.ts'
import type { Action, Job } from './job.ts'
import { startTake, type Take } from './record.ts'
import type { Resolution } from './resolution.ts'
import { idleFaces, mirroredAxes } from './symmetry.ts'
import { transfer } from './transfer.ts'

/** The piece on its way through a journey: its form, its fields, and the books of its heat. */
export interface Piece {
  readonly mesh: () => Mesh
  readonly conduction: () => Conduction
  readonly stepper: () => Stepper
  readonly take: () => Take
  readonly takes: readonly Take[]
  /** Elementary faces of the whole journey, in a fixed order. */
  readonly faces: readonly FaceName[]
  /** Carries out what is done at a stage's start, in order; fields of what stays are kept. */
  act(actions: readonly Action[]): void
  /** Books heat through the faces of the conduction, J of the modelled body. */
  book(through: Float64Array): void
  bookSource(heat: number): void
  /** Heat since the start through every face, J of the whole piece. Shape: faces */
  readonly through: Float64Array
  /** Heat of the uniform source since the start, J of the whole piece. */
  readonly sourceHeat: () => number
  /** |stored − entered| over all heat moved. */
  residual(): number
}

/** Where a face of the modelled body is booked: a mirrored one stands for both. */
interface Booking {
  readonly position: number
  readonly share: number
}

function bookings(mesh: Mesh, conduction: Conduction, faces: readonly FaceName[]): Booking[][] {
  return conduction.faces.map((face) => {
    const axis = mesh.axes.findIndex((one) => one.mirrored && one.high === face)
    const twin = axis < 0 ? undefined : mesh.body.axes[axis]!.low
    const own = faces.indexOf(face)
    const other = twin === undefined || twin === null || face === CUT_FACE ? own : faces.indexOf(twin)
    return other === own
      ? [{ position: own, share: mesh.measure }]
      : [own, other].map((position) => ({ position, share: mesh.measure / 2 }))
  })
}

/** Whether an axis turns about a pole, or begins at one: heat goes along it though an end is no face. */
const isFanned = ({ body, coordinates }: Form, axis: number): boolean =>
  (coordinates.fan?.axis === axis || body.axes[axis]!.low === null) && body.axes[axis]!.idle !== true

/** The piece at the start of a job, on the grid of a resolution. */
export function startPiece(
  job: Job,
  resolution: Resolution,
  table: ThermalTable,
  materials: readonly Material[],
): Piece {
  const mirrored = mirroredAxes(job)
  const insulated = idleFaces(job)
  const forms = formsOf(job)
  const reference: Reference = referenceOf(forms)
  const partOfMaterial = new Map(materials.map((material, index) => [material, index]))
  const meshOf = (form: Form): Mesh => {
    // An axis through whose ends nothing passes counts for nothing: the others get the cells of a simpler body.
    const closed = (face: FaceName | null): boolean => face === null || insulated.has(face)
    const active = form.ends.filter(
      ({ low, high }, axis) => !(closed(low) && closed(high)) || isFanned(form, axis),
    ).length
    const perHalf = resolution.perHalf[Math.min(Math.max(active, 1), 3) - 1]!
    return buildMesh(form, { perHalf, halved: resolution.halved, mirrored, insulated, reference })
  }
  const conduct = (mesh: Mesh): Conduction =>
    prepare(
      mesh,
      table,
      mesh.layers.map((layer) => partOfMaterial.get(layer.material)!),
    )
  const cut = job.stages.some((stage) => stage.start.some((action) => action.do === 'cut'))
  const faces = [...elementaryFaces(job.body), ...(cut ? [CUT_FACE] : [])]

  let form = forms[0]!
  let mesh = meshOf(form)
  let conduction = conduct(mesh)
  let booking = bookings(mesh, conduction, faces)
  let turned = false
  const through = new Float64Array(faces.length)
  let sourceHeat = 0
  let moved = 0

  const startState = (): Float64Array => {
    const y = conduction.allocate()
    for (let cell = 0; cell < mesh.cells; cell++) {
      const layer = mesh.layerOf[cell]!
      const part = conduction.partOf[cell]!
      const start_C = layer === NOTHING ? mesh.layers[0]!.start_C : mesh.layers[layer]!.start_C
      y[conduction.fields.padding + cell] = placeInTable(table, part, start_C)
    }
    return y
  }
  /** Heat content, J of the whole piece, relative to the tables. */
  const contentOf = (y: Float64Array): number => {
    let sum = 0
    for (let cell = 0; cell < mesh.cells; cell++) {
      const part = table.parts[conduction.partOf[cell]!]!
      sum += mesh.volume[cell]! * enthalpyOf(part, y[conduction.fields.padding + cell]!)
    }
    return sum * mesh.measure
  }

  let stepper = createStepper(conduction, startState())
  let take = startTake(conduction, faces, turned)
  const takes: Take[] = [take]
  /** What the content would be if no heat had passed a face. */
  let baseline = contentOf(stepper.y())

  /** The fields on the mesh of a new form. Returns what its new layers brought along, J of the whole piece. */
  const remesh = (next: Form): number => {
    const [oldMesh, oldConduction, oldY] = [mesh, conduction, stepper.y()]
    form = next
    mesh = meshOf(form)
    conduction = conduct(mesh)
    booking = bookings(mesh, conduction, faces)
    const H = new Float64Array(oldMesh.cells)
    for (let cell = 0; cell < oldMesh.cells; cell++) {
      const part = table.parts[oldConduction.partOf[cell]!]!
      H[cell] = enthalpyOf(part, oldY[oldConduction.fields.padding + cell]!)
    }
    const carried = transfer(oldMesh, mesh, H, () => Number.NaN)
    const y = startState()
    let brought = 0
    for (let cell = 0; cell < mesh.cells; cell++) {
      if (mesh.layerOf[cell] === NOTHING) continue
      const part = table.parts[conduction.partOf[cell]!]!
      const i = conduction.fields.padding + cell
      if (Number.isNaN(carried[cell]!)) brought += mesh.volume[cell]! * enthalpyOf(part, y[i]!)
      else y[i] = part.offset + (carried[cell]! - part.enthalpyAtOffset) / part.enthalpyStep
    }
    uniteJoined(conduction, y)
    stepper = createStepper(conduction, y)
    return brought * mesh.measure
  }

  return {
    mesh: () => mesh,
    conduction: () => conduction,
    stepper: () => stepper,
    take: () => take,
    takes,
    faces,
    through,
    sourceHeat: () => sourceHeat,
    act(actions) {
      const before = form
      const wasTurned = turned
      for (const action of actions) {
        if (action.do === 'turn') turned = !turned
        const next = formAfter(form, action)
        if (next === form) continue
        const content = contentOf(stepper.y())
        const brought = remesh(next)
        // What a transfer gains or loses (nothing, but for round-off) stays in the residual; what is cut off leaves.
        baseline += action.do === 'cut' ? contentOf(stepper.y()) - content : brought
      }
      if (form === before && turned === wasTurned) return
      take = startTake(conduction, faces, turned)
      takes.push(take)
    },
    book(heat) {
      for (let face = 0; face < heat.length; face++) {
        for (const { position, share } of booking[face]!) through[position] = through[position]! + heat[face]! * share
        moved += Math.abs(heat[face]!) * mesh.measure
      }
    },
    bookSource(heat) {
      sourceHeat += heat * mesh.measure
      moved += Math.abs(heat) * mesh.measure
    },
    residual() {
      const stored = contentOf(stepper.y()) - baseline
      const entered = through.reduce((sum, heat) => sum + heat, 0) + sourceHeat
      // Nothing moved: the residual is measured against a kelvin of the whole piece's heat capacity instead.
      const scale = Math.max(moved, mesh.volume.reduce((sum, volume) => sum + volume, 0) * mesh.measure * 1e5)
      return Math.abs(stored - entered) / scale
    },
  }
}

/** Gives the cells of every group near a pole their common content. */
function uniteJoined({ mesh, joined, fields }: Conduction, y: Float64Array): void {
  for (const cells of joined) {
    let sum = 0
    let total = 0
    for (const cell of cells) {
      const volume = mesh.volume[cell - fields.padding]!
      sum += volume * y[cell]!
      total += volume
    }
    for (const cell of cells) y[cell] = sum / total
  }
}
