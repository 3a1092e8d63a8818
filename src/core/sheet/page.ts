import { surroundingsTitleOf } from '../boundary/surroundings.ts'
import type { TargetKind } from '../outcomes/target.ts'
import { targetWords } from '../outcomes/target-words.ts'
import type { Plan } from '../plan/schema/plan.ts'
import { boundaryBand, endBand } from '../stage-times.ts'
import { bandedWords, type TimeBand } from '../words/banded.ts'
import { layerTitle, placeWords } from '../words/place.ts'
import { say } from '../words/sentences.ts'
import type { Show } from '../words/show.ts'
import { actionWords, stageLetter } from '../words/stage.ts'
import type { Check } from './checks.ts'
import type { Sheet } from './sheet.ts'

/* The sheet in words, as tables and lists: terminal, paper and window set the same page in their own way. */

export interface PageTable {
  readonly kind: 'table'
  readonly title: string
  readonly columns: readonly PageColumn[]
  readonly rows: readonly (readonly string[])[]
  /** Said under the title. */
  readonly note?: string
}

export interface PageColumn {
  readonly title: string
  /** Share of the width. */
  readonly share: number
  /** Left empty, to be written in by hand. */
  readonly blank?: true
}

export interface PageList {
  readonly kind: 'list'
  readonly title: string
  readonly lines: readonly string[]
}

export interface Page {
  readonly title: string
  /** What stands in the title block: name and value. */
  readonly facts: readonly (readonly [string, string])[]
  readonly blocks: readonly (PageTable | PageList)[]
}

const column = (title: string, share: number): PageColumn => ({ title, share })
const blank = (title: string, share: number): PageColumn => ({ title, share, blank: true })

const moment = (show: Show, at_h: number): string => show.moment(at_h).replace(/^at /, '')

function reasonWords({ reason, stage }: Check, sheet: Sheet): string {
  const letter = stageLetter(stage)
  switch (reason.kind) {
    case 'stage-end':
      return `end of ${letter}, ${sheet.stages[stage]!.name}`
    case 'halfway':
      return `halfway through ${letter}, ${sheet.stages[stage]!.name}`
    case 'asked':
      return `asked: ${targetWords[reason.target as TargetKind]?.title ?? reason.target}`
    case 'likely':
      return `likely: ${targetWords[reason.target as TargetKind]?.title ?? reason.target}`
  }
}

/** A computed moment with its band. */
const banded = (show: Show, at_h: number, band: TimeBand): string =>
  bandedWords((h) => moment(show, h), at_h, band, 'later')

function stagesTable(sheet: Sheet, plan: Plan, show: Show): PageTable {
  return {
    kind: 'table',
    title: 'Stages',
    columns: [
      column('', 4),
      column('Stage', 22),
      column('From', 22),
      column('Until', 24),
      column('What to do, and where', 28),
    ],
    rows: sheet.stages.map((stage, index) => {
      // A stage that is repeated appears as often as it is lived through; its words are those of the plan.
      const own = plan.stages.findIndex(({ name }) => stage.name === name || stage.name.startsWith(`${name} (`))
      const where = own < 0 ? '' : surroundingsTitleOf(plan.stages[own]!.in)
      const doing = own < 0 ? [] : actionWords(plan, own, show)
      return [
        stageLetter(index),
        stage.name,
        banded(show, stage.from_h, boundaryBand(sheet.stages, stage.from_h)),
        banded(show, stage.to_h, endBand(stage)),
        [...doing, where].filter((words) => words !== '').join('; '),
      ]
    }),
  }
}

function checksTable(sheet: Sheet, show: Show): PageTable {
  const { where, layer } = sheet.slowest
  const title = layerTitle({ quantities: sheet.quantities, film: [] }, layer)
  const span = (low_C: number, high_C: number): string => `${show.temperature(low_C)} to ${show.temperature(high_C)}`
  return {
    kind: 'table',
    title: 'Checks',
    note: `A calibrated probe in the slowest place: ${title}, ${placeWords(where)}, ${show.length(sheet.slowest.depth_m)} deep`,
    columns: [
      column('When', 20),
      column('What for', 20),
      column('Expect', 10),
      column('Early to late', 19),
      blank('Measured', 11),
      blank('Time', 10),
      blank('Initials', 10),
    ],
    rows: sheet.checks.map((check) => [
      banded(show, check.at_h, check),
      reasonWords(check, sheet),
      show.temperature(check.core.likely_C),
      span(check.core.low_C, check.core.high_C),
      '',
      '',
      '',
    ]),
  }
}

