import type { Fault } from '../../errors.ts'
import { type Body, elementaryFaces, isLong } from '../../geometry/body.ts'
import { didYouMean } from '../../nearest.ts'
import type { Draft, DraftPlan } from '../draft.ts'
import { exchangeOf } from '../exchange.ts'
import { faceNamesOf } from '../face-names.ts'
import { type Path, sayPath } from '../path.ts'
import type { PlanFace, PlanSurroundings } from '../schema/plan.ts'
import { bodyAs, sideAs, startWrapping, type Wrapping, wrapped } from '../wrapping.ts'

function knownFaces(body: Body, path: Path, names: readonly (string | undefined)[]): Fault[] {
  const known = faceNamesOf(body)
  return names.flatMap((name, index) =>
    name === undefined || known.includes(name)
      ? []
      : [
          {
            path: sayPath([...path, index]),
            problem: `a ${body.kind} has no face "${name}"`,
            remedy: didYouMean(name, known),
          },
        ],
  )
}

const ofAir = ['h_W_m2K', 'air_C', 'emissivity', 'walls_C'] as const

/** A surface held at a temperature has no film to the air beside it. */
function checkKinds(path: Path, face: Draft<PlanFace | PlanSurroundings>): Fault[] {
  const beside = ofAir.filter((key) => face[key] !== undefined)
  if (face.surface_C === undefined || beside.length === 0) return []
  return [
    {
      path: sayPath([...path, 'surface_C']),
      problem: `stands beside ${beside.join(' and ')}`,
      remedy: 'give either the temperature of the surface or its exchange with the air',
    },
  ]
}

function checkSurroundings(
  path: Path,
  given: Draft<PlanSurroundings>,
  body: Body | undefined,
  wrapping: Wrapping,
  whole: boolean,
): Fault[] {
  const faults = checkKinds(path, given)
  const known = body === undefined ? undefined : faceNamesOf(body)
  for (const [name, face] of Object.entries(given.faces ?? {})) {
    const place: Path = [...path, 'faces', name]
    if (face !== undefined) faults.push(...checkKinds(place, face))
    if (known === undefined || known.includes(name)) continue
    const problem = `a ${body?.kind} has no such face`
    faults.push({ path: sayPath(place), problem, remedy: didYouMean(name, known) })
  }
  if (body === undefined || !whole || faults.length > 0) return faults
  const bare = elementaryFaces(body).flatMap((face) => {
    const exchange = exchangeOf(given as PlanSurroundings, body, face, sideAs(body, face, wrapping))
    // Ends that may be left out are, where nobody speaks of them.
    return exchange.kind === 'incomplete' && !isLong(body, face) ? [{ face, missing: exchange.missing }] : []
  })
  if (bare.length === 0) return faults
  const missing = [...new Set(bare.flatMap((one) => one.missing))].join(' and ')
  const where = bare.length === elementaryFaces(body).length ? 'any face' : bare.map((one) => one.face).join(', ')
  const remedy = 'give them for the surroundings or the face, or name built-in surroundings in "like"'
  return [...faults, { path: sayPath(path), problem: `${missing} missing for ${where}`, remedy }]
}

/** Faces that the shape doesn't have, and faces of which nobody says how they exchange heat. */
export function checkFaces({ plan, body, whole }: DraftPlan): Fault[] {
  const faults: Fault[] = []
  if (body !== undefined)
    for (const [index, wall] of (plan.piece?.mould ?? []).entries())
      faults.push(...knownFaces(body, ['piece', 'mould', index, 'faces'], wall?.faces ?? []))
  let wrapping = startWrapping((plan.piece?.mould ?? []).length > 0)
  for (const [index, stage] of (plan.stages ?? []).entries()) {
    const path: Path = ['stages', index]
    for (const [at, action] of (stage?.start ?? []).entries()) {
      if (body === undefined || action === undefined) continue
      if (action.do === 'cover' || action.do === 'uncover' || action.do === 'coat')
        faults.push(...knownFaces(bodyAs(body, wrapping), [...path, 'start', at, 'faces'], action.faces ?? []))
      wrapping = wrapped(wrapping, action, body).wrapping
    }
    const inside: Path = [...path, 'in']
    const lying = body === undefined ? undefined : bodyAs(body, wrapping)
    if (typeof stage?.in === 'object')
      faults.push(...checkSurroundings(inside, stage.in, lying, wrapping, whole(inside)))
  }
  return faults
}
