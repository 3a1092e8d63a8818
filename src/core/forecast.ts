import { cautionsOf } from './cautions.ts'
import type { Control } from './control.ts'
import { spanOf, spanOfCurve, type Variants } from './deciding/band.ts'
import { type BandRuns, ownRuns } from './deciding/band-runs.ts'
import { bandOf, messagesWithBands, withBands } from './deciding/told-bands.ts'
import { Cancelled } from './errors.ts'
import { makeFilm } from './film.ts'
import type { Answer, ApplianceReport, Forecast, RuleVerdict } from './forecast-types.ts'
import { dimensionsOf, type Place } from './geometry/body.ts'
import { findCore } from './journey/core-place.ts'
import type { Course } from './journey/course.ts'
import { computeJourney } from './journey/journey.ts'
import { coarsePartner, resolutions } from './journey/resolution.ts'
import { sampleCurves } from './journey/sampling.ts'
import { type Message, message } from './messages.ts'
import { applianceFacts, iceOf, judgeAppliances } from './outcomes/appliance-report.ts'
import { judgeCarried } from './outcomes/carried.ts'
import { judgeCoats } from './outcomes/coats.ts'
import { dangerAt, judgeDanger } from './outcomes/danger.ts'
import { fineFollow } from './outcomes/fine-history.ts'
import { judgeGrowth } from './outcomes/growth/growth-report.ts'
import { judgeKilling } from './outcomes/growth/killing-report.ts'
import { reportSurroundings } from './outcomes/heat-ways.ts'
import { downAt } from './outcomes/last-down.ts'
import { judgeFollowed, judgeRule } from './outcomes/rule-verdict.ts'
import type { Rule } from './outcomes/rules.ts'
import type { Target } from './outcomes/target.ts'
import { carriedOver } from './outcomes/targets/baked.ts'
import { judgeTarget, momentReader, otherMoments } from './outcomes/targets/index.ts'
import { type ResolvedPlan, resolvePlan } from './plan/resolve.ts'
import type { Plan } from './plan/schema/plan.ts'
import { quantitiesOf } from './quantities.ts'
import { boundaryBand } from './stage-times.ts'
import { toHours } from './units.ts'
import { bandValues, type TimeBand } from './words/banded.ts'

/** Share of the work that the course itself takes; the rest is its band. */
const COURSE_SHARE = 0.6

const endWords = {
  after: 'after_h',
  core: 'core_C',
  surface: 'surface_C',
  mean: 'mean_C',
  place: 'probe',
  clock: 'clock',
  met: 'target',
  max: 'max_h',
} as const

/** A curve of the forecast: its name, and how it is read from a course. */
interface CurveReader {
  readonly name: string
  readonly read: (course: Course) => Float64Array
  /** Whether uncertain inputs move it. */
  readonly banded: boolean
}

/** In which stages the clock is moved. */
const clockNotes = ({ clockMoves }: ResolvedPlan, { stages }: Course): Message[] =>
  clockMoves.flatMap(({ at, by_min }) => {
    const stage = stages.find(({ from, to }) => from <= at && at < to)
    if (stage === undefined) return []
    const values = { stage: stage.name, at_h: toHours(at), within_h: Math.abs(by_min) / 60 }
    return [message(by_min > 0 ? 'clock-forward' : 'clock-back', values)]
  })

/**
 * Computes a plan: the course, its band, and what follows from it. The same plan gives the same numbers anywhere.
 * Throws: `PlanError` (what can't be used), `ComputeError` (what can't be finished), `Cancelled`.
 */
export function forecast(plan: Plan, control: Control = {}, bandRuns = ownRuns(plan)): Forecast {
  return forecastResolved(plan, () => resolvePlan(plan), bandRuns, control)
}

