/** One mistake in what a person wrote: which field, what is wrong, what would be right. */
export interface Fault {
  /** Path of the field in the plan, e.g. `stages[1].until`; empty for the file as a whole. */
  readonly path: string
  readonly problem: string
  readonly remedy: string
}

/** A plan (or a command's words) that can't be used; carries every fault found, never only the first. */
export class PlanError extends Error {
  readonly faults: readonly Fault[]
  constructor(faults: readonly Fault[]) {
    super(faults.map(sayFault).join('\n'))
    this.name = 'PlanError'
    this.faults = faults
  }
}

/** One line for a fault, in the order field, problem, remedy. */
export function sayFault(fault: Fault): string {
  return `${fault.path === '' ? 'plan' : fault.path}: ${fault.problem}; ${fault.remedy}`
}

/** A computation that could not be finished: where in the journey it stopped, and why. */
export class ComputeError extends Error {
  readonly reason: string
  readonly stage: string
  /** Hours since the start of the plan. */
  readonly at_h: number
  constructor(reason: string, stage: string, at_h: number) {
    super(`stopped in "${stage}" at ${at_h.toFixed(2)} h: ${reason}`)
    this.name = 'ComputeError'
    this.reason = reason
    this.stage = stage
    this.at_h = at_h
  }
}

/** The asked-for stop of a computation; not a fault. */
export class Cancelled extends Error {
  constructor() {
    super('cancelled')
    this.name = 'Cancelled'
  }
}

/** Closes a union: a case that was forgotten fails the type check here. */
export function assertNever(value: never): never {
  throw new Error(`unexpected value: ${JSON.stringify(value)}`)
}
