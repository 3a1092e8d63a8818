import { readdirSync, readFileSync } from 'node:fs'
import { runVariants } from '../../src/core/deciding/band.ts'
import { makeFilm } from '../../src/core/film.ts'
import { assembleCurves, curveReaders, forecast } from '../../src/core/forecast.ts'
import { findCore } from '../../src/core/journey/core-place.ts'
import { computeJourney } from '../../src/core/journey/journey.ts'
import { coarsePartner, resolutions } from '../../src/core/journey/resolution.ts'
import { ruleIds } from '../../src/core/outcomes/rules.ts'
import { readPlan } from '../../src/core/plan/read.ts'
import { resolvePlan } from '../../src/core/plan/resolve.ts'
import type { Plan } from '../../src/core/plan/schema.ts'

const dir = 'shared/examples'
const everything = [
  { kind: 'set' },
  { kind: 'unmould' },
  { kind: 'coat', humidity_pct: 60 },
  { kind: 'cut' },
  { kind: 'stay' },
  { kind: 'edge' },
  { kind: 'cooled', core_C: 5 },
  { kind: 'baked', core_C: 95 },
] as never
const temps = (plan: Plan) => {
  const resolved = resolvePlan(plan)
  const { job, fidelity } = resolved
  const { course, coarse } = computeJourney(job, fidelity, {})
  const r = resolutions[fidelity]
  const variants = runVariants(job, fidelity === 'quick' ? r : coarsePartner(r), coarse, {})
  const core = findCore(coarse)
  assembleCurves(course, variants, curveReaders(resolved, core))
  makeFilm(course)
}
const only = process.env.ONLY
for (const f of readdirSync(dir)) {
  if (only && !f.includes(only)) continue
  const plan = readPlan(readFileSync(`${dir}/${f}`, 'utf8'))
  const all = { ...plan, rules: ruleIds as string[], targets: everything } as Plan
  const one = (run: () => void) => {
    const a = process.cpuUsage().user
    run()
    return (process.cpuUsage().user - a) / 1000
  }
  const t: number[] = [],
    a: number[] = []
  temps(all)
  forecast(all)
  for (let i = 0; i < 5; i++) {
    t.push(one(() => temps(all)))
    a.push(one(() => forecast(all)))
  }
  const med = (v: number[]) => v.sort((x, y) => x - y)[2]!
  const r = forecast(all)
  console.info(
    f,
    'cells',
    r.model.cells,
    'steps',
    r.model.steps,
    'temps',
    med(t).toFixed(0),
    'all',
    med(a).toFixed(0),
    `+${((100 * med(a)) / med(t) - 100).toFixed(0)} %`,
  )
}
