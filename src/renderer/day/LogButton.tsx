import type { ReactNode } from 'react'

import { readingsOfLog } from '../../core/fitting/log-readings.ts'
import { promisesOf } from '../../core/fitting/on-the-day.ts'
import type { Forecast } from '../../core/forecast-types.ts'
import { readLog } from '../../core/plan/log.ts'
import type { Plan } from '../../core/plan/schema.ts'
import { tell } from '../notices.ts'
import { FileButton } from '../parts/FileButton.tsx'
import { usePlan } from '../plan-store.ts'

/** Takes readings from a logger's file: a column a probe, by its heading. */
export function LogButton({ plan, forecast }: { readonly plan: Plan; readonly forecast: Forecast }): ReactNode {
  const edit = usePlan((state) => state.edit)
  const take = (text: string): void => {
    const readings = readingsOfLog(plan, readLog(text))
    const probes = new Set(readings.map(({ probe }) => probe))
    edit('logger file', (was) => {
      const others = (was.readings ?? []).filter(({ probe }) => !probes.has(probe))
      return {
        ...was,
        // What was promised before anything was measured is what the day is held against.
        promised: was.promised ?? promisesOf(forecast),
        readings: [...others, ...readings].toSorted((a, b) => a.at_h - b.at_h),
      }
    })
    tell(`${readings.length} readings taken of ${[...probes].map((probe) => `“${probe}”`).join(', ')}`)
  }
  return (
    <FileButton accept=".csv,.txt,.tsv" label="Logger file of readings" take={take}>
      Import a logger file…
    </FileButton>
  )
}
