import { type History, isWorse, judgePlace, type PlaceOutcome } from '../outcomes/cooling-rule.ts'
import { awShare, exposure, growthLog10, pHShare } from '../outcomes/growth/growth-law.ts'
import {
  findKilling,
  isKilled,
  killedLog10,
  killingMinutes,
  rowsKept,
  stayTables,
} from '../outcomes/growth/killing-law.ts'
import { findOrganism, type Organism } from '../outcomes/growth/organisms.ts'
import { judgeBands, judgeZone } from '../outcomes/inside-rules.ts'
import { controlOf } from '../outcomes/keeping.ts'
import { judgeRuleAt } from '../outcomes/rule-at-place.ts'
import { findRule, type Rule } from '../outcomes/rules.ts'
import { fromFahrenheit, fromHours } from '../units.ts'
import { z } from '../zod.ts'
import { NotApplicable } from './not-applicable.ts'
import type { Row } from './report.ts'
import { ruleOf, type SafetyCheck, type SafetyFile, type SafetyVector } from './safety-file.ts'
import { compared, leftOut, sameWords } from './vector-row.ts'

/* Outcomes of histories: each kind of check has a schema of its own and the rows that follow. */

interface Asked {
  readonly vector: SafetyVector
  readonly file: SafetyFile
}

const finite = z.number()
const stepCheck = z.looseObject({
  outcome: z.string(),
  elapsed_h: finite.nullable(),
  margin_h: finite.exactOptional(),
  atLeast_h: finite.exactOptional(),
  marginAtMost_h: finite.exactOptional(),
})
const stagedCheck = z.looseObject({
  rule: z.string(),
  point: z.string(),
  outcome: z.string(),
  episodes: z.array(
    z.looseObject({
      basis: z.string(),
      outcome: z.string(),
      t0_h: finite.exactOptional(),
      reheated: z.boolean().exactOptional(),
      steps: z.array(stepCheck),
    }),
  ),
})
const bandsCheck = z.looseObject({
  rule: z.string(),
  point: z.string(),
  outcome: z.string(),
  bands: z.array(z.looseObject({ dwell_h: finite, margin_h: finite, outcome: z.string() })),
})
const zoneCheck = z.looseObject({
  rule: z.string(),
  point: z.string(),
  outcome: z.string(),
  zone_h: finite,
  hotAir: z.boolean().exactOptional(),
})
const growthCheck = z.looseObject({
  organism: z.string(),
  point: z.string(),
  aw: finite,
  pH: finite.nullable().exactOptional(),
  h0: finite.exactOptional(),
  A: finite,
  log10: finite,
  log10Capped: finite.exactOptional(),
})
const lethalityCheck = z.looseObject({
  target: z.string(),
  point: z.string(),
  P_min: finite,
  log10: finite,
  outcome: z.enum(['reached', 'not-reached']),
})
const tableCheck = z.looseObject({
  table: z.enum(['egg', 'fsisA']),
  product: z.string().nullable(),
  point: z.string(),
  rowsMet_F: z.array(finite),
})
const tcsCheck = z.looseObject({
  aw: finite,
  pH: finite,
  heatTreatedAndPackaged: z.boolean(),
  result: z.enum(['PA', 'non']),
})
const worstRuleCheck = z.looseObject({ rule: z.string(), point: z.string(), outcome: z.string() })

const inCelsius = ({ unit }: SafetyVector, T: number): number => (unit === 'F' ? fromFahrenheit(T) : T)

const historyOf = (vector: SafetyVector, points: readonly (readonly [number, number])[]): History => ({
  t: points.map(([hour]) => fromHours(hour)),
  T_C: points.map(([, T]) => inCelsius(vector, T)),
})

function pointOf(vector: SafetyVector, name: string): History {
  const found = vector.points.find((point) => point.name === name)
  if (found === undefined) throw new NotApplicable(`no point ${name}`)
  return historyOf(vector, found.history)
}

/** A rule as published, where it is known here; else as the file gives it. */
function getRule(id: string, { rules = [] }: SafetyFile): Rule {
  const own = rules.find((rule) => rule.id === id)
  const rule = findRule(id) ?? (own === undefined ? undefined : ruleOf(own))
  if (rule === undefined) throw new NotApplicable(`no rule ${id}`)
  return rule
}

function getOrganism(id: string): Organism {
  const organism = findOrganism(id)
  if (organism === undefined) throw new NotApplicable(`no organism ${id}`)
  return organism
}

const sameTime = (
  name: string,
  output: string,
  computed: number | undefined,
  expected: number,
  file: SafetyFile,
): Row =>
  compared({ case: name, output, unit: 'h', computed: computed ?? null, expected, tolerance: file.tolerances.time_h })

