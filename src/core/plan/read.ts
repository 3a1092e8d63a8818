import { type Fault, PlanError } from '../errors.ts'
import type { Message } from '../messages.ts'
import { checkActions, checkStages } from './checks/actions.ts'
import { checkAir } from './checks/air.ts'
import { checkAppliances } from './checks/appliance.ts'
import { checkAsked } from './checks/asked.ts'
import { checkFaces } from './checks/faces.ts'
import { checkInserts } from './checks/inserts.ts'
import { checkLayers, checkMaterials, checkShape } from './checks/layers.ts'
import { checkNames } from './checks/names.ts'
import { checkCourses, checkTimes } from './checks/times.ts'
import { type Draft, type DraftPlan, draftOf } from './draft.ts'
import { formFaults, without } from './faults.ts'
import { readJson } from './json.ts'
import { broughtUp } from './migrations/bring-up.ts'
import { PLAN_LIMIT, type Plan, planSchema } from './schema/plan.ts'

const checks: readonly ((draft: DraftPlan) => Fault[])[] = [
  checkNames,
  checkShape,
  checkLayers,
  checkAir,
  checkInserts,
  checkMaterials,
  checkAppliances,
  checkFaces,
  checkActions,
  checkStages,
  checkTimes,
  checkCourses,
  checkAsked,
]

/** Most faults that are told at once; beyond, they are counted. */
const MOST_FAULTS = 200

/** The refusal of a text that is too long to be a plan; nothing for one that may be read. */
export function findTooLong(length: number): Fault | undefined {
  if (length <= PLAN_LIMIT) return undefined
  const [size, limit] = [Math.ceil(length / 1e5) / 10, PLAN_LIMIT / 1e6]
  return { path: '', problem: `${size} MB of text`, remedy: `a plan may have ${limit} MB: give the plan file itself` }
}

/** What a text holds: the plan wherever its form is right, every fault, and what there is to tell of its reading. */
export interface ReadPlan {
  readonly plan?: Plan
  readonly faults: readonly Fault[]
  readonly notes: readonly Message[]
}

/** The plan that a text stands for, of this version or an older one, with every fault of writing, form and sense. */
export function openPlan(text: string): ReadPlan {
  const tooLong = findTooLong(text.length)
  if (tooLong !== undefined) return { faults: [tooLong], notes: [] }
  const json = readJson(text)
  if (json.value === undefined) return { faults: json.faults, notes: [] }
  const { value, notes, fault } = broughtUp(json.value)
  // What a newer program means by its keys is not known here: no more is said of them.
  if (fault !== undefined) return { faults: [fault], notes }
  const { plan, faults } = examine(value)
  const all = atMost([...json.faults, ...faults])
  // Of two equal keys one would be lost: such a text is no plan yet.
  return { faults: all, notes, ...(plan === undefined || json.faults.length > 0 ? {} : { plan }) }
}

/**
 * The plan that a text stands for.
 * Throws: `PlanError` with every fault found, of writing, of form and between fields.
 */
export function readPlan(text: string): Plan {
  const { plan, faults } = openPlan(text)
  if (plan === undefined || faults.length > 0) throw new PlanError(faults)
  return plan
}

/** Faults of a plan that is already an object (the window's), none when it can be computed. */
export function findPlanFaults(value: unknown): readonly Fault[] {
  return atMost(examine(value).faults)
}

/** What the schema says of a value; null when it has more faults than can be handed over. */
function parse(value: unknown) {
  try {
    return planSchema.safeParse(value)
  } catch (error) {
    // The faults of a list go upward as arguments of one call: some hundred thousand of them overflow the stack.
    if (error instanceof RangeError) return null
    throw error
  }
}

function examine(value: unknown): { readonly plan?: Plan; readonly faults: readonly Fault[] } {
  const parsed = parse(value)
  if (parsed === null)
    return { faults: [{ path: '', problem: 'more faults than can be listed', remedy: 'give a plan file' }] }
  const form = parsed.success ? [] : formFaults(value, parsed.error.issues)
  const places = form.map(({ path }) => path)
  // What is left after everything wrong was taken out has the form of a plan, if not all of it.
  const draft = draftOf((without(value, places) ?? {}) as Draft<Plan>, places)
  const faults = [...form.map((one) => one.fault), ...checks.flatMap((check) => check(draft))]
  // The value itself, not the copy that the schema makes in its own order of keys: a plan is saved as it was written.
  return parsed.success ? { plan: value as Plan, faults } : { faults }
}

function atMost(faults: readonly Fault[]): readonly Fault[] {
  if (faults.length <= MOST_FAULTS) return faults
  const rest = faults.length - MOST_FAULTS
  const more = { path: '', problem: `${rest} more faults`, remedy: 'mend those above first' }
  return [...faults.slice(0, MOST_FAULTS), more]
}
