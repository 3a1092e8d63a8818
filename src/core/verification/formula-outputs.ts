import type { Case, CaseOutput } from './case-schema.ts'
import {
  brickDimensionality,
  clelandEarleTime,
  type FreezingMass,
  type FreezingShape,
  phamTime,
  plankBrick,
  plankFactors,
  plankTime,
} from './freezing-formulae.ts'
import { NotApplicable } from './not-applicable.ts'

/*
 * Outputs that ask for the arithmetic of a published freezing-time formula, not for a simulation.
 */

/** Short names of shapes in the files. */
const SHAPES: Readonly<Record<string, FreezingShape>> = {
  slab: 'slab',
  cyl: 'cylinder',
  cylinder_infinite: 'cylinder',
  sph: 'sphere',
  sphere: 'sphere',
  brick: 'brick',
}
const KELVIN = 273.15

function given(from: Readonly<Record<string, unknown>>, key: string): number {
  const value = from[key]
  if (typeof value !== 'number') throw new NotApplicable(`the case gives no ${key}`)
  return value
}

function shapeOf(name: unknown): FreezingShape {
  const shape = typeof name === 'string' && Object.hasOwn(SHAPES, name) ? SHAPES[name] : undefined
  if (shape === undefined) throw new NotApplicable(`the formulae know no shape "${String(name)}"`)
  return shape
}

/** Plank's time of a body whose case gives film, packaging and frozen conductivity. */
function plankOfBody(entry: Case, output: CaseOutput): number {
  const { geometry, material, boundary } = entry
  const face = boundary.surface
  if (typeof face !== 'object' || !('h_W_m2K' in face)) throw new NotApplicable('the case gives no film coefficient')
  const kelvin = (T_K: unknown): number => Number(T_K) - KELVIN
  const air_C = typeof face.T_C === 'number' ? face.T_C : kelvin(face.T_K)
  const freezes_C = material.T_freeze_C ?? kelvin(material.T_freeze_K)
  const film = boundary.film
  const packed = typeof film === 'object' && !output.note?.startsWith('bare')
  const packaging = packed && 'thickness_m' in film ? Number(film.thickness_m) / Number(film.k_W_mK) : 0
  const half = geometry.half_thickness_m ?? geometry.radius_m
  if (typeof half !== 'number') throw new NotApplicable('the case gives no size')
  return plankTime(shapeOf(geometry.shape), {
    D: 2 * half,
    h: 1 / (1 / given(face, 'h_W_m2K') + packaging),
    k: given(material, 'k_frozen_W_mK'),
    latent: given(material, 'rho_kg_m3') * given(material, 'latent_J_kg'),
    gap_K: freezes_C - air_C,
  })
}

/** The value to which the time tends as the Stefan number vanishes, in units of ρ L R²/(k ΔT). */
function plankLimit(entry: Case): number {
  const { geometry, material, boundary } = entry
  const { P, R } = plankFactors(shapeOf(geometry.shape))
  const face = boundary.surface
  const half = geometry.half_thickness_m ?? geometry.radius_m
  const k = material.below_T_change?.k_W_mK
  if (typeof face !== 'object' || typeof half !== 'number' || k === undefined)
    throw new NotApplicable('the case lacks a datum of its change of phase')
  const Bi =
    'h_W_m2K' in face && typeof face.h_W_m2K === 'number' ? (face.h_W_m2K * half) / k : Number.POSITIVE_INFINITY
  return (2 * P) / Bi + 4 * R
}

function freezingTime(entry: Case, output: CaseOutput): number {
  const { material } = entry
  const shape = shapeOf(output.shape)
  if (material.rhoL_J_m3 !== undefined)
    return plankTime(shape, {
      D: given(material, 'D_m'),
      h: given(material, 'h_W_m2K'),
      k: given(material, 'ks_W_mK'),
      latent: given(material, 'rhoL_J_m3'),
      gap_K: given(material, 'Tf_C') - given(material, 'Ta_C'),
    })
  const mass: FreezingMass = {
    freezes_C: given(material, 'Tf_C'),
    k: given(material, 'ks_W_mK'),
    unfrozen: given(material, 'Cl_J_m3K'),
    frozen: given(material, 'Cs_J_m3K'),
    latent: given(material, 'L_J_m3'),
    to10: given(material, 'dH10_J_m3'),
  }
  const brick = shape === 'brick' && output.E === undefined
  const task = {
    shape,
    D: given(output, 'D_m'),
    h: given(output, 'h_W_m2K'),
    air_C: given(output, 'Ta_C'),
    start_C: given(output, 'Ti_C'),
    centre_C: given(output, 'Tc_C'),
    ...(brick ? { b1: given(output, 'b1'), b2: given(output, 'b2') } : {}),
  }
  return output.E === undefined ? clelandEarleTime(task, mass) : phamTime(task, mass, given(output, 'E'))
}

/** The output, where it is one of a formula; undefined where it is one of a simulation. */
export function formulaOutput(entry: Case, output: CaseOutput): number | undefined {
  const sides = (): readonly [number, number] => [given(output, 'b1'), given(output, 'b2')]
  switch (output.quantity) {
    case 'P':
      return plankBrick(...sides()).P
    case 'R':
      return plankBrick(...sides()).R
    case 'E':
      return brickDimensionality(given(output, 'Bi'), ...sides())
    case 'freezing_time':
      return freezingTime(entry, output)
    case 'plank_time':
      return plankOfBody(entry, output)
    case 'quasi_steady_limit_plank':
      return plankLimit(entry)
    default:
      return undefined
  }
}
