import { forecast } from '../../core/forecast.ts'
import { readAirLog, withAirLog } from '../../core/plan/air-log.ts'
import { LOG_LIMIT } from '../../core/plan/log.ts'
import type { Plan } from '../../core/plan/schema/plan.ts'
import { curvesCsv } from '../../core/words/csv.ts'
import { forecastDocument } from '../../core/words/document.ts'
import { askedPlan } from './asked-plan.ts'
import { giveFile } from './give.ts'
import { readText } from './input.ts'
import { watchProgress } from './progress.ts'
import { tellForecast } from './tell-forecast.ts'
import { type Words, wordFault } from './words.ts'

function writeCsv(path: string, text: string): void {
  if (path === '-') {
    process.stdout.write(text)
    return
  }
  giveFile(path, text)
}

/** The plan with a measured air in one of its stages, where the words ask for it. */
async function withMeasuredAir(plan: Plan, asked: string | undefined): Promise<Plan> {
  if (asked === undefined) return plan
  const at = asked.lastIndexOf('=')
  if (at < 1) throw wordFault(`--air ${asked} names no file`, 'write --air STAGE=FILE')
  return withAirLog(plan, asked.slice(0, at), readAirLog(await readText(asked.slice(at + 1), LOG_LIMIT)))
}

/** `thickset forecast PLAN…`. */
export async function carryForecast(words: Words): Promise<number> {
  if (words.operands.length > 1) return (await import('./forecast-many.ts')).forecastMany(words)
  const csv = words.text('csv')
  if (csv === '-' && words.has('json'))
    throw wordFault('--json and --csv - both want standard output', 'write --csv FILE')
  const plan = await withMeasuredAir(await askedPlan(words), words.text('air'))
  const progress = watchProgress(words.has('progress'))
  const result = forecast(plan, progress)
  progress.done()
  if (csv !== undefined) writeCsv(csv, curvesCsv(result))
  if (words.has('json')) process.stdout.write(`${JSON.stringify(forecastDocument(result))}\n`)
  else if (csv !== '-') process.stdout.write(tellForecast(result, plan))
  return 0
}