/** A place that is warm for longer than others: where a probe is put at the end. */
function lastWords(
  what: string,
  { where, layer, last_C }: Pick<NonNullable<Sheet['rules'][number]['slowest']>, 'where' | 'layer' | 'last_C'>,
  { quantities }: Sheet,
  show: Show,
): string {
  const end = last_C === undefined ? '' : `, ${show.temperature(last_C)} at the end`
  return `${what}: ${layerTitle({ quantities, film: [] }, layer)}, ${placeWords(where)}${end}`
}

function answersList(sheet: Sheet, show: Show): PageList {
  const answers = sheet.answers.map(({ target, answer, at_h, early_h, late_h, by_h }) => {
    const title = targetWords[target as TargetKind]?.title ?? target
    const band = { ...(early_h === undefined ? {} : { early_h }), ...(late_h === undefined ? {} : { late_h }) }
    const likely = at_h === undefined ? '' : `: likely ${banded(show, at_h, band)}`
    const asked = by_h === undefined ? '' : `; asked for ${moment(show, by_h)}`
    return `${title}, ${answer}${likely}${asked}`
  })
  const rules = sheet.rules.flatMap(({ title, answer, slowest, coat }) => [
    `${title}: ${answer === 'open' ? 'open, see the cautions' : answer}`,
    ...(slowest === undefined ? [] : [lastWords('last to come down', slowest, sheet, show)]),
    ...(coat === undefined ? [] : [lastWords('laid on later, still warmer', coat, sheet, show)]),
  ])
  return { kind: 'list', title: 'Answers', lines: [...answers, ...rules] }
}

function quantitiesTable({ needs, quantities }: Sheet, show: Show): PageTable {
  return {
    kind: 'table',
    title: 'Quantities',
    note: `In all ${show.mass(needs.mass_kg)}, ${show.number(quantities.shelf_kg_m2)} kg/m² on the shelf`,
    columns: [column('Layer', 46), column('Thick', 14), column('Mass', 20), column('To put together', 20)],
    rows: needs.layers.map(({ title, thickness, mass_kg, batch_kg }) => [
      title,
      thickness === null ? 'the rest' : show.length(thickness),
      show.mass(mass_kg),
      batch_kg === undefined ? '' : show.mass(batch_kg),
    ]),
  }
}

function ingredientsTable({ needs }: Sheet, show: Show): PageTable | undefined {
  if (needs.ingredients.length === 0) return undefined
  return {
    kind: 'table',
    title: 'Ingredients',
    ...(needs.unknown.length === 0 ? {} : { note: `Without a recipe, so not among them: ${needs.unknown.join(', ')}` }),
    columns: [column('Ingredient', 60), column('Mass', 20), column('Pieces', 20)],
    rows: needs.ingredients.map(({ title, mass_kg, count, unit }) => [
      title,
      show.mass(mass_kg),
      count === undefined || unit === undefined ? '' : `${show.number(count)} ${unit}`,
    ]),
  }
}

/** The sheet as a page. */
export function pageOf(sheet: Sheet, plan: Plan, show: Show): Page {
  const last = sheet.stages[sheet.stages.length - 1]
  const ingredients = ingredientsTable(sheet, show)
  return {
    title: sheet.title,
    facts: [
      ['Starts', moment(show, 0)],
      ['Ends', last === undefined ? '' : banded(show, last.to_h, endBand(last))],
      ['Mass', show.mass(sheet.needs.mass_kg)],
    ],
    blocks: [
      stagesTable(sheet, plan, show),
      checksTable(sheet, show),
      answersList(sheet, show),
      quantitiesTable(sheet, show),
      ...(ingredients === undefined ? [] : [ingredients]),
      {
        kind: 'list',
        title: 'Cautions',
        lines: [...new Set(sheet.cautions.map((caution) => say(caution, show)))],
      },
    ],
  }
}
