import { elementaryFaces, type FaceName } from '../geometry/body.ts'
import { CUT_FACE, type Form, startForm } from '../geometry/form.ts'
import type { Mesh } from '../geometry/mesh.ts'
import type { Conduction } from '../solver/conduction.ts'
import { createStepper, type Stepper } from '../solver/stepper.ts'
import { carryCells } from './carry-cells.ts'
import { type Cells, createCells } from './cells.ts'
import { formAfter } from './forms.ts'
import type { Action, Job } from './job.ts'
import type { MaterialsInRun } from './materials-in-run.ts'
import { meshesOf } from './meshes.ts'
import { type Lost, startTake, type Take } from './record.ts'
import type { Resolution } from './resolution.ts'

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
  /** What boiling has taken off since the start, of the whole piece, and how high the piece stands. */
  readonly lost: () => Lost
  /** Takes in the end of an accepted step; whether the stepper has to begin anew from its changed state. */
  advance(dt: number): boolean
  /** |stored − entered + carried off by vapour| over all heat moved. */
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

/** The piece at the start of a job, on the grid of a resolution. */
export function startPiece(job: Job, resolution: Resolution, inRun: MaterialsInRun): Piece {
  const meshes = meshesOf(job, resolution)
  let form = startForm(job.body, job.lining, job.fill)
  let forms = 1
  let turned = false
  const cellsOf = (one: Mesh): Cells => createCells(one, inRun, job.states ?? [], () => turned)
  const cut = job.stages.some((stage) => stage.start.some((action) => action.do === 'cut'))
  const faces = [...elementaryFaces(job.body), ...(cut ? [CUT_FACE] : [])]

  let cells = cellsOf(meshes[0]!)
  let { mesh, conduction } = cells
  let booking = bookings(mesh, conduction, faces)
  const through = new Float64Array(faces.length)
  let sourceHeat = 0
  let moved = 0

  /** Heat content, J of the whole piece, relative to the tables; what vapour carried off is taken as still there. */
  const contentOf = (y: Float64Array): number => cells.content(y) * mesh.measure

  let stepper = createStepper(conduction, cells.start())
  cells.settle(stepper.y())
  const record = (): Take => startTake(conduction, faces, turned, cells)
  let take = record()
  const takes: Take[] = [take]
  /** What the content would be if no heat had passed a face. */
  let baseline = contentOf(stepper.y())
  /** Of parts that are no longer followed. */
  let vapourGone = 0
  let waterGone = 0
  const lost = (): Lost => ({
    vapourHeat: vapourGone + cells.vapourHeat() * mesh.measure,
    water: waterGone + cells.waterLost() * mesh.measure,
    height: cells.height(),
  })

  /** The fields on the mesh of a new form. Returns what its new layers brought along, J of the whole piece. */
  const remesh = (next: Form): number => {
    const before = lost()
    const old = { cells, y: stepper.y() }
    form = next
    cells = cellsOf(meshes[forms++]!)
    ;({ mesh, conduction } = cells)
    booking = bookings(mesh, conduction, faces)
    const { y, brought } = carryCells(old.cells, old.y, cells)
    stepper = createStepper(conduction, y)
    const after = lost()
    vapourGone += before.vapourHeat - after.vapourHeat
    waterGone += before.water - after.water
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
    lost,
    advance: (dt) => cells.advance(stepper.y(), dt),
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
      take = record()
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
