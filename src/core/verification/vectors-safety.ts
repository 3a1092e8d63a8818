import type { Fault } from '../errors.ts'
import type { History } from '../outcomes/cooling-rule.ts'
import { awShare, bestRate, exposure, growthLog10 } from '../outcomes/growth/growth-law.ts'
import { findKilling } from '../outcomes/growth/killing-law.ts'
import { findOrganism, type Organism } from '../outcomes/growth/organisms.ts'
import { findRule, type Rule } from '../outcomes/rules.ts'
import { fromHours } from '../units.ts'
import { type Row, summarize, type Verification } from './report.ts'
import { checkRows } from './safety-checks.ts'
import { holdingOf, ruleOf, SAFETY_FORMAT, type SafetyFile, safetyFile } from './safety-file.ts'
import { thicknessRows } from './thickness-rows.ts'
import { compared, leftOut } from './vector-row.ts'

/** Sections that hold words or data, without a figure to compute. */
const wordsOnly: Readonly<Record<string, string>> = {
  tcs: 'two tables; each cell is a unit test',
  waterActivityGuide: 'ranges for orientation',
  cardinalTable: 'limits as sources give them; those used stand with the organisms',
  thermal: 'measured values; those used stand with the targets',
  creamCakeStorage: 'storage lives, which are no cooling rules',
  foodCodeCooking: 'a table of stays; its evaluation is checked by the histories',
  fsisAppendixA: 'a table of stays; its evaluation is checked by the histories',
  eggTable: 'a table of stays; its evaluation is checked by the histories',
  eggOther: 'a table of stays; its evaluation is checked by the histories',
  cautions: 'words',
}

/** Digits of a figure in the file. */
const SMALL = 1e-6

const figure = (
  name: string,
  output: string,
  unit: string,
  computed: number | undefined,
  expected: number,
  rel: number,
): Row =>
  compared({
    case: name,
    output,
    unit,
    computed: computed ?? null,
    expected,
    tolerance: rel * Math.abs(expected) + SMALL,
  })

/** Limits of a rule by name, so that two of one kind can be compared. */
function limitsOf(rule: Rule): Readonly<Record<string, number>> {
  switch (rule.kind) {
    case 'staged':
      return Object.fromEntries([
        ['start, degC', rule.start_C],
        ...[...rule.steps, ...(rule.alternative?.steps ?? [])].flatMap((step, i): [string, number][] => [
          [`step ${i + 1} to, degC`, step.to_C],
          [`step ${i + 1} within, h`, step.within_h],
          [`step ${i + 1} ${step.clock}${step.strict ? ', strict' : ''}`, 1],
        ]),
      ])
    case 'bands':
      return Object.fromEntries(
        rule.bands.flatMap((band, i): [string, number][] => [
          [`band ${i + 1} from, degC`, band.from_C],
          [`band ${i + 1} to, degC`, band.to_C],
          [`band ${i + 1} within, h`, band.within_h],
        ]),
      )
    case 'zone':
      return {
        'low, degC': rule.low_C,
        'high, degC': rule.high_C,
        [rule.countsFrom]: 1,
        ...(rule.within_h === undefined ? {} : { 'within, h': rule.within_h }),
        ...Object.fromEntries((rule.classes ?? []).map(({ below_h = 0 }, i) => [`class ${i + 1} below, h`, below_h])),
        ...(rule.coldStart === undefined ? {} : { 'cold start within, h': rule.coldStart.within_h }),
        ...(rule.hotAir === undefined
          ? {}
          : { 'hot air, degC': rule.hotAir.above_C, 'hot air within, h': rule.hotAir.within_h }),
      }
    case 'hold':
      return { 'cold, degC': rule.cold_C, 'hot, degC': rule.hot_C }
  }
}

function ruleRows({ rules = [], holding = [] }: SafetyFile): Row[] {
  const own = (id: string, limits: Readonly<Record<string, number>>): Row[] => {
    const known = findRule(id)
    if (known === undefined) return [leftOut(id, 'limits', 'no published rule of this name')]
    const of = limitsOf(known)
    return Object.entries(limits).map(([output, expected]) => figure(id, output, '', of[output], expected, 0))
  }
  const held = holding.flatMap((rule): Row[] => {
    const { cold_C, hot_C } = holdingOf(rule)
    if (cold_C === null || hot_C === null) return [leftOut(rule.id, 'limits', 'gives no figure for both sides')]
    return own(rule.id, { 'cold, degC': cold_C, 'hot, degC': hot_C })
  })
  return [...rules.flatMap((rule) => own(rule.id, limitsOf(ruleOf(rule)))), ...held]
}

