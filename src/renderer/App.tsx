import { type ReactNode, Suspense } from 'react'
import { askOfLog } from './day/log-import.ts'
import { EvidencePage } from './evidence/EvidencePage.tsx'
import { useHelp } from './help/help-store.ts'
import { useMaterialPage } from './material/material-page.ts'
import { MeasuredList } from './measured/MeasuredList.tsx'
import { useNotices } from './notices.ts'
import { EmptyPage } from './panes/EmptyPage.tsx'
import { Header } from './panes/Header.tsx'
import { Patterns } from './parts/Patterns.tsx'
import { QuestionDialog } from './parts/QuestionDialog.tsx'
import { useFileDrop } from './parts/use-file-drop.ts'
import { openDropped } from './plan-files.ts'
import { usePlan } from './plan-store.ts'
import { useView } from './view-store.ts'
import { DayView, Help, MaterialPage, PlanView, SheetView } from './views.ts'

/** A plan is opened; a logger's file is taken for the day of the plan that is open. */
function takeFile(file: File): void {
  const planned = usePlan.getState().history !== null
  if (planned && /\.(csv|tsv|txt)$/i.test(file.name)) {
    useView.getState().show('day')
    void file.text().then(askOfLog)
  } else void openDropped(file)
}

/** The whole page. Files may be dropped anywhere on it. */
export function App(): ReactNode {
  const open = usePlan(({ history }) => history !== null)
  const opening = usePlan((state) => state.opening)
  const dropping = useFileDrop(takeFile)
  const helping = useHelp((state) => state.open)
  return (
    <>
      <Patterns />
      <Header />
      <Suspense fallback={null}>{open ? <OpenPlan key={opening} /> : <EmptyPage />}</Suspense>
      <QuestionDialog />
      <Suspense fallback={null}>{helping ? <Help /> : null}</Suspense>
      <MeasuredList />
      <EvidencePage />
      <Status />
      {dropping ? (
        <div className="drop-frame">
          <b>{open ? 'Let go to open this plan, or to take this logger file' : 'Let go to open this plan'}</b>
        </div>
      ) : null}
    </>
  )
}

/** The view of the plan that is chosen, or the material that is looked at. */
function OpenPlan(): ReactNode {
  const view = useView((state) => state.view)
  const material = useMaterialPage(({ shown }) => shown)
  if (material !== null) return <MaterialPage shown={material} />
  if (view === 'day') return <DayView />
  return view === 'sheet' ? <SheetView /> : <PlanView />
}

/** What has just happened, for those who listen. */
function Status(): ReactNode {
  const status = useNotices((state) => state.status)
  return (
    <p className="unseen" role="status">
      {status}
    </p>
  )
}
