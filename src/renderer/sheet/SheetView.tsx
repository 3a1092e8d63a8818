import { type ReactNode, useMemo } from 'react'

import { checkEntries } from '../../core/sheet/entries.ts'
import { type Page, pageOf } from '../../core/sheet/page.ts'
import { makeSheet } from '../../core/sheet/sheet.ts'
import { calendarText } from '../../core/words/calendar.ts'
import { curvesCsv } from '../../core/words/csv.ts'
import { bridge } from '../bridge.ts'
import { dateAndClock } from '../format-time.ts'
import { useNotices } from '../notices.ts'
import type { ForecastPaneProps } from '../panes/pane-props.ts'
import { useShown } from '../panes/use-shown.ts'
import { Choice } from '../parts/Choice.tsx'
import { clockChangesOf } from '../plan-clock.ts'
import { useSettings } from '../settings.ts'
import { giveFile } from './give-file.ts'
import { SheetPage } from './SheetPage.tsx'
import './sheet.css'

/** What goes to the wall of the workshop, as it prints, with the ways to get it out. */
export function SheetView(): ReactNode {
  const shown = useShown()
  if (shown === null)
    return (
      <main className="sheet-view">
        <h1 className="unseen">Sheet</h1>
        <p className="second">The sheet follows the first forecast.</p>
      </main>
    )
  return <Sheet {...shown} />
}

function Sheet({ forecast, plan, show, stale }: ForecastPaneProps): ReactNode {
  const { settings, change } = useSettings()
  const status = useNotices((state) => state.status)
  const onPaper = useMemo(
    () => ({ ...show, moment: (at_h: number) => dateAndClock(plan.startsAt, at_h) }),
    [show, plan.startsAt],
  )
  const sheet = useMemo(() => makeSheet(plan, forecast), [plan, forecast])
  const page: Page = useMemo(() => pageOf(sheet, plan, onPaper), [sheet, plan, onPaper])
  const name = plan.title
  const savePdf = () => giveFile(() => bridge.ask('saveSheet', { name, page: copied(page), paper: settings.paper }))
  const saveText = (ending: 'ics' | 'csv', data: string) =>
    giveFile(() => bridge.ask('exportFile', { name, ending, encoding: 'utf8', data }))
  return (
    <main className="sheet-view" data-paper={settings.paper}>
      <aside className="sheet-options" aria-label="Paper and files">
        <h2>Sheet</h2>
        {stale === null ? null : <p className="second">From before your last change of {stale}.</p>}
        <Choice
          label="Paper"
          value={settings.paper}
          groups={[{ title: null, options: papers }]}
          onChoose={(id) => change({ paper: id === 'Letter' ? 'Letter' : 'A4' })}
        />
        <button type="button" className="button" onClick={() => void bridge.print()}>
          Print
        </button>
        <button type="button" className="button" onClick={savePdf}>
          Save as PDF
        </button>
        <button
          type="button"
          className="button"
          onClick={() =>
            saveText(
              'ics',
              calendarText(name, plan.startsAt, checkEntries(sheet, onPaper), Date.now(), clockChangesOf(plan)),
            )
          }
        >
          Check times to calendar
        </button>
        <button type="button" className="button" onClick={() => saveText('csv', curvesCsv(forecast))}>
          Curves as CSV
        </button>
        {status.startsWith('Saved ') ? <p className="second">{status}</p> : null}
      </aside>
      <SheetPage page={page} />
    </main>
  )
}

const papers = [
  { id: 'A4', title: 'A4' },
  { id: 'Letter', title: 'Letter' },
]

/** The page as plain data that may be written to: what a call takes. */
const copied = (page: Page) => ({
  title: page.title,
  facts: page.facts.map(([fact, value]): [string, string] => [fact, value]),
  blocks: page.blocks.map((block) =>
    block.kind === 'list'
      ? { ...block, lines: [...block.lines] }
      : { ...block, columns: block.columns.map((column) => ({ ...column })), rows: block.rows.map((row) => [...row]) },
  ),
})
