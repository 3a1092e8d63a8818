import type { ReactNode } from 'react'

import { FileButton } from '../parts/FileButton.tsx'
import { askOfLog } from './log-import.ts'

/** Takes readings from a logger's file, after what it can't say itself has been asked. */
export function LogButton(): ReactNode {
  return (
    <FileButton accept=".csv,.txt,.tsv" label="Logger file of readings" take={askOfLog}>
      Import a logger file…
    </FileButton>
  )
}