function dataRows({ organisms = [], lethalityTargets = [] }: SafetyFile): Row[] {
  const grown = organisms.flatMap((given): Row[] => {
    const own = findOrganism(given.id)
    if (own === undefined) return [leftOut(given.id, 'values', 'no organism of this name')]
    const pairs: readonly (readonly [string, string, number, number])[] = [
      ['best rate', '1/h', own.mu_opt_per_h, given.mu_opt_per_h],
      ['T min', 'degC', own.T_C.min, given.T.min_C],
      ['T opt', 'degC', own.T_C.opt, given.T.opt_C],
      ['T max', 'degC', own.T_C.max, given.T.max_C],
      ['aw min', '', own.aw.min, given.aw.min],
      ['aw opt', '', own.aw.opt, given.aw.opt],
      ['pH min', '', own.pH.min, given.pH.min],
      ['pH opt', '', own.pH.opt, given.pH.opt],
      ['pH max', '', own.pH.max, given.pH.max],
      ['h0', '', own.h0.likely, given.h0],
      ['h0 low', '', own.h0.low, given.h0_low],
      ['h0 high', '', own.h0.high, given.h0_high],
    ]
    return pairs.map(([output, unit, computed, expected]) => figure(given.id, output, unit, computed, expected, 0))
  })
  const killed = lethalityTargets.flatMap((given): Row[] => {
    const own = findKilling(given.id)
    if (own === undefined) return [leftOut(given.id, 'values', 'no target of this name')]
    return [
      figure(given.id, 'reference', 'degC', own.reference_C, given.Tref_C, 0),
      figure(given.id, 'z', 'K', own.z_K, given.z_C, 0),
      figure(given.id, 'D', 'min', own.D_min, given.D_ref_min, 0),
    ]
  })
  return [...grown, ...killed]
}

/** Rows of a table by organism; one that is not known is left out. */
function byOrganism(
  name: string,
  table: Readonly<Record<string, readonly number[]>>,
  at: readonly number[],
  compute: (organism: Organism, x: number) => number,
  label: (x: number) => string,
): Row[] {
  return Object.entries(table).flatMap(([id, values]): Row[] => {
    const organism = findOrganism(id)
    if (organism === undefined) return [leftOut(name, id, 'no organism of this name')]
    return values.map((expected, i) =>
      figure(name, `${id}, ${label(at[i]!)}`, '', compute(organism, at[i]!), expected, 1e-5),
    )
  })
}

function lawRows(file: SafetyFile): Row[] {
  const { rateTable, gammaAwTable, suboptimalSlope, growthFormulaChecks = [], equivalents_70C_2min_z7p5 = [] } = file
  const equal = findKilling('lm-70-2')
  return [
    ...(rateTable === undefined
      ? []
      : byOrganism('rateTable', rateTable.mu_per_h, rateTable.T_C, bestRate, (T) => `${T} degC`)),
    ...(gammaAwTable === undefined
      ? []
      : byOrganism(
          'gammaAwTable',
          gammaAwTable.gamma,
          gammaAwTable.aw,
          (one, aw) => awShare(aw, one),
          (aw) => `aw ${aw}`,
        )),
    ...Object.entries(suboptimalSlope?.b ?? {}).map(([id, expected]) => {
      const organism = findOrganism(id)
      const near = 1e-5
      const slope = organism === undefined ? undefined : Math.sqrt(bestRate(organism, organism.T_C.min + near)) / near
      return figure('suboptimalSlope', id, '', slope, expected, 1e-5)
    }),
    ...growthFormulaChecks.map(({ A, h0, room_log10, log10 }) =>
      figure(
        'growthFormulaChecks',
        `A ${A}, h0 ${h0}${room_log10 === null ? '' : `, room ${room_log10}`}`,
        '',
        growthLog10(A, h0, room_log10 ?? undefined),
        log10,
        1e-6,
      ),
    ),
    ...(equal === undefined
      ? []
      : equivalents_70C_2min_z7p5.map(({ T_C, min }) => {
          const minutes = (equal.asked_min ?? 0) / 10 ** ((T_C - equal.reference_C) / equal.z_K)
          return figure('equivalents_70C_2min', `${T_C} degC`, 'min', minutes, min, 1e-6)
        })),
  ]
}