function stagedRows(data: z.infer<typeof stagedCheck>, alternative: boolean, { vector, file }: Asked): Row[] {
  const rule = getRule(data.rule, file)
  if (rule.kind !== 'staged') throw new NotApplicable(`${data.rule} has no steps`)
  const read = alternative && rule.alternative !== undefined ? { ...rule, steps: rule.alternative.steps } : rule
  const found: PlaceOutcome = judgePlace(read, pointOf(vector, data.point))
  const what = `${data.rule}${alternative ? ', other reading' : ''} at ${data.point}`
  const rows = [sameWords(vector.id, what, found.outcome, data.outcome)]
  rows.push(sameWords(vector.id, `${what}: episodes`, String(found.episodes.length), String(data.episodes.length)))
  for (const [index, wanted] of data.episodes.entries()) {
    const episode = found.episodes[index]
    if (episode === undefined) continue
    const words = (of: { basis: string; outcome: string; reheated?: boolean | undefined }) =>
      `${of.basis}, ${of.outcome}${of.reheated === true ? ', reheated' : ''}`
    rows.push(sameWords(vector.id, `${what}: episode ${index + 1}`, words(episode), words(wanted)))
    if (wanted.t0_h !== undefined)
      rows.push(sameTime(vector.id, `${what}: clock starts`, episode.t0_h, wanted.t0_h, file))
    for (const [at, step] of wanted.steps.entries()) {
      const own = episode.steps[at]
      const label = `${what}: step ${at + 1}`
      rows.push(sameWords(vector.id, label, own?.outcome ?? 'none', step.outcome))
      const pairs: readonly (readonly [string, number | undefined, number | null | undefined])[] = [
        ['elapsed', own?.elapsed_h, step.elapsed_h],
        ['margin', own?.margin_h, step.margin_h],
        ['used so far', own?.atLeast_h, step.atLeast_h],
        ['margin at most', own?.margin_h, step.marginAtMost_h],
      ]
      for (const [of, computed, expected] of pairs)
        if (expected !== undefined && expected !== null)
          rows.push(sameTime(vector.id, `${label}, ${of}`, computed, expected, file))
    }
  }
  return rows
}

function bandsRows(data: z.infer<typeof bandsCheck>, { vector, file }: Asked): Row[] {
  const rule = getRule(data.rule, file)
  if (rule.kind !== 'bands') throw new NotApplicable(`${data.rule} has no bands`)
  const found = judgeBands(rule, pointOf(vector, data.point))
  const what = `${data.rule} at ${data.point}`
  return [
    sameWords(vector.id, what, found.outcome, data.outcome),
    ...data.bands.flatMap((band, index) => {
      const part = found.parts[index]
      const label = `${what}: band ${index + 1}`
      return [
        sameWords(vector.id, label, part?.outcome ?? 'none', band.outcome),
        sameTime(vector.id, `${label}, time inside`, part?.inside_h, band.dwell_h, file),
        sameTime(vector.id, `${label}, margin`, part?.margin_h, band.margin_h, file),
      ]
    }),
  ]
}

function zoneRows(data: z.infer<typeof zoneCheck>, { vector, file }: Asked): Row[] {
  const rule = getRule(data.rule, file)
  if (rule.kind !== 'zone') throw new NotApplicable(`${data.rule} has no zone`)
  const found = judgeZone(rule, pointOf(vector, data.point), data.hotAir === true ? { air: true } : {})
  const what = `${data.rule} at ${data.point}${data.hotAir === true ? ', hot air' : ''}`
  // Classes go by their place in the list: the file has names for them, the rule has words.
  const own = file.rules?.find((one) => one.id === data.rule)
  const names = own?.kind === 'zone' ? own.classes?.map(({ name }) => name) : undefined
  const place = rule.classes?.findIndex(({ words }) => words === found.words) ?? -1
  const outcome = names?.[place] ?? found.outcome
  return [
    sameWords(vector.id, what, outcome, data.outcome),
    sameTime(vector.id, `${what}: time inside`, found.parts[0]?.inside_h, data.zone_h, file),
  ]
}

/** Exposure of a point with its water activity and pH. */
function exposureOf(organism: Organism, history: History, aw: number, pH: number | null | undefined): number {
  const acid = pH === null || pH === undefined ? 1 : pHShare(pH, organism)
  return exposure(organism, history) * awShare(aw, organism) * acid
}

function growthRows(data: z.infer<typeof growthCheck>, { vector, file }: Asked): Row[] {
  const organism = getOrganism(data.organism)
  const A = exposureOf(organism, pointOf(vector, data.point), data.aw, data.pH)
  const h0 = data.h0 ?? organism.h0.likely
  const what = `${data.organism} at ${data.point}, aw ${data.aw}${data.pH === null || data.pH === undefined ? '' : `, pH ${data.pH}`}`
  const { A_rel, log10 } = file.tolerances
  const row = (output: string, computed: number, expected: number, tolerance: number): Row =>
    compared({ case: vector.id, output: `${what}: ${output}`, unit: '', computed, expected, tolerance })
  return [
    row('A', A, data.A, A_rel * data.A),
    row('log10', growthLog10(A, h0), data.log10, log10),
    ...(data.log10Capped === undefined
      ? []
      : [row('log10 with a ceiling', growthLog10(A, h0, organism.room_log10), data.log10Capped, log10)]),
  ]
}