/** The same of a plan that was made ready elsewhere. */
export function forecastResolved(
  plan: Plan,
  resolve: () => ResolvedPlan,
  bandRuns: BandRuns,
  control: Control = {},
): Forecast {
  const began = control.now?.() ?? 0
  /** One judgement after the other, as long as they are wanted: on a large grid each may take longer than a step. */
  const next = <Result>(judge: () => Result): Result => {
    if (control.stopped?.() === true) throw new Cancelled()
    return judge()
  }
  const resolved = resolve()
  const { job, fidelity } = resolved
  const part = (from: number, to: number): Control => ({
    ...control,
    report: (share, doing) => control.report?.(from + (to - from) * share, doing),
  })
  const { course, coarse, error } = computeJourney(job, fidelity, part(0, COURSE_SHARE))
  const resolution = resolutions[fidelity]
  const grid = fidelity === 'quick' ? resolution : coarsePartner(resolution)
  const variants = bandRuns(resolved, coarse, grid, part(COURSE_SHARE, 1))
  const core = next(() => findCore(coarse))
  const readers = curveReaders(resolved, core)
  const curves = next(() => assembleCurves(course, variants, readers))
  const quantities = quantitiesOf(course)
  const appliances = judgeAppliances(job, course, quantities.mass_kg).map((report) =>
    next(() => reportWithBand(report, resolved, variants)),
  )
  const safety = resolved.rules.map((rule) => next(() => verdictWithBand(rule, course, variants, core)))
  const killing = next(() => judgeKilling(course))
  const danger = next(() => dangerWithBand(course, core, variants))
  const stages = next(() => stagesWithBand(course, variants))
  const carried = next(() => judgeCarried(course, job)).map((report) => ({
    ...report,
    ...boundaryBand(stages, report.at_h),
  }))
  const answers = resolved.targets.map((target) => next(() => answerWithBand(target, course, variants)))
  const growth = next(() => judgeGrowth(course, core))
  const surroundings = next(() => reportSurroundings(job, course))
  const cautions = next(() =>
    cautionsOf({
      plan,
      resolved,
      course,
      appliances,
      safety,
      killing,
      carried,
      mass_kg: quantities.mass_kg,
      shelf_kg_m2: quantities.shelf_kg_m2,
      danger,
      variants,
    }),
  )
  const error_K = next(() => error?.([(one) => one.follow(core), (one) => one.mean_C]))
  const wall_ms = (control.now?.() ?? 0) - began
  // Drawn for whoever looks at it.
  let film: Forecast['film'] | undefined
  return {
    title: resolved.title,
    model: {
      dimensions: dimensionsOf(job.body),
      cells: course.cells,
      steps: course.steps,
      wall_ms,
      energyResidual: course.energyResidual,
      fidelity,
      bands: variants.nominal === coarse ? 'own' : 'carried',
      error_K: error_K ?? { mean: 1, largest: 2 },
      notes: [...notesOf(resolved), ...clockNotes(resolved, course)],
    },
    ...curves,
    stages,
    answers,
    safety,
    growth,
    killing,
    carried,
    coats: judgeCoats(course, job).map((report) => ({ ...report, ...boundaryBand(stages, report.at_h) })),
    surroundings,
    appliances,
    danger,
    core: { where: core, layer: course.describe(core).layer, depth_m: course.describe(core).depth },
    cautions,
    quantities,
    get film() {
      film ??= makeFilm(course)
      return film
    },
  }
}

const lengthOf =
  (index: number) =>
  ({ stages }: Course): number =>
    toHours(stages[index]!.to - stages[index]!.from)

/** Stages with early and late end; none where the clock or its hours end a stage and all before it. */
const stagesWithBand = (course: Course, variants: Variants): Forecast['stages'] =>
  course.stages.map((span, index) => {
    const to_h = toHours(span.to)
    const { early_h, late_h } = bandOf(variants, to_h, ({ stages }) => toHours(stages[index]!.to))
    return {
      name: span.name,
      from_h: toHours(span.from),
      to_h,
      ...(early_h === undefined ? {} : { to_early_h: early_h }),
      ...(late_h === undefined ? {} : { to_late_h: late_h }),
      ...bandValues('lasts_h', bandOf(variants, to_h - toHours(span.from), lengthOf(index))),
      endedBy: endWords[span.endedBy],
    }
  })

/** Hours in the danger zone at the places where they were found. */
function dangerWithBand(course: Course, core: Place, variants: Variants): Forecast['danger'] {
  const danger = judgeDanger(course, core)
  const longest = bandOf(variants, danger.longest_h, (one) => dangerAt(one, danger.where))
  const atCore = bandOf(variants, danger.core_h, (one) => dangerAt(one, core))
  return { ...danger, ...bandValues('longest_h', longest), ...bandValues('core_h', atCore) }
}

/** Curves that a forecast shows. */
export function curveReaders({ job }: ResolvedPlan, core: Place): CurveReader[] {
  return [
    { name: 'core', read: (course) => course.follow(core), banded: true },
    { name: 'surface', read: (course) => course.surface_C, banded: true },
    { name: 'mean', read: (course) => course.mean_C, banded: true },
    {
      name: 'air',
      read: (course) => course.air_C,
      banded: job.stages.some(({ appliance }) => appliance !== undefined),
    },
    ...job.probes.map(({ name, place }) => ({
      name: `probe:${name}`,
      read: (course: Course) => course.follow(place),
      banded: true,
    })),
  ]
}

