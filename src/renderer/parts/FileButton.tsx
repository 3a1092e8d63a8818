import { type ReactNode, useRef, useState } from 'react'

import { PlanError, sayFault } from '../../core/errors.ts'
import { LOG_LIMIT } from '../../core/plan/log.ts'

interface FileButtonProps {
  /** Endings of files that are offered. */
  readonly accept: string
  /** What the file is, for those who hear the page. */
  readonly label: string
  /** Takes its text; what it throws as `PlanError` is told beside the button. */
  readonly take: (text: string) => void
  readonly children: ReactNode
}

/** Asks for a file and hands its text on. */
export function FileButton({ accept, label, take, children }: FileButtonProps): ReactNode {
  const chooser = useRef<HTMLInputElement>(null)
  const [problem, setProblem] = useState<string | null>(null)
  const read = async (file: File): Promise<void> => {
    if (file.size > LOG_LIMIT) {
      setProblem(`“${file.name}” is larger than ${LOG_LIMIT / 1e6} MB: give a shorter log`)
      return
    }
    try {
      take(await file.text())
      setProblem(null)
    } catch (error) {
      if (!(error instanceof PlanError)) throw error
      setProblem(error.faults.map(sayFault).join('. '))
    }
  }
  return (
    <p className="second">
      <input
        ref={chooser}
        type="file"
        accept={accept}
        hidden
        aria-label={label}
        onChange={(event) => {
          const file = event.target.files?.[0]
          event.target.value = ''
          if (file !== undefined) void read(file)
        }}
      />
      <button type="button" className="link" onClick={() => chooser.current?.click()}>
        {children}
      </button>
      {problem === null ? null : <span role="alert"> {problem}</span>}
    </p>
  )
}
