import { type Body, elementaryFaces, type FaceName } from '../geometry/body.ts'

/** Names that a plan may use for a body's faces: its own, its groups, and `all`. */
export function faceNamesOf(body: Body): FaceName[] {
  return [...new Set([...Object.keys(body.faces), 'all'])]
}

/** The modelled faces that names of a plan stand for, each once; unknown names stand for none. */
export function facesNamed(body: Body, names: readonly FaceName[]): FaceName[] {
  const modelled = elementaryFaces(body)
  const faces = names.flatMap((name) => {
    if (Object.hasOwn(body.faces, name)) return body.faces[name] ?? []
    return name === 'all' ? modelled : []
  })
  return modelled.filter((face) => faces.includes(face))
}

/** Faces that a cover lies on when the plan names none: the top, or all of them where there is no top. */
export function facesCoveredFirst(body: Body): FaceName[] {
  return body.faces.top === undefined ? elementaryFaces(body) : facesNamed(body, ['top'])
}
