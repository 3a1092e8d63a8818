import { type ReactNode, useRef, useState } from 'react'

import { PlanError } from '../../core/errors.ts'
import { readAirLog } from '../../core/plan/air-log.ts'
import { withCourse } from '../edits/stages.ts'
import { tell } from '../notices.ts'
import { usePlan } from '../plan-store.ts'

/** Takes the air of a stage from a logger's file; the plan keeps its points. */
export function AirLogButton({ index }: { readonly index: number }): ReactNode {
  const edit = usePlan((state) => state.edit)
  const chooser = useRef<HTMLInputElement>(null)
  const [problem, setProblem] = useState<string | null>(null)
  const take = async (file: File): Promise<void> => {
    try {
      const { points, readings, fahrenheit } = readAirLog(await file.text())
      edit('measured air', (plan) => withCourse(plan, index, points))
      setProblem(null)
      tell(`${readings} readings${fahrenheit ? ' in °F' : ''} taken as the air, as ${points.length} points`)
    } catch (error) {
      if (!(error instanceof PlanError)) throw error
      setProblem(error.faults.map(({ problem: what, remedy }) => `${what}: ${remedy}`).join('; '))
    }
  }
  return (
    <p className="second">
      <input
        ref={chooser}
        type="file"
        accept=".csv,.txt,.tsv"
        hidden
        aria-label="File of measured air"
        onChange={(event) => {
          const file = event.target.files?.[0]
          event.target.value = ''
          if (file !== undefined) void take(file)
        }}
      />
      <button type="button" className="link" onClick={() => chooser.current?.click()}>
        Air from a logger’s file…
      </button>
      {problem === null ? null : <span role="alert"> {problem}</span>}
    </p>
  )
}
