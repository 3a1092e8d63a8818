import { createRoot } from 'react-dom/client'
import { bridge } from './bridge.ts'

const root = document.getElementById('root')
if (root === null) throw new Error('no root element')
const { program, version } = await bridge.ask('ready', {})
createRoot(root).render(
  <main>
    <h1>Thickset</h1>
    <p>
      {version}, {program}
    </p>
  </main>,
)
