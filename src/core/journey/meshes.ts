import type { FaceName } from '../geometry/body.ts'
import { type Form, layersOf } from '../geometry/form.ts'
import { buildMesh, type Mesh } from '../geometry/mesh.ts'
import { refuseGiantJourney } from '../geometry/most-cells.ts'
import { formsOf, referenceOf } from './forms.ts'
import type { Job } from './job.ts'
import type { Resolution } from './resolution.ts'
import { idleFaces, mirroredAxes } from './symmetry.ts'

/** Whether an axis turns about a pole, or begins at one: heat goes along it though an end is no face. */
const isFanned = ({ body, coordinates }: Form, axis: number): boolean =>
  (coordinates.fan?.axis === axis || body.axes[axis]!.low === null) && body.axes[axis]!.idle !== true

function buildMeshes(job: Job, { perHalf, halved }: Resolution): Mesh[] {
  const mirrored = mirroredAxes(job)
  const insulated = idleFaces(job)
  const forms = formsOf(job)
  const reference = referenceOf(forms)
  // An axis through whose ends nothing passes counts for nothing: the others get the cells of a simpler body.
  const closed = (face: FaceName | null): boolean => face === null || insulated.has(face)
  let all = 0
  return forms.map((form, index) => {
    const active = form.ends.filter(
      ({ low, high }, axis) => !(closed(low) && closed(high)) || isFanned(form, axis),
    ).length
    const cells = perHalf[Math.min(Math.max(active, 1), 3) - 1]!
    const mesh = buildMesh(form, { perHalf: cells, halved, mirrored, insulated, reference })
    all += mesh.cells
    refuseGiantJourney(all, index + 1)
    return mesh
  })
}

/** Meshes of jobs by resolution: a job runs on two grids, and again with other materials and films. */
const built = new WeakMap<Job, Map<string, readonly Mesh[]>>()

/** The meshes of a job's forms, in order. */
export function meshesOf(job: Job, resolution: Resolution): readonly Mesh[] {
  const shaped = job.shapedLike ?? job
  const known = built.get(shaped) ?? new Map<string, readonly Mesh[]>()
  built.set(shaped, known)
  const key = `${resolution.perHalf} ${resolution.halved}`
  const meshes = known.get(key) ?? buildMeshes(shaped, resolution)
  known.set(key, meshes)
  if (shaped === job) return meshes
  return formsOf(job).map((form, index) => ({ ...meshes[index]!, layers: layersOf(form) }))
}
