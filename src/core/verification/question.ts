import type { CaseRun, Runner, Variant } from './case-run.ts'
import type { Case, CaseOutput } from './case-schema.ts'
import type { History } from './history.ts'
import { NotApplicable } from './not-applicable.ts'

/** A computed output: a number, or the ends of a range where the case gives a range of inputs. */
export interface Computed {
  readonly value: number | readonly [number, number]
  /** Width of the cell at a front, m, for tolerances in cells. */
  readonly cell?: number
}

/** One output to compute, and the runs to compute it from. */
export interface Question {
  readonly entry: Case
  readonly output: CaseOutput
  readonly run: Runner
  readonly variant: Variant
}

/** Computes one quantity. Throws `NotApplicable`. */
export type Answerer = (question: Question) => Computed

export const number = (value: number): Computed => ({ value })

export function momentOf(output: CaseOutput): number {
  if (output.t_s === undefined) throw new NotApplicable('the output gives no moment')
  return output.t_s
}

/** The last place to follow: the hottest of a piece that cools, the coldest of one that warms. */
export function slowestOf({ course, start_C }: CaseRun): History {
  const cools = course.mean_C[course.mean_C.length - 1]! < start_C[0]!
  return { t: course.t, value: cools ? course.hottest_C : course.coldest_C }
}

export function placeOf(run: CaseRun, output: CaseOutput): History {
  if (output.position === undefined) throw new NotApplicable('the output gives no place')
  const { name, r_m } = output.position
  if (name === 'slowest point' && r_m === undefined) return slowestOf(run)
  return { t: run.course.t, value: run.course.follow(run.specimen.place(output.position)) }
}

/** A half-space is made just deep enough for the moment asked. */
export const upTo = ({ entry, variant, run }: Question, moment: number): CaseRun =>
  run(entry.geometry.shape === 'semi_infinite' ? { ...variant, deepFor: moment } : variant, 'moments')

export function expectedNumber(output: CaseOutput): number {
  if (typeof output.value !== 'number') throw new NotApplicable('the expected value is not a number')
  return output.value
}
