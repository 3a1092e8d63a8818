import { findFront } from './front.ts'
import { NotApplicable } from './not-applicable.ts'
import { type Computed, momentOf, number, type Question, upTo } from './question.ts'

/* Outputs that follow the front of a change of phase at one temperature. */

export function frontPosition(question: Question): Computed {
  const moment = momentOf(question.output)
  const front = findFront(upTo(question, moment))
  return { value: front.wayAt(moment), cell: front.cellAt(moment) }
}

export function similarityConstant(question: Question): Computed {
  const { entry } = question
  const moments = entry.outputs.flatMap((output) => (output.t_s === undefined ? [] : [output.t_s]))
  const moment = Math.max(...moments)
  const result = upTo(question, moment)
  const { rho_kg_m3: rho, T_change_C: change_C, below_T_change: below, above_T_change: above } = entry.material
  const wall_C = result.course.air_C[0]!
  const phase = wall_C < (change_C ?? 0) ? below : above
  if (phase === undefined || typeof rho !== 'number') throw new NotApplicable('the case lacks the phase at the wall')
  const diffusivity = phase.k_W_mK / (rho * phase.c_J_kgK)
  return number(findFront(result).wayAt(moment) / (2 * Math.sqrt(diffusivity * moment)))
}

export function totalChangeTime({ variant, run }: Question): Computed {
  return number(findFront(run(variant, 'moments')).done ?? Number.POSITIVE_INFINITY)
}

export function dimensionlessTotalTime(question: Question): Computed {
  const { material } = question.entry
  const result = question.run(question.variant, 'moments')
  const { T_change_C, latent_J_kg: latent, rho_kg_m3: rho, below_T_change: phase } = material
  if (T_change_C === undefined || latent === undefined || typeof rho !== 'number' || phase === undefined)
    throw new NotApplicable('the case lacks a datum of its change of phase')
  const gap_K = Math.abs(T_change_C - result.course.air_C[0]!)
  const time = totalChangeTime(question).value as number
  return number((phase.k_W_mK * gap_K * time) / (rho * latent * result.specimen.depth ** 2))
}
