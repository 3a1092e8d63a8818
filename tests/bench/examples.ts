import { readdirSync, readFileSync } from 'node:fs'
import { forecast } from '../../src/core/forecast.ts'
import { readPlan } from '../../src/core/plan/read.ts'
import { figures, ms, type Table } from './parts/table.ts'
import { median, processor_ms, runsFor } from './parts/timing.ts'

/* The examples end to end: plan in, forecast with its bands, rules and answers out, as the window and the command line have it. */

const EXAMPLES = 'shared/examples'

const rows = readdirSync(EXAMPLES).map((name) => {
  const plan = readPlan(readFileSync(`${EXAMPLES}/${name}`, 'utf8'))
  const first = processor_ms(() => forecast(plan))
  const runs = runsFor(first)
  const times = Array.from({ length: runs }, () => processor_ms(() => forecast(plan)))
  const { model } = forecast(plan)
  return [
    name.replace('.thickset', ''),
    `${model.dimensions}`,
    figures(model.cells),
    figures(model.steps),
    ms(median(times)),
    String(runs),
    `${model.error_K.mean.toFixed(2)} K`,
  ]
})

export const tables: readonly Table[] = [
  {
    title: 'Examples, end to end',
    about:
      "The plan at its own fidelity with everything that it asks for; milliseconds of the processor, warm. The error is the forecast's own figure of it, in the mean.",
    columns: ['example', 'dimensions', 'cells', 'steps', 'median', 'runs', 'error'],
    rows,
  },
]