function lethalityRows(data: z.infer<typeof lethalityCheck>, { vector, file }: Asked): Row[] {
  const target = findKilling(data.target)
  if (target === undefined) throw new NotApplicable(`no target ${data.target}`)
  const minutes = killingMinutes(target, pointOf(vector, data.point))
  const what = `${data.target} at ${data.point}`
  const { P_rel } = file.tolerances
  const row = (output: string, unit: string, computed: number, expected: number): Row =>
    compared({ case: vector.id, output: `${what}: ${output}`, unit, computed, expected, tolerance: P_rel * expected })
  return [
    row('P', 'min', minutes, data.P_min),
    row('log10', '', killedLog10(target, minutes), data.log10),
    sameWords(vector.id, what, isKilled(target, minutes) ? 'reached' : 'not-reached', data.outcome),
  ]
}

const tableIds = { egg: 'cfr-590-570', fsisA: 'fsis-appendix-a' } as const

function tableRows(data: z.infer<typeof tableCheck>, { vector }: Asked): Row[] {
  const table = stayTables.find(({ id }) => id === tableIds[data.table])
  if (table === undefined) throw new NotApplicable(`no table ${data.table}`)
  const product = data.product ?? table.rows[0]?.product ?? ''
  const kept = rowsKept(table, product, pointOf(vector, data.point)).map(({ T_F }) => T_F)
  const what = `${data.table}${data.product === null ? '' : `, ${data.product}`} at ${data.point}: rows kept, degF`
  return [sameWords(vector.id, what, kept.join(' '), data.rowsMet_F.join(' '))]
}

function tcsRows({ aw, pH, heatTreatedAndPackaged, result }: z.infer<typeof tcsCheck>, { vector }: Asked): Row[] {
  const found = controlOf(aw, pH, heatTreatedAndPackaged) === 'exempt' ? 'non' : 'PA'
  return [sameWords(vector.id, `aw ${aw}, pH ${pH}${heatTreatedAndPackaged ? ', packaged' : ''}`, found, result)]
}

function worstRuleRows(data: z.infer<typeof worstRuleCheck>, { vector, file }: Asked): Row[] {
  const rule = getRule(data.rule, file)
  const judged = vector.points.map((point) => ({
    name: point.name,
    ...judgeRuleAt(rule, historyOf(vector, point.history)),
  }))
  const worst = judged.reduce((a, b) => (isWorse(b, a) ? b : a))
  return [
    sameWords(vector.id, `worst by ${data.rule}`, `${worst.name}, ${worst.outcome}`, `${data.point}, ${data.outcome}`),
  ]
}

function worstGrowthRows(data: z.infer<typeof growthCheck>, asked: Asked): Row[] {
  const { vector } = asked
  const organism = getOrganism(data.organism)
  const found = vector.points.map((point) => ({
    name: point.name,
    A: exposureOf(organism, historyOf(vector, point.history), data.aw, data.pH),
  }))
  const worst = found.reduce((a, b) => (b.A > a.A ? b : a))
  return [sameWords(vector.id, `most of ${data.organism}`, worst.name, data.point), ...growthRows(data, asked)]
}

type Kind = (check: SafetyCheck, asked: Asked) => Row[] | undefined

/** A kind's schema and its rows, tied together so that the one feeds the other. */
function kind<Data>(
  schema: { safeParse(data: unknown): { success: true; data: Data } | { success: false } },
  rows: (data: Data, asked: Asked) => Row[],
): Kind {
  return (check, asked) => {
    const parsed = schema.safeParse(check)
    return parsed.success ? rows(parsed.data, asked) : undefined
  }
}

const kinds: Readonly<Record<string, Kind>> = {
  staged: kind(stagedCheck, (data, asked) => stagedRows(data, false, asked)),
  'staged-alternative': kind(stagedCheck, (data, asked) => stagedRows(data, true, asked)),
  bands: kind(bandsCheck, bandsRows),
  zone: kind(zoneCheck, zoneRows),
  growth: kind(growthCheck, growthRows),
  lethality: kind(lethalityCheck, lethalityRows),
  table: kind(tableCheck, tableRows),
  tcs: kind(tcsCheck, tcsRows),
  'worst-rule': kind(worstRuleCheck, worstRuleRows),
  'worst-growth': kind(growthCheck, worstGrowthRows),
}

/** Rows of one check; undefined when it has another form than its kind asks for. */
export function checkRows(check: SafetyCheck, asked: Asked): Row[] | undefined {
  if (!Object.hasOwn(kinds, check.kind))
    return [leftOut(asked.vector.id, check.kind, `no check of the kind "${check.kind}" is known here`)]
  try {
    return kinds[check.kind]?.(check, asked)
  } catch (error) {
    // A name that is known nowhere: said as a row, so that the rest of the file is still judged.
    if (error instanceof NotApplicable) return [leftOut(asked.vector.id, check.kind, error.message)]
    throw error
  }
}