/** Curves with their bands, sampled so that straight lines do. */
export function assembleCurves(course: Course, variants: Variants, readers: readonly CurveReader[]) {
  const columns: { key: string; values: Float64Array }[] = []
  for (const { name, read, banded } of readers) {
    const values = read(course)
    columns.push({ key: name, values })
    if (!banded) continue
    const { below, above } = spanOfCurve(variants, course, read)
    columns.push({ key: `low ${name}`, values: values.map((value, i) => value - below[i]!) })
    columns.push({ key: `high ${name}`, values: values.map((value, i) => value + above[i]!) })
  }
  const { t, curves } = sampleCurves(
    course.t,
    columns.map((column) => column.values),
  )
  const column = (key: string): (number | null)[] => {
    const index = columns.findIndex((one) => one.key === key)
    return curves[index]!.map((value) => (Number.isNaN(value) ? null : value))
  }
  return {
    times_h: t.map(toHours),
    curves: Object.fromEntries(readers.map(({ name }) => [name, column(name)])),
    bands: Object.fromEntries(
      readers
        .filter(({ banded }) => banded)
        .map(({ name }) => [name, { low: column(`low ${name}`), high: column(`high ${name}`) }]),
    ),
  }
}

/** The answer with the band of every time that it tells. */
function answerWithBand(target: Target, course: Course, variants: Variants): Answer {
  const answer = momentWithBand(target, course, variants)
  const { at_h, early_h, late_h, first, why, notes } = answer
  const own: TimeBand = { ...(early_h === undefined ? {} : { early_h }), ...(late_h === undefined ? {} : { late_h }) }
  const other = otherMoments(target, course, answer)
  const judged = new Map<Course, Answer>()
  const anew = (one: Course): Answer => {
    const made = judged.get(one) ?? judgeTarget(target, one)
    judged.set(one, made)
    return made
  }
  const find = (key: string, likely_h: number): TimeBand | undefined => {
    if (likely_h === at_h) return own
    // It comes after the plan, where there are no variants: its band is that of the laws.
    if (key === 'more_h') return undefined
    const read = other(key)
    // What a core was expected to pass moves as the answer does.
    if (target.kind === 'baked') return movedAs(answer, likely_h)
    return bandOf(variants, likely_h, read ?? ((one) => Number(anew(one).why.values[key] ?? Number.NaN) || undefined))
  }
  return {
    ...answer,
    ...(first === undefined ? {} : { first: { ...first, ...find('first_h', first.at_h) } }),
    why: withBands(why, find),
    ...(notes === undefined
      ? {}
      : {
          notes:
            target.kind === 'baked'
              ? messagesWithBands(notes, variants, (one) => carriedOver(one, answer.where)).map((note) =>
                  note.code === 'baked-carried-over' ? note : withBands(note, find),
                )
              : notes.map((note) => withBands(note, find)),
        }),
  }
}

/** The band of an answer around another moment. */
function movedAs({ at_h, early_h, late_h }: Answer, likely_h: number): TimeBand {
  if (at_h === undefined || early_h === undefined) return {}
  const band = { early_h: Math.max(0, likely_h - (at_h - early_h)) }
  return late_h === undefined ? band : { ...band, late_h: likely_h + (late_h - at_h) }
}

/** The answer, its moment between early and late: by the inputs of the course, and by the laws that it rests on. */
function momentWithBand(target: Target, course: Course, variants: Variants): Answer {
  const answer = judgeTarget(target, course)
  const { at_h } = answer
  if (at_h === undefined) return answer
  const read = momentReader(target, course)
  const span = spanOf(variants, (one) => read(one, 'typical'))
  if (span === undefined) return answer
  // From the same places at all three levels, so that only the laws differ.
  const [likely_h = at_h, high_h = at_h, low_h] = [read(course, 'typical'), read(course, 'high'), read(course, 'low')]
  const early_h = Math.max(0, at_h - Math.hypot(span.below, Math.max(0, likely_h - high_h)))
  // A variant that never gets there leaves the late end open.
  if (span.missing || low_h === undefined) return { ...answer, early_h }
  return { ...answer, early_h, late_h: at_h + Math.hypot(span.above, Math.max(0, low_h - likely_h)) }
}

/**
 * The verdict, its steps between early and late as the worst place goes through them in the variants. A rule is met
 * only where the late end meets it too.
 */
