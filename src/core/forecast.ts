import { cautionsOf } from './cautions.ts'
import type { Control } from './control.ts'
import { spanOf, spanOfCurve, type Variants } from './deciding/band.ts'
import { type BandRuns, ownRuns } from './deciding/band-runs.ts'
import { makeFilm } from './film.ts'
import type { Answer, ApplianceReport, Forecast, RuleVerdict } from './forecast-types.ts'
import { dimensionsOf, type Place } from './geometry/body.ts'
import { findCore } from './journey/core-place.ts'
import type { Course } from './journey/course.ts'
import { computeJourney } from './journey/journey.ts'
import { coarsePartner, resolutions } from './journey/resolution.ts'
import { sampleCurves } from './journey/sampling.ts'
import { type Message, message } from './messages.ts'
import { applianceFacts, judgeAppliances } from './outcomes/appliance-report.ts'
import { judgeCarried } from './outcomes/carried.ts'
import { judgeCoats } from './outcomes/coats.ts'
import { judgeDanger } from './outcomes/danger.ts'
import { judgeGrowth } from './outcomes/growth/growth-report.ts'
import { judgeKilling } from './outcomes/growth/killing-report.ts'
import { reportSurroundings } from './outcomes/heat-ways.ts'
import { judgeFollowed, judgeRule } from './outcomes/rule-verdict.ts'
import type { Rule } from './outcomes/rules.ts'
import type { Target } from './outcomes/target.ts'
import { judgeTarget, momentReader } from './outcomes/targets/index.ts'
import { type ResolvedPlan, resolvePlan } from './plan/resolve.ts'
import type { Plan } from './plan/schema.ts'
import { quantitiesOf } from './quantities.ts'
import { toHours } from './units.ts'

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
  const core = findCore(coarse)
  const readers = curveReaders(resolved, core)
  const curves = assembleCurves(course, variants, readers)
  const quantities = quantitiesOf(course)
  const appliances = judgeAppliances(job, course, quantities.mass_kg).map((report) =>
    reportWithBand(report, resolved, variants),
  )
  const safety = resolved.rules.map((rule) => verdictWithBand(rule, course, variants, core))
  const killing = judgeKilling(course)
  const carried = judgeCarried(course, job)
  const danger = judgeDanger(course, core)
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
      error_K: error?.([(one) => one.follow(core), (one) => one.mean_C]) ?? { mean: 1, largest: 2 },
      notes: [...notesOf(resolved), ...clockNotes(resolved, course)],
    },
    ...curves,
    stages: course.stages.map((span, index) => ({
      name: span.name,
      from_h: toHours(span.from),
      to_h: toHours(span.to),
      ...endBand(index, toHours(span.to), variants),
      endedBy: endWords[span.endedBy],
    })),
    answers: resolved.targets.map((target) => answerWithBand(target, course, variants)),
    safety,
    growth: judgeGrowth(course, core),
    killing,
    carried,
    coats: judgeCoats(course, job),
    surroundings: reportSurroundings(job, course),
    appliances,
    danger,
    core: { where: core, layer: course.describe(core).layer, depth_m: course.describe(core).depth },
    cautions: cautionsOf({
      plan,
      resolved,
      course,
      appliances,
      safety,
      killing,
      carried,
      mass_kg: quantities.mass_kg,
      shelf_kg_m2: quantities.shelf_kg_m2,
      longest_h: danger.longest_h,
    }),
    quantities,
    get film() {
      film ??= makeFilm(course)
      return film
    },
  }
}

/** A minute: an end that moves by less is told without a band. */
const TOLD_H = 1 / 60

/** Early and late end of a stage; nothing where the clock or its hours end it and all before it. */
function endBand(index: number, to_h: number, variants: Variants): { to_early_h?: number; to_late_h?: number } {
  const span = spanOf(variants, ({ stages }) => toHours(stages[index]!.to))
  if (span === undefined || Math.max(span.below, span.above) < TOLD_H) return {}
  return { to_early_h: Math.max(0, to_h - span.below), to_late_h: to_h + span.above }
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

/** The answer, its moment between early and late: by the inputs of the course, and by the laws that it rests on. */
function answerWithBand(target: Target, course: Course, variants: Variants): Answer {
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
  if (verdict.steps.every(({ taken_h }) => taken_h === undefined)) return verdict
  const judged = new Map(
    [variants.nominal, ...variants.moved.map((moved) => moved.course)].map((one) => [
      one,
      judgeFollowed(rule, one, verdict.worst.where),
    ]),
  )
  const steps = verdict.steps.map((step, index) => {
    if (step.taken_h === undefined) return step
    const span = spanOf(variants, (one) => judged.get(one)?.steps[index]?.taken_h)
    if (span === undefined) return step
    const early_h = Math.max(0, step.taken_h - span.below)
    return span.missing ? { ...step, early_h } : { ...step, early_h, late_h: step.taken_h + span.above }
  })
  const late = steps.find(
    (step) => step.early_h !== undefined && (step.late_h ?? Number.POSITIVE_INFINITY) > step.within_h,
  )
  if (verdict.answer !== 'meets' || late === undefined) return { ...verdict, steps }
  const { from_C, to_C, within_h, late_h } = late
  const values = { from_C, to_C, within_h, ...(late_h === undefined ? {} : { late_h }) }
  return { ...verdict, answer: 'open', steps, notes: [message('rule-open', values), ...verdict.notes] }
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
  return {
    ...report,
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
