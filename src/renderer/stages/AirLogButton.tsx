import type { ReactNode } from 'react'

import { readAirLog } from '../../core/plan/air-log.ts'
import { withCourse } from '../edits/stages.ts'
import { tell } from '../notices.ts'
import { FileButton } from '../parts/FileButton.tsx'
import { usePlan } from '../plan-store.ts'

/** Takes the air of a stage from a logger's file; the plan keeps its points. */
export function AirLogButton({ index }: { readonly index: number }): ReactNode {
  const edit = usePlan((state) => state.edit)
  const take = (text: string): void => {
    const { points, readings, fahrenheit } = readAirLog(text)
    edit('measured air', (plan) => withCourse(plan, index, points))
    tell(`${readings} readings${fahrenheit ? ' in °F' : ''} taken as the air, as ${points.length} points`)
  }
  return (
    <FileButton accept=".csv,.txt,.tsv" label="File of measured air" take={take}>
      Air from a logger’s file…
    </FileButton>
  )
}