function verdictWithBand(rule: Rule, course: Course, variants: Variants, core: Place): RuleVerdict {
  const verdict = judgeRule(rule, course, core)
  // Only what has been taken can take earlier or later.
  if (verdict.steps.every(({ taken_h, at_least_h }) => taken_h === undefined && at_least_h === undefined))
    return verdict
  const judged = new Map(
    [variants.nominal, ...variants.moved.map((moved) => moved.course)].map((one) => [
      one,
      judgeFollowed(rule, one, verdict.worst.where),
    ]),
  )
  const steps = verdict.steps.map((step, index) => {
    const stepIn = (one: Course) => judged.get(one)?.steps[index]
    if (step.taken_h === undefined)
      return step.at_least_h === undefined
        ? step
        : { ...step, ...bandOf(variants, step.at_least_h, (one) => stepIn(one)?.at_least_h ?? stepIn(one)?.taken_h) }
    const span = spanOf(variants, (one) => stepIn(one)?.taken_h)
    if (span === undefined) return step
    const early_h = Math.max(0, step.taken_h - span.below)
    return span.missing ? { ...step, early_h } : { ...step, early_h, late_h: step.taken_h + span.above }
  })
  const { from_C: high_C, to_C: low_C } = verdict.why.values
  const told = steps.find((step) => step.from_C === high_C && step.to_C === low_C)
  const why = withBands(verdict.why, () => bandOfStep(told))
  const notes = verdict.notes.map((note) => {
    const last = note.code === 'rule-coat-down' ? verdict.coat : verdict.slowest
    return withBands(note, (_, likely_h) =>
      last === undefined
        ? undefined
        : bandOf(variants, likely_h, (one) => downHours(one, last.where, Number(note.values.to_C))),
    )
  })
  const late = steps.find(
    (step) => step.early_h !== undefined && (step.late_h ?? Number.POSITIVE_INFINITY) > step.within_h,
  )
  if (verdict.answer !== 'meets' || late === undefined) return { ...verdict, steps, why, notes }
  const { from_C, to_C, within_h, late_h } = late
  const values = { from_C, to_C, within_h, ...(late_h === undefined ? {} : { late_h }) }
  return { ...verdict, answer: 'open', steps, why, notes: [message('rule-open', values), ...notes] }
}

const bandOfStep = (step: Pick<RuleVerdict['steps'][number], 'early_h' | 'late_h'> = {}): TimeBand => ({
  ...(step.early_h === undefined ? {} : { early_h: step.early_h }),
  ...(step.late_h === undefined ? {} : { late_h: step.late_h }),
})

/** When a place is down at a temperature for good, h; nothing where it ends above it. */
function downHours(course: Course, where: Place, to_C: number): number | undefined {
  const down = downAt(fineFollow(course, where), to_C)
  return Number.isFinite(down) ? toHours(down) : undefined
}

const notesOf = (resolved: ResolvedPlan): Message[] => [
  ...resolved.notes,
  ...resolved.materials.flatMap((material) => material.notes),
]

/** How an appliance copes, its figures between those of the variants. */
function reportWithBand(report: ApplianceReport, { job }: ResolvedPlan, variants: Variants): ApplianceReport {
  const figures = job.stages[report.index]?.applianceFigures
  if (figures === undefined) return report
  const facts = (one: Course) => applianceFacts(figures, one, one.stages[report.index]!)
  const extreme = spanOf(variants, (one) => facts(one).extreme_C)
  const beyond = spanOf(variants, (one) => facts(one).beyond_h)
  const from = (one: Course): number => toHours(one.stages[report.index]!.from)
  const read = (key: string) => (one: Course) => {
    const { extreme_h, beyond_h, back_h } = facts(one)
    if (key === 'beyond_h') return beyond_h
    const moment = key === 'back_h' ? back_h : extreme_h
    return moment === undefined ? undefined : moment - from(one)
  }
  return {
    ...report,
    why: withBands(report.why, (key, likely_h) => bandOf(variants, likely_h, read(key))),
    notes: messagesWithBands(report.notes, variants, (one) => iceOf(figures, one, one.stages[report.index]!)),
    ...(extreme === undefined
      ? {}
      : { extreme_low_C: report.extreme_C - extreme.below, extreme_high_C: report.extreme_C + extreme.above }),
    ...(beyond === undefined
      ? {}
      : {
          beyond_low_h: Math.max(0, report.beyond_h - beyond.below),
          beyond_high_h: report.beyond_h + beyond.above,
        }),
  }
}