type Cooling = NonNullable<SafetyFile['publishedCoolings']>[number]

/** An even course in the logarithm of the temperature, in so fine steps that straight lines do. */
function exponential(from_C: number, to_C: number, hours: number): History {
  const parts = 400
  const shares = Array.from({ length: parts + 1 }, (_, i) => i / parts)
  return {
    t: shares.map((share) => fromHours(hours * share)),
    T_C: shares.map((share) => from_C * (to_C / from_C) ** share),
  }
}

/** The course of a published cooling: as points, or from its words where they give an even course. */
function coolingOf({ history, published }: Cooling): History | undefined {
  if (history !== undefined) return { t: history.map(([hour]) => fromHours(hour)), T_C: history.map(([, T_C]) => T_C) }
  const even = /exponential, ([\d.]+) to ([\d.]+) C in ([\d.]+) h/.exec(published)
  if (even !== null) return exponential(Number(even[1]), Number(even[2]), Number(even[3]))
  return undefined
}

function coolingRows({ publishedCoolings = [], tolerances }: SafetyFile): Row[] {
  return publishedCoolings.flatMap((cooling): Row[] => {
    const organism = findOrganism(cooling.organism)
    if (organism === undefined) return [leftOut(cooling.id, 'growth', `no organism ${cooling.organism}`)]
    const history = coolingOf(cooling)
    if (history === undefined) return [leftOut(cooling.id, 'growth', 'its course is not given as points')]
    const A = exposure(organism, history)
    const row = (output: string, lag: number, expected: number): Row =>
      compared({
        case: cooling.id,
        output,
        unit: '',
        computed: growthLog10(A, lag),
        expected,
        tolerance: tolerances.log10,
      })
    return [
      figure(cooling.id, 'A', '', A, cooling.A, tolerances.A_rel),
      row('log10', organism.h0.likely, cooling.log10.h0),
      row('log10, short lag', organism.h0.low, cooling.log10.h0_low),
      row('log10, long lag', organism.h0.high, cooling.log10.h0_high),
      ...(cooling.acceptLog10 === null
        ? []
        : [
            compared({
              case: cooling.id,
              output: 'log10, as published',
              unit: '',
              computed: growthLog10(A, organism.h0.likely),
              expected: cooling.acceptLog10,
              tolerance: 0,
              source: cooling.published,
            }),
          ]),
    ]
  })
}

/** Whether a parsed file says that it holds safety vectors. */
export const isSafetyVectors = (name: string | undefined): boolean => name === SAFETY_FORMAT

/**
 * Rules, growth, killing and exemptions, compared with what the outcomes of a forecast make of the same histories.
 */
export function verifySafetyVectors(data: unknown): Verification & { readonly faults: readonly Fault[] } {
  const parsed = safetyFile.safeParse(data)
  if (!parsed.success) {
    const faults = parsed.error.issues.map(({ path, message }) => ({
      path: path.map(String).join('.'),
      problem: message,
      remedy: 'see shared/reference/safety-vectors.json',
    }))
    return { rows: [], summary: summarize(0, []), faults }
  }
  const file = parsed.data
  const faults: Fault[] = []
  const histories = (file.vectors ?? []).flatMap((vector, index) =>
    vector.checks.flatMap((check, at): Row[] => {
      const rows = checkRows(check, { vector, file })
      if (rows !== undefined) return rows
      faults.push({
        path: `vectors[${index}].checks[${at}]`,
        problem: `has another form than a check of the kind "${check.kind}"`,
        remedy: 'see shared/reference/safety-vectors.json',
      })
      return []
    }),
  )
  const words = Object.entries(wordsOnly).flatMap(([key, reason]) =>
    Object.hasOwn(file, key) ? [leftOut(key, 'all', reason)] : [],
  )
  const rows = [
    ...ruleRows(file),
    ...dataRows(file),
    ...lawRows(file),
    ...coolingRows(file),
    ...(file.thicknessOrientation === undefined ? [] : thicknessRows(file.thicknessOrientation)),
    ...histories,
    ...words,
  ]
  return { rows, summary: summarize(new Set(rows.map((row) => row.case)).size, rows), faults }
}
