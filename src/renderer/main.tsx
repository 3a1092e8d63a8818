import { createRoot } from 'react-dom/client'

import { App } from './App.tsx'
import { startAutosave } from './autosave.ts'
import { bridge } from './bridge.ts'
import { runKey } from './commands.ts'
import { startForecasting } from './forecasting.ts'
import { loadMeasured } from './measured/measured-store.ts'
import { askPerson } from './notices.ts'
import { startPlanClock } from './plan-clock.ts'
import { openRead, savePlan, withTelling } from './plan-files.ts'
import { meetProgram } from './program.ts'
import { startSettings } from './settings.ts'
import { fetchAhead } from './views.ts'
import './styles/index.css'

const place = document.getElementById('root')
if (place === null) throw new Error('the page has no place for the program')
const root = createRoot(place)

bridge.listen((event) => {
  if (event.kind === 'plan-opened') void openRead(event.plan)
  if (event.kind === 'failed') void askPerson({ title: 'Not done', lines: [event.message], answers: [yes] })
  if (event.kind === 'save-asked') {
    void withTelling(async () => {
      if (await savePlan()) await bridge.ask('leave', {})
    })
  }
})

const yes = { id: 'ok', label: 'All right' }

try {
  const ready = await bridge.ask('ready', {})
  meetProgram(ready)
  startSettings(ready.settings, (settings) => bridge.ask('writeSettings', { settings }))
  startPlanClock()
  startForecasting()
  startAutosave()
  // without it plans work all the same; it is read again at the next start
  loadMeasured().catch(() => undefined)
  addEventListener('keydown', runKey)
  root.render(<App />)
  void fetchAhead(() => new Promise((done) => requestIdleCallback(() => done())))
  if (ready.opened !== null) await openRead(ready.opened)
  if (ready.notices.length > 0) await askPerson({ title: 'Before you begin', lines: ready.notices, answers: [yes] })
} catch (error) {
  root.render(
    <main className="no-program">
      <h1>Thickset</h1>
      <p>{error instanceof Error ? error.message : String(error)}</p>
    </main>,
  )
}
